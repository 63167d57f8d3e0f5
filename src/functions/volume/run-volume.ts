import { raise } from '../../faults/issue.ts';
import { defineFunction } from '../define.ts';
import { optional, runsTable, text } from '../parameters.ts';

export const runVolume = defineFunction({
  id: 'RUN.VOLUME',
  group: 'Volume',
  summary: 'Gives the inside volume of pipe runs and components, of one unit or of all.',
  parameters: {
    runs: runsTable(),
    unit: optional(text('name of the unit; omitted: all units together')),
  },
  result: { kind: 'number', quantity: 'volume', unit: 'L', description: 'inside volume' },
  examples: [
    {
      formula:
        '=NARROWS.RUN.VOLUME({"Unit","Size","Length (m)";"Reading room","3/8 in",12;"Reading room","5/8 in",12})',
      shows: '2.46 L',
    },
  ],
  sources: ['pi/4 x bore^2 x length x count, and the volumes given for components'],
  body: ({ runs, unit }) => {
    if (unit === undefined) return runs.runs.reduce((sum, run) => sum + run.volume, 0);
    return runs.volumeOf(unit) ?? raise({ kind: 'unknown', what: 'unit in the runs', value: unit, known: runs.units });
  },
});
