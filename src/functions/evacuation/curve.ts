import { pullDownCurve } from '../../engine/evacuate/pulldown.ts';
import { effectiveSpeed, pumpInletAt } from '../../engine/rig/speed.ts';
import { defineFunction } from '../define.ts';
import { conditions, number, optional, partsTable, quantity, text } from '../parameters.ts';
import { pressureColumn, speedColumn, timeColumn } from '../rig/columns.ts';
import { curveOf, loadOf } from '../rig/curves.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { DRY_NOTE, MODEL_NOTES, PULL_DOWN_SOURCE } from './model-notes.ts';

const DEFAULT_POINTS = 25;
const MOST_POINTS = 5000;

const columns = [
  timeColumn('Time'),
  pressureColumn('System pressure'),
  pressureColumn('Pump pressure'),
  speedColumn('Speed at system'),
] as const;

export const evacCurve = defineFunction({
  id: 'EVAC.CURVE',
  group: 'Evacuation',
  summary: 'The pull-down as a table for a chart: time, pressure at the system and at the pump, effective speed.',
  parameters: {
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    points: optional(number('how many points', { atLeast: 2, atMost: MOST_POINTS }), DEFAULT_POINTS),
    conditions: conditions(),
  },
  result: { kind: 'table', columns, description: 'one row a point, from the start pressure to the target' },
  examples: [
    {
      formula: `=NARROWS.EVAC.CURVE(20,${EXAMPLE_PARTS},"small",10)`,
      shows: 'ten points of the pull-down of a 20 L system through a small hose on a fitted core',
    },
  ],
  notes: [
    'The points lie at even steps of the logarithm of the pressure above the lowest that the rig reaches.',
    'What stands between the two pressure columns is what a gauge at the pump hides.',
    DRY_NOTE,
    ...MODEL_NOTES,
  ],
  sources: [PULL_DOWN_SOURCE],
  body: ({ volume, parts, rig, points, conditions }) => {
    const { gas, startPressure, target } = conditions;
    const curve = curveOf(parts.rig(rig), gas);
    const moments = pullDownCurve(curve, volume, startPressure, target, Math.round(points), loadOf(conditions));
    const rows = moments.map(({ time, pressure }) => [
      time,
      pressure,
      pumpInletAt(curve, pressure),
      effectiveSpeed(curve, pressure),
    ]);
    return { columns, rows };
  },
});
