import { rigFigures } from '../../engine/evacuate/rig-figures.ts';
import { withPumpSpeed } from '../../engine/rig/change.ts';
import { shortNumber } from '../../faults/words.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import { defineFunction } from '../define.ts';
import { conditions, list, optional, partsTable, quantity } from '../parameters.ts';
import { pressureColumn, shareColumn, speedColumn, textColumn, timeColumn } from './columns.ts';
import { curveOf, loadOf } from './curves.ts';
import { EXAMPLE_PARTS } from './example-parts.ts';

const columns = [
  textColumn('Rig'),
  speedColumn('Pump speed'),
  speedColumn('Meter reading'),
  shareColumn('Share of the pump'),
  speedColumn('Speed at target'),
  timeColumn('Time to target'),
  textColumn('Worst part'),
  shareColumn('Its share of loss'),
  pressureColumn('Lowest pressure'),
] as const;

export const rigCompare = defineFunction({
  id: 'RIG.COMPARE',
  group: 'Rig',
  summary: 'Every rig of a parts table behind every pump speed: meter reading, speed at target, minutes, worst part.',
  parameters: {
    parts: partsTable(),
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    speeds: optional(list('volume flow', 'L/s', 'pump speeds to try; blank: each rig’s own pump', { above: 0 })),
    conditions: conditions(),
  },
  result: { kind: 'table', columns, description: 'one row for each rig and pump speed' },
  examples: [
    {
      formula: `=NARROWS.RIG.COMPARE(${EXAMPLE_PARTS},20,{"4 cfm","10 cfm"})`,
      shows: 'that a bigger pump behind a small hose on a core changes next to nothing, and a wide hose much',
    },
  ],
  notes: [
    'Share of the pump is the meter reading over the speed of the pump, which is the largest of its Speed table where it has one.',
    'The worst part is the one with the largest share of the loss at the target pressure.',
    'Where a rig does not reach the target, its time is #N/A and the worst part says what it reaches at the lowest.',
    'A pump speed that is tried keeps the ultimate pressure of the rig’s own pump, and its Speed table in proportion.',
  ],
  sources: ['March through the parts from the pump inlet upstream; pull-down on the curve of each rig.'],
  body: ({ parts, volume, speeds, conditions }) => {
    const { gas, startPressure: start, target, ambientPressure } = conditions;
    const task = { volume, start, target, load: loadOf(conditions) };
    const rows: Cell[][] = [];
    for (const rig of parts.rigs.values()) {
      for (const speed of speeds ?? [rig.pump.speed]) {
        const curve = curveOf(speed === rig.pump.speed ? rig : withPumpSpeed(rig, speed), gas);
        const { meter, speedAtTarget, time, lowest, worst } = rigFigures(curve, task, ambientPressure);
        const short = `target out of reach: ${shortNumber(lowest)} Pa at the lowest`;
        rows.push([
          rig.name,
          speed,
          meter,
          meter / speed,
          speedAtTarget,
          time ?? noAnswer(short),
          time === undefined ? short : (worst?.name ?? rig.pump.name),
          time === undefined ? '' : (worst?.share ?? ''),
          lowest,
        ]);
      }
    }
    return { columns, rows };
  },
});
