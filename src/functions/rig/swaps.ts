import { pullDownTime } from '../../engine/evacuate/pulldown.ts';
import { timeIfReached } from '../../engine/evacuate/rig-figures.ts';
import { type Swap, singleSwaps } from '../../engine/rig/change.ts';
import { type Cell, noAnswer } from '../../tables/cells.ts';
import { defineFunction } from '../define.ts';
import { conditions, partsTable, quantity, text } from '../parameters.ts';
import { shareColumn, textColumn, timeColumn } from './columns.ts';
import { curveOf, loadOf } from './curves.ts';
import { EXAMPLE_PARTS } from './example-parts.ts';

const columns = [
  textColumn('Change'),
  timeColumn('Time to target'),
  timeColumn('Time saved'),
  shareColumn('Saved'),
] as const;

export function swapWords(swap: Swap): string {
  switch (swap.kind) {
    case 'remove':
      return `take out ${swap.part.name}`;
    case 'bore':
      return `${swap.part.name}: ${swap.size} hose bore`;
    case 'length':
      return `${swap.part.name}: half the length`;
    case 'pump':
      return 'pump of twice the speed';
  }
}

export const rigSwaps = defineFunction({
  id: 'RIG.SWAPS',
  group: 'Rig',
  summary:
    'Each single change of a rig ranked by the minutes that it saves: core out, next hose, half length, twice the pump.',
  parameters: {
    parts: partsTable(),
    rig: text('name of a rig of the parts table'),
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    conditions: conditions(),
  },
  result: { kind: 'table', columns, description: 'the rig as it is, then one row a change, the best first' },
  examples: [
    {
      formula: `=NARROWS.RIG.SWAPS(${EXAMPLE_PARTS},"small",20)`,
      shows: 'what to change first on a small hose with a fitted core',
    },
  ],
  notes: [
    'One thing is changed at a time, everything else stays. Hose bores go up by the usual sizes 1/4, 3/8, 1/2, 3/4 in.',
    'Taking a core out needs a core-removal tool that holds the pressure of the system.',
  ],
  sources: ['Pull-down on the curve of the changed rig.'],
  body: ({ parts, rig, volume, conditions }) => {
    const { gas, startPressure: start, target } = conditions;
    const task = { volume, start, target, load: loadOf(conditions) };
    const chosen = parts.rig(rig);
    const before = pullDownTime(curveOf(chosen, gas), volume, start, target, task.load);
    const changes = singleSwaps(chosen)
      .map((swap) => ({ words: swapWords(swap), time: timeIfReached(curveOf(swap.rig, gas), task) }))
      .sort((a, b) => (a.time ?? Number.POSITIVE_INFINITY) - (b.time ?? Number.POSITIVE_INFINITY));
    const unreached = noAnswer('The rig does not reach the target with this change.');
    const rows = changes.map(({ words, time }): Cell[] =>
      time === undefined ? [words, unreached, unreached, unreached] : [words, time, before - time, 1 - time / before],
    );
    return { columns, rows: [['as it is', before, 0, 0], ...rows] };
  },
});
