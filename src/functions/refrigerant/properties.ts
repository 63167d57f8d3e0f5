import { refrigerantByName, refrigerantNames } from '../../engine/refrigerant/by-name.ts';
import type { Refrigerant } from '../../engine/refrigerant/refrigerant.ts';
import { raise } from '../../faults/issue.ts';
import { fromSI, fromUnit } from '../../units/quantity.ts';
import { defineFunction } from '../define.ts';
import { choice, optional, quantity, text } from '../parameters.ts';

const PROPERTIES = [
  'bubble pressure',
  'dew pressure',
  'bubble temperature',
  'dew temperature',
  'glide',
  'liquid density',
  'vapour density',
  'latent heat',
  'liquid heat capacity',
  'vapour viscosity',
  'liquid viscosity',
  'heat capacity ratio',
  'critical temperature',
  'critical pressure',
  'molar mass',
  'safety class',
  'composition',
] as const;

type Property = (typeof PROPERTIES)[number];

interface State {
  /** K */
  readonly temperature: number;
  /** Pa; raises `missing` where none was given */
  readonly pressure: () => number;
  readonly hasPressure: boolean;
}

const KILO = 1000;

/** What each property is shown in stands in the result of the declaration. */
const READ: { readonly [P in Property]: (fluid: Refrigerant, at: State) => number | string } = {
  'bubble pressure': (fluid, { temperature }) => fluid.bubblePressure(temperature),
  'dew pressure': (fluid, { temperature }) => fluid.dewPressure(temperature),
  'bubble temperature': (fluid, { pressure }) => fromSI(fluid.bubbleTemperature(pressure()), 'C', 'temperature'),
  'dew temperature': (fluid, { pressure }) => fromSI(fluid.dewTemperature(pressure()), 'C', 'temperature'),
  glide: (fluid, { pressure }) => Math.max(0, fluid.dewTemperature(pressure()) - fluid.bubbleTemperature(pressure())),
  'liquid density': (fluid, { temperature }) => fluid.liquidDensity(temperature),
  'vapour density': (fluid, { temperature, pressure, hasPressure }) =>
    hasPressure ? fluid.vapourDensity(temperature, pressure()) : fluid.saturatedVapourDensity(temperature),
  'latent heat': (fluid, { temperature }) => fluid.latentHeat(temperature) / KILO,
  'liquid heat capacity': (fluid, { temperature }) => fluid.liquidHeat(temperature) / KILO,
  'vapour viscosity': (fluid, { temperature }) => fromSI(fluid.vapourViscosity(temperature), 'uPa s', 'viscosity'),
  'liquid viscosity': (fluid, { temperature }) => fromSI(fluid.liquidViscosity(temperature), 'uPa s', 'viscosity'),
  'heat capacity ratio': (fluid, { temperature }) => fluid.heatCapacityRatio(temperature),
  'critical temperature': (fluid) => fromSI(fluid.criticalTemperature, 'C', 'temperature'),
  'critical pressure': (fluid) => fluid.criticalPressure,
  'molar mass': (fluid) => fromSI(fluid.molarMass, 'g/mol', 'molar mass'),
  'safety class': (fluid) => fluid.safetyClass,
  composition: (fluid) => (fluid.composition === '' ? 'single substance' : fluid.composition),
};

const property = choice(PROPERTIES, 'property that is wanted');

export const refrigerantFunction = defineFunction({
  id: 'REFRIGERANT',
  group: 'Look-up',
  summary: 'Gives a property of a refrigerant: saturation, densities, latent heat, viscosities, safety class and more.',
  parameters: {
    refrigerant: text(`refrigerant: ${refrigerantNames.join(', ')}`),
    property: {
      ...property,
      // the other spelling of the same word
      read: (raw, argument) =>
        property.read(typeof raw === 'string' ? raw.replace(/\bvapor\b/iu, 'vapour') : raw, argument),
    },
    temperature: optional(
      quantity('temperature', 'C', 'temperature, default 20 C', { above: -273.15 }),
      fromUnit(20, 'C', 'temperature'),
    ),
    pressure: optional(
      quantity('pressure', 'Pa', 'absolute pressure, for bubble and dew temperature, glide and vapour density', {
        above: 0,
      }),
    ),
  },
  result: {
    kind: 'number',
    unit: 'by the property',
    description:
      'pressures in Pa absolute, temperatures in C, glide in K, densities in kg/m3, latent heat in kJ/kg, heat capacity in kJ/(kg K), viscosities in uPa s, heat capacity ratio plain, molar mass in g/mol; safety class and composition as text',
  },
  examples: [
    { formula: '=NARROWS.REFRIGERANT("R-410A","bubble pressure",20)', shows: 'about 1,447,000 Pa' },
    { formula: '=NARROWS.REFRIGERANT("R-32","liquid density","68 F")', shows: 'about 981 kg/m3' },
    { formula: '=NARROWS.REFRIGERANT("R-407C","glide",20,"5 bar")', shows: 'about 6.2 K' },
    { formula: '=NARROWS.REFRIGERANT("R-134a","vapour density",20,"1 bar")', shows: 'about 4.28 kg/m3' },
    { formula: '=NARROWS.REFRIGERANT("R-290","safety class")', shows: 'A3, the class of flammable refrigerants' },
  ],
  notes: [
    'Bubble is where the liquid begins to boil, dew where the last of it is vapour: one line for a pure refrigerant. Bubble and dew temperature and glide are at the pressure, and need it.',
    'Vapour density is that of saturated vapour, or with a pressure that of the real gas at temperature and pressure, at or below the dew pressure. Latent heat is from bubble to dew at one temperature; heat capacity is that of saturated liquid.',
    'Vapour viscosity and heat capacity ratio are those of the dilute vapour. Viscosities of R-448A, R-449A, R-452A, R-454B, R-454C and R-513A are estimated from their components (vapour within about 5 %, liquid within about 10 %, more when cold).',
    'Saturation goes from -100 C (-73 C for R-404A, R-407C, R-410A and R-507A, -77.1 C for R-717, -56 C for R-744) to 5 K below the critical temperature; vapour goes to 100 C at least. Between the points of the table pressures and densities are within 0.1 % of the equations of state, vapour density within 0.2 %.',
  ],
  sources: [
    'Equations of state of the reference literature as evaluated by CoolProp 8.0.0 (MIT licence); the equation of each refrigerant stands beside its data in engine/refrigerant/data',
    'ANSI/ASHRAE Standard 34 and ISO 817: compositions and safety classes',
  ],
  body: ({ refrigerant, property, temperature, pressure }) =>
    READ[property](refrigerantByName(refrigerant), {
      temperature,
      hasPressure: pressure !== undefined,
      pressure: () => pressure ?? raise({ kind: 'missing', argument: 'pressure' }),
    }),
});
