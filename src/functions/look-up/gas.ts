import { gasState } from '../../engine/gas/gas.ts';
import type { GasState } from '../../engine/gas/state.ts';
import { fromUnit } from '../../units/quantity.ts';
import { defineFunction } from '../define.ts';
import { choice, optional, quantity, text } from '../parameters.ts';

const PROPERTIES = ['viscosity', 'molar mass', 'heat capacity ratio', 'gas constant', 'molecular speed'] as const;

type Property = (typeof PROPERTIES)[number];

/** What each property is shown in: uPa s, g/mol, plain, J/(kg K), m/s. */
const READ: { readonly [P in Property]: (gas: GasState) => number } = {
  viscosity: (gas) => gas.viscosity / fromUnit(1, 'uPa s', 'viscosity'),
  'molar mass': (gas) => gas.molarMass / fromUnit(1, 'g/mol', 'molar mass'),
  'heat capacity ratio': (gas) => gas.heatCapacityRatio,
  'gas constant': (gas) => gas.specificGasConstant,
  'molecular speed': (gas) => gas.probableSpeed,
};

export const gasFunction = defineFunction({
  id: 'GAS',
  group: 'Look-up',
  summary: 'Gives a property of a gas: viscosity, molar mass, heat capacity ratio, gas constant or molecular speed.',
  parameters: {
    gas: text('name of the gas: air, nitrogen, water vapour, argon, helium, carbon dioxide and others'),
    property: choice(PROPERTIES, 'property that is wanted'),
    temperature: optional(
      quantity('temperature', 'C', 'temperature of the gas, default 20 C', { above: -273.15 }),
      fromUnit(20, 'C', 'temperature'),
    ),
  },
  result: {
    kind: 'number',
    unit: 'uPa s, g/mol, plain, J/(kg K) or m/s',
    description:
      'viscosity in uPa s, molar mass in g/mol, heat capacity ratio plain, specific gas constant in J/(kg K), most probable molecular speed in m/s',
  },
  examples: [
    { formula: '=NARROWS.GAS("air","viscosity")', shows: 'about 18.2 uPa s' },
    { formula: '=NARROWS.GAS("nitrogen","molar mass")', shows: '28.01 g/mol' },
    { formula: '=NARROWS.GAS("water vapour","viscosity","50 C")', shows: 'about 10.6 uPa s' },
  ],
  notes: [
    'Values are those of the dilute gas, which does not depend on pressure.',
    'The heat capacity ratio is that at 20 C whatever the temperature, as the rig models use it; REFRIGERANT gives it by temperature for refrigerants.',
  ],
  sources: ['the source of each gas stands beside its data in engine/gas'],
  body: ({ gas, property, temperature }) => READ[property](gasState(gas, temperature)),
});
