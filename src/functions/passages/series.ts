import { inSeries } from '../../engine/flow/conductance.ts';
import { defineFunction } from '../define.ts';
import { list, repeating } from '../parameters.ts';

export const series = defineFunction({
  id: 'SERIES',
  group: 'Passages',
  summary: 'Conductance of passages one behind another.',
  parameters: {
    conductance: repeating(
      list('volume flow', 'L/s', 'conductance, or a range of them', { above: 0, atLeast: 1e-15, atMost: 1e15 }),
    ),
  },
  result: { kind: 'number', quantity: 'volume flow', unit: 'L/s', description: 'combined conductance' },
  examples: [
    { formula: '=NARROWS.SERIES(2,2)', shows: '1 L/s: two equal passages pass half of one' },
    { formula: '=NARROWS.SERIES("4 cfm",{1;2})', shows: 'a pump of 4 cfm behind two passages' },
  ],
  notes: [
    'Reciprocals add. This holds where every conductance is meant at its own pressure: for a rig over a wide range of pressures use RIG.SPEED.',
  ],
  body: ({ conductance }) => inSeries(conductance),
});
