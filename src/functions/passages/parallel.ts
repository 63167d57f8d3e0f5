import { inParallel } from '../../engine/flow/conductance.ts';
import { defineFunction } from '../define.ts';
import { list, repeating } from '../parameters.ts';

export const parallel = defineFunction({
  id: 'PARALLEL',
  group: 'Passages',
  summary: 'Conductance of passages side by side.',
  parameters: {
    conductance: repeating(
      list('volume flow', 'L/s', 'conductance, or a range of them', { above: 0, atLeast: 1e-15, atMost: 1e15 }),
    ),
  },
  result: { kind: 'number', quantity: 'volume flow', unit: 'L/s', description: 'combined conductance' },
  examples: [
    { formula: '=NARROWS.PARALLEL(2,2)', shows: '4 L/s: two equal passages pass twice as much' },
    { formula: '=NARROWS.SERIES(3,NARROWS.PARALLEL(1,1))', shows: 'two hoses side by side in front of a valve' },
  ],
  notes: ['Conductances add, where all of them join the same two places.'],
  body: ({ conductance }) => inParallel(conductance),
});
