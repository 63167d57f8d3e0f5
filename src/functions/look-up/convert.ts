import { convert } from '../../units/quantity.ts';
import { defineFunction } from '../define.ts';
import { number, text } from '../parameters.ts';

export const convertFunction = defineFunction({
  id: 'CONVERT',
  group: 'Look-up',
  summary: 'Converts a number from one unit to another, gauge, vacuum and absolute pressures included.',
  parameters: {
    value: number('number to convert'),
    from: text('unit that it is in, such as micron, inHg vac, psi g, cfm, ft, oz, F or min'),
    to: text('unit that is wanted'),
  },
  result: { kind: 'number', unit: 'the unit that is wanted', description: 'the number in the unit that is wanted' },
  examples: [
    { formula: '=NARROWS.CONVERT(500,"micron","Pa")', shows: '66.66' },
    { formula: '=NARROWS.CONVERT(4,"cfm","L/s")', shows: '1.888' },
    {
      formula: '=NARROWS.CONVERT(25,"inHg vac","mbar")',
      shows: '166.7, the absolute pressure under a vacuum of 25 inHg',
    },
    { formula: '=NARROWS.CONVERT(-40,"F","C")', shows: '-40' },
  ],
  notes: [
    'Gauge pressures and vacuum are counted from the standard atmosphere of 101,325 Pa: where the barometer stands elsewhere, use absolute pressures.',
    'A unit that belongs to more than one quantity is taken as the first that knows both units; K, C and F are temperatures, delta K, delta C and delta F are differences.',
    'sccm and slm stand for Pa m3/s at 0 C.',
  ],
  sources: ['NIST Special Publication 811 (2008), appendix B', 'CODATA 2018'],
  body: ({ value, from, to }) => convert(value, from, to),
});
