import { pullDownTime } from '../../engine/evacuate/pulldown.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { curveOf, loadOf } from '../rig/curves.ts';
import { EXAMPLE_PARTS } from '../rig/example-parts.ts';
import { DRY_NOTE, MODEL_NOTES, PULL_DOWN_SOURCE } from './model-notes.ts';

export const evacTime = defineFunction({
  id: 'EVAC.TIME',
  group: 'Evacuation',
  summary: 'Minutes to pull a system of one volume from the start pressure down to the target through a rig.',
  parameters: {
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'time', unit: 'min', description: 'time to the target pressure' },
  examples: [
    {
      formula: `=NARROWS.EVAC.TIME(20,${EXAMPLE_PARTS},"small")`,
      shows: 'a 20 L system from ambient pressure to 500 micron through a small hose on a fitted core',
    },
    {
      formula: `=NARROWS.EVAC.TIME("20 L",${EXAMPLE_PARTS},"wide",{"Target pressure","300 micron"})`,
      shows: 'the same system to 300 micron through a wide hose without the core',
    },
  ],
  notes: [DRY_NOTE, ...MODEL_NOTES],
  sources: [PULL_DOWN_SOURCE],
  body: ({ volume, parts, rig, conditions }) => {
    const { gas, startPressure, target } = conditions;
    return pullDownTime(curveOf(parts.rig(rig), gas), volume, startPressure, target, loadOf(conditions));
  },
});
