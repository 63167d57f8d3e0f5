import { gasNames, knownGas } from '../../engine/gas/gas.ts';
import { leakRate, massFlowOf } from '../../engine/hold/leak.ts';
import { findRefrigerant, refrigerantNames } from '../../engine/refrigerant/by-name.ts';
import { raise } from '../../faults/issue.ts';
import { fromSI } from '../../units/quantity.ts';
import { defineFunction } from '../define.ts';
import { optional, pressureDifference, quantity, text } from '../parameters.ts';

/** K: 20 C, at which the mass of a throughput is counted. */
const COUNTED_AT = 293.15;

const KNOWN = [...new Set([...refrigerantNames, ...gasNames])];

function leakingGas(name: string): { readonly name: string; readonly molarMass: number } {
  return knownGas(name) ?? findRefrigerant(name) ?? raise({ kind: 'unknown', what: 'gas', value: name, known: KNOWN });
}

export const leakRateFunction = defineFunction({
  id: 'LEAK.RATE',
  group: 'Hold test',
  summary: 'Leak rate from the pressure rise of an isolated volume, and the same throughput as grams a year of a gas.',
  parameters: {
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    rise: pressureDifference('pressure rise: a difference, such as "200 micron"', { atLeast: 0 }),
    minutes: quantity('time', 'min', 'time in which it rose', { above: 0 }),
    refrigerant: optional(text('refrigerant or other gas, such as R-134a; adds its grams a year')),
  },
  result: {
    kind: 'number',
    quantity: 'throughput',
    unit: 'Pa m3/s',
    description: 'leak rate; with a refrigerant a table of two columns, leak rate and grams a year of that refrigerant',
  },
  examples: [
    { formula: '=NARROWS.LEAK.RATE(20,"200 micron",60)', shows: '0.000148 Pa m3/s' },
    {
      formula: '=NARROWS.LEAK.RATE(20,0.9,10,"R-134a")',
      shows: 'two columns: 0.00003 Pa m3/s, and 39.6 g a year of R-134a',
    },
  ],
  notes: [
    'Q = V times rise over time. A year is 365.25 days.',
    'Grams a year are those of the same throughput of that vapour, as an ideal gas at 20 C. They are not what the same hole loses from a charged system: there the pressure, the viscosity and often the phase differ, and the loss can be many times larger. No such conversion is implied.',
    'A rise counts as a leak here: HOLD.READ tells whether it is one.',
  ],
  sources: ['Q = V dp/dt; ideal gas law, dm/dt = Q M/(R T)'],
  body: ({ volume, rise, minutes, refrigerant }) => {
    const rate = leakRate(volume, rise, minutes);
    if (refrigerant === undefined) return rate;
    const { name, molarMass } = leakingGas(refrigerant);
    return [
      ['Leak rate (Pa m3/s)', `${name} (g/year)`],
      [rate, fromSI(massFlowOf(rate, molarMass, COUNTED_AT), 'g/yr', 'mass flow')],
    ];
  },
});
