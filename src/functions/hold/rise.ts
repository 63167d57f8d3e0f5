import { pressureAfterHold } from '../../engine/hold/rise.ts';
import { defineFunction } from '../define.ts';
import { conditions, quantity } from '../parameters.ts';

export const holdRise = defineFunction({
  id: 'HOLD.RISE',
  group: 'Hold test',
  summary: 'Pressure of a system some time after it is valved off, with a given leak, water and outgassing.',
  parameters: {
    volume: quantity('volume', 'L', 'inside volume of the system', { above: 0 }),
    minutes: quantity('time', 'min', 'time since valving off', { atLeast: 0 }),
    start: quantity('pressure', 'Pa', 'absolute pressure when it is valved off', { atLeast: 0 }),
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'pressure', unit: 'Pa', description: 'absolute pressure at the end' },
  examples: [
    {
      formula: '=NARROWS.HOLD.RISE(20,10,"300 micron",{"Leak","0.00003 Pa m3/s"})',
      shows: '40.9 Pa: a small leak lifts a 20 L system by 0.9 Pa in ten minutes',
    },
    {
      formula: '=NARROWS.HOLD.RISE(20,60,"300 micron",{"Water","0.02 g";"Ambient","20 C"})',
      shows: 'what a drop too small to see comes to once it has evaporated',
    },
  ],
  notes: [
    'Leak of the conditions is steady: p rises by Q t/V. That holds up to half the Ambient pressure; beyond it is #NUM!.',
    'Outgassing is the value one hour after pumping began, and the system is taken as valved off at that moment; it falls on as (1 h/(1 h + t)) to the power of Outgassing exponent.',
    'Water is the most that moisture can come to: it has all evaporated, up to the saturation pressure at Ambient (over ice below freezing), and the gas at the start counts as vapour. In truth that takes minutes to hours; Heat is not used here.',
    'The gas keeps its temperature: Leak and Outgassing count at the temperature of the gas, vapour at Ambient.',
  ],
  sources: [
    'dp/dt = Q/V, rate-of-rise arithmetic of vacuum textbooks',
    'IAPWS SR1-86(1992) and IAPWS R14-08(2011): saturation pressure of water over liquid and over ice',
  ],
  body: ({ volume, minutes, start, conditions }) => {
    const { leak, outgassing, outgassingExponent, water, ambientTemperature, ambientPressure } = conditions;
    return pressureAfterHold(volume, minutes, start, {
      leak,
      outgassing,
      exponent: outgassingExponent,
      water,
      ambient: ambientTemperature,
      ambientPressure,
    });
  },
});
