import { tubeBore } from '../../tables/library/tube-sizes.ts';
import { defineFunction } from '../define.ts';
import { optional, text } from '../parameters.ts';

export const tubeBoreFunction = defineFunction({
  id: 'TUBE.BORE',
  group: 'Look-up',
  summary: 'Gives the inside diameter of a refrigeration copper tube by its size.',
  parameters: {
    size: text('tube size such as 3/8 in, 1 1/8 in or 10 mm: the outside diameter that tube is named by'),
    standard: optional(text('ASTM B280 coil, ASTM B280 straight or EN 12735-1; default: the first that has the size')),
  },
  result: { kind: 'number', quantity: 'length', unit: 'mm', description: 'inside diameter' },
  examples: [
    { formula: '=NARROWS.TUBE.BORE("3/8 in")', shows: '7.90 mm' },
    { formula: '=NARROWS.TUBE.BORE("10 mm","EN 12735-1")', shows: '8 mm' },
  ],
  notes: ['The wall is the nominal one of the standard: a tube of another wall is given by its bore instead.'],
  sources: ['ASTM B280 nominal dimensions', 'EN 12735-1'],
  body: ({ size, standard }) => tubeBore(size, standard),
});
