import { refrigerantByName } from '../../engine/refrigerant/by-name.ts';
import { cylinderFill, liquidFullTemperature, RULE_WATER } from '../../engine/refrigerant/cylinder.ts';
import { Fault, raise } from '../../faults/issue.ts';
import { fromSI, fromUnit, type Reading, readQuantity } from '../../units/quantity.ts';
import type { Parameter } from '../define.ts';
import { defineFunction } from '../define.ts';
import { choice, optional, quantity, text } from '../parameters.ts';

/** C, 77 F: where the filling rule takes its density */
const RULE_TEMPERATURE = 25;
/** C, 130 F: a cylinder left in the sun */
const WARM = 54.4;
const SHOWN = ['mass', 'liquid-full temperature', 'warm share'] as const;

const volume = quantity(
  'volume',
  'L',
  'water capacity of the cylinder: a volume, or the mass of water such as "47.6 lb"',
  {
    above: 0,
  },
);

/** A water capacity stamped as a mass of water is the volume of that water at 60 F. */
const waterCapacity: Parameter<number> = {
  ...volume,
  read: (raw, argument) => {
    try {
      return volume.read(raw, argument);
    } catch (error) {
      if (!(error instanceof Fault) || error.issue.kind !== 'unit' || typeof raw !== 'string') throw error;
      let mass: Reading;
      try {
        mass = readQuantity(raw, 'mass', 'kg', argument);
      } catch {
        throw error;
      }
      if (mass.si > 0) return mass.si / RULE_WATER;
      return raise({ kind: 'limit', argument, value: mass.value, rule: 'above', limit: 0, unit: mass.unit });
    }
  },
};

export const cylinderFillFunction = defineFunction({
  id: 'CYLINDER.FILL',
  group: 'Recovery and charging',
  summary:
    'Most refrigerant that may go into a recovery cylinder; local rules and the stamp on the cylinder come first.',
  parameters: {
    refrigerant: text('refrigerant, such as R-410A'),
    waterCapacity,
    temperature: optional(
      quantity('temperature', 'C', 'temperature at which liquid takes 80 % of the volume, default 25 C (77 F)', {
        above: -273.15,
      }),
      fromUnit(RULE_TEMPERATURE, 'C', 'temperature'),
    ),
    show: optional(
      choice(
        SHOWN,
        'what is wanted: the mass (default), the temperature at which liquid fills it, or how full it is at 54.4 C',
      ),
      'mass',
    ),
  },
  result: {
    kind: 'number',
    unit: 'kg; C for the liquid-full temperature, % for the warm share',
    description:
      'mass in kg; or the temperature in C at which liquid alone fills the cylinder with that mass in it; or the share of its volume in % that liquid takes at 54.4 C (130 F)',
  },
  examples: [
    {
      formula: '=NARROWS.CYLINDER.FILL("R-22","47.6 lb")',
      shows: 'about 20.6 kg, the figure for a cylinder that holds 47.6 lb of water',
    },
    { formula: '=NARROWS.CYLINDER.FILL("R-410A",21.6)', shows: 'about 18.3 kg' },
    { formula: '=NARROWS.CYLINDER.FILL("R-410A",21.6,25,"liquid-full temperature")', shows: 'about 57 C' },
  ],
  notes: [
    'Local rules, the stamp and the test date of the cylinder and the refrigerant that it is marked for come first. Weigh it the whole time; refrigerant, oil and what was in it before all count.',
    'Mass = 0.8 x volume x density of saturated liquid at the temperature; the vapour above it is left out, on the safe side. It is never more than would make the cylinder liquid full at 55 C (131 F), which binds where a cold temperature is given, nor more than the legal filling density where that is known (R-22, R-744).',
    'Carbon dioxide is above its critical temperature when warm and cannot be reckoned so alone: it never gets more than 68 % of the water capacity by mass, and only cylinders made for it may take it.',
    'A water capacity in kg or lb is that mass of water at 60 F. Some rules allow 80 % of the water capacity by mass whatever the density, which is less for dense refrigerants.',
    'Oil in the refrigerant makes the liquid lighter: recovered refrigerant fills a cylinder sooner than this figure.',
  ],
  sources: [
    'AHRI Guideline K, as explained in the trade: 80 % at 77 F',
    '49 CFR 173.304a: filling densities; not liquid full at 131 F (from memory)',
    'liquid densities as in REFRIGERANT',
  ],
  body: ({ refrigerant, waterCapacity, temperature, show }) => {
    const fluid = refrigerantByName(refrigerant);
    const { mass } = cylinderFill(fluid, waterCapacity, temperature);
    if (show === 'mass') return mass;
    const filling = mass / waterCapacity;
    if (show === 'warm share') return (100 * filling) / fluid.liquidDensity(fromUnit(WARM, 'C', 'temperature'));
    const full = liquidFullTemperature(fluid, filling);
    if (full !== undefined) return fromSI(full, 'C', 'temperature');
    return raise({
      kind: 'no-solution',
      reason: `no temperature to ${fluid.name}'s critical point, within 5 K, makes liquid alone fill the cylinder`,
      todo: 'Mind the pressure instead: near the critical temperature it rises steeply.',
    });
  },
});
