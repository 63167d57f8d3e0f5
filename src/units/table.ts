/**
 * Every unit that is understood, in one table: SI value = factor x value + offset. Names are matched without spaces, dots,
 * parentheses and raised signs; the first name of a unit is the one that messages and headers show.
 *
 * Factors: NIST Special Publication 811 (2008) appendix B, by way of tests/references/units.csv, unless a line says
 * otherwise. The defining constants are exact.
 */

/** m; exact by definition of 1959 */
const INCH = 0.0254;
const FOOT = 12 * INCH;
const YARD = 3 * FOOT;
/** kg; exact, avoirdupois */
const POUND = 0.45359237;
/** m/s2, exact */
const STANDARD_GRAVITY = 9.80665;
/** Pa, exact; gauge pressures are counted from here, so use absolute pressure where the barometer stands elsewhere */
export const STANDARD_ATMOSPHERE = 101325;
/** kg/m3, density of mercury in the conventional millimetre of mercury */
const MERCURY = 13595.1;
const MMHG = (MERCURY * STANDARD_GRAVITY) / 1000;
const TORR = STANDARD_ATMOSPHERE / 760;
const PSI = (POUND * STANDARD_GRAVITY) / (INCH * INCH);
const CUBIC_FOOT = FOOT ** 3;
const US_GALLON = 231 * INCH ** 3;
const UK_GALLON = 0.00454609;
const CUBIC_FOOT_PER_MINUTE = CUBIC_FOOT / 60;
/** J, international table */
const BTU = 1055.05585262;
/** K */
export const ZERO_CELSIUS = 273.15;
const FAHRENHEIT = 5 / 9;
const ZERO_FAHRENHEIT = 459.67 * FAHRENHEIT;
/** J/(mol K), SI 2019 (CODATA 2018) */
const GAS_CONSTANT = 8.31446261815324;
/** Kv per Cv, usual rounding; IEC 60534-1 / ISA-75.01 */
export const KV_PER_CV = 0.865;
/** s; a Julian year of 365.25 days */
const YEAR = 365.25 * 86400;

export interface Unit {
  readonly names: readonly string[];
  readonly factor: number;
  readonly offset?: number;
}

function unit(names: string, factor: number, offset?: number): Unit {
  const list = names.split('|');
  return offset === undefined ? { names: list, factor } : { names: list, factor, offset };
}

/** A pressure unit with its absolute and gauge forms, and, where the trade uses it, vacuum below standard atmosphere. */
function pressure(names: string, factor: number, forms: 'absolute' | 'gauge' | 'vacuum'): Unit[] {
  const list = names.split('|');
  const absolute = list.flatMap((name) => [name, `${name} a`, `${name} abs`, `${name} absolute`]);
  const units: Unit[] = [{ names: absolute, factor }];
  if (forms !== 'absolute') {
    const gauge = list.flatMap((name) => [`${name} g`, `${name} gauge`]);
    units.push({ names: gauge, factor, offset: STANDARD_ATMOSPHERE });
  }
  if (forms === 'vacuum') {
    const vacuum = list.flatMap((name) => [`${name} vac`, `${name} vacuum`]);
    units.push({ names: vacuum, factor: -factor, offset: STANDARD_ATMOSPHERE });
  }
  return units;
}

const VOLUME_FLOW = [
  unit('L/s|l/s|dm3/s|litre/s|liter/s|lps', 1e-3),
  unit('m3/s|cbm/s', 1),
  unit('m3/h|m3/hr|cmh|cbm/h', 1 / 3600),
  unit('m3/min', 1 / 60),
  unit('L/min|l/min|lpm|dm3/min', 1e-3 / 60),
  unit('L/h|l/h', 1e-3 / 3600),
  unit('cfm|ft3/min|cu ft/min|cuft/min|CFM', CUBIC_FOOT_PER_MINUTE),
  unit('cfh|ft3/h|ft3/hr', CUBIC_FOOT / 3600),
  unit('ft3/s|cfs', CUBIC_FOOT),
  unit('cm3/s|mL/s|ml/s', 1e-6),
  unit('US gal/min|gpm|gal/min|USgpm', US_GALLON / 60),
] as const;

export const UNITS = {
  length: [
    unit('m|metre|metres|meter|meters', 1),
    unit('mm|millimetre|millimetres|millimeter|millimeters', 1e-3),
    unit('cm|centimetre|centimetres|centimeter|centimeters', 1e-2),
    unit('km', 1e3),
    unit('um|micrometre|micrometer|micrometres|micrometers', 1e-6),
    unit("in|inch|inches|\"|''", INCH),
    unit("ft|foot|feet|'", FOOT),
    unit('yd|yard|yards', YARD),
    unit('mil|mils|thou', INCH / 1000),
  ],
  area: [
    unit('m2|sq m|sqm', 1),
    unit('mm2|sq mm', 1e-6),
    unit('cm2|sq cm', 1e-4),
    unit('in2|sq in|sqin', INCH ** 2),
    unit('ft2|sq ft|sqft', FOOT ** 2),
  ],
  volume: [
    unit('L|l|litre|litres|liter|liters|dm3', 1e-3),
    unit('m3|cbm', 1),
    unit('mL|ml|cm3|cc', 1e-6),
    unit('ft3|cu ft|cuft|cf', CUBIC_FOOT),
    unit('in3|cu in|cuin', INCH ** 3),
    unit('US gal|gal|gallon|gallons|USgallon', US_GALLON),
    unit('UK gal|imp gal|UKgallon', UK_GALLON),
  ],
  pressure: [
    ...pressure('Pa|pascal', 1, 'gauge'),
    ...pressure('hPa', 100, 'gauge'),
    ...pressure('kPa', 1e3, 'vacuum'),
    ...pressure('MPa', 1e6, 'gauge'),
    ...pressure('mPa', 1e-3, 'absolute'),
    ...pressure('mbar', 100, 'vacuum'),
    ...pressure('ubar', 0.1, 'absolute'),
    ...pressure('bar', 1e5, 'vacuum'),
    // the trade's micron is the micrometre of mercury, 1.4e-7 above the millitorr
    ...pressure('micron|microns|um Hg|micron Hg', MMHG / 1000, 'absolute'),
    ...pressure('mTorr|millitorr', TORR / 1000, 'absolute'),
    ...pressure('torr', TORR, 'absolute'),
    ...pressure('mmHg', MMHG, 'vacuum'),
    ...pressure('cmHg', 10 * MMHG, 'vacuum'),
    ...pressure('inHg|in Hg|"Hg', 25.4 * MMHG, 'vacuum'),
    unit('inHg (60 F)', 3376.85),
    ...pressure('psi', PSI, 'vacuum'),
    unit('inH2O|inWC|in wc', 249.08891),
    unit('inH2O (4 C)', 249.082),
    unit('mmH2O|mmWC', 249.08891 / 25.4),
    ...pressure('atm', STANDARD_ATMOSPHERE, 'absolute'),
    ...pressure('kgf/cm2|at', STANDARD_GRAVITY * 1e4, 'gauge'),
    unit('dyn/cm2|barye', 0.1),
  ],
  /** pumping speed, conductance and free-air flow alike */
  'volume flow': VOLUME_FLOW,
  throughput: [
    unit('Pa m3/s|Pa*m3/s', 1),
    unit('Pa L/s|Pa l/s', 1e-3),
    unit('mbar L/s|mbar l/s', 0.1),
    unit('torr L/s|torr l/s', TORR * 1e-3),
    unit('micron L/s|micron l/s', MMHG * 1e-6),
    unit('micron ft3/min|micron cfm', (MMHG / 1000) * CUBIC_FOOT_PER_MINUTE),
    unit('atm cm3/s|atm cc/s|std cc/s', STANDARD_ATMOSPHERE * 1e-6),
    // standard here is 0 C and 101.325 kPa; the throughput is counted at 0 C as well
    unit('sccm', (STANDARD_ATMOSPHERE * 1e-6) / 60),
    unit('slm|slpm', (STANDARD_ATMOSPHERE * 1e-3) / 60),
    unit('mol/s (0 C)|mol/s', GAS_CONSTANT * ZERO_CELSIUS),
  ],
  mass: [
    unit('kg|kilogram|kilograms', 1),
    unit('g|gram|grams|gr', 1e-3),
    unit('mg', 1e-6),
    unit('t|tonne|tonnes', 1e3),
    unit('lb|lbs|lbm|pound|pounds', POUND),
    unit('oz|ounce|ounces', POUND / 16),
    unit('US short ton|short ton', 2000 * POUND),
    unit('grain|grains', POUND / 7000),
  ],
  'mass flow': [
    unit('kg/s', 1),
    unit('g/s', 1e-3),
    unit('kg/h|kg/hr', 1 / 3600),
    unit('kg/min', 1 / 60),
    unit('g/min', 1e-3 / 60),
    unit('g/h', 1e-3 / 3600),
    unit('lb/min', POUND / 60),
    unit('lb/h|lb/hr', POUND / 3600),
    unit('oz/min', POUND / 16 / 60),
    unit('g/yr|g/year|g/a', 1e-3 / YEAR),
    unit('oz/yr|oz/year', POUND / 16 / YEAR),
  ],
  time: [
    unit('min|mins|minute|minutes', 60),
    unit('s|sec|secs|second|seconds', 1),
    unit('h|hr|hrs|hour|hours', 3600),
    unit('d|day|days', 86400),
    unit('week|weeks|wk', 7 * 86400),
    unit('yr|year|years', YEAR),
  ],
  temperature: [
    unit('C|degC|deg C|Celsius', 1, ZERO_CELSIUS),
    unit('F|degF|deg F|Fahrenheit', FAHRENHEIT, ZERO_FAHRENHEIT),
    unit('K|kelvin', 1),
    unit('R|degR|Rankine', FAHRENHEIT),
  ],
  'temperature difference': [
    unit('delta K|K|dK', 1),
    unit('delta C|C|degC|deg C|dC', 1),
    unit('delta F|F|degF|deg F|dF', FAHRENHEIT),
  ],
  'heat conductance': [
    unit('W/K|W/C|W/degC', 1),
    unit('kW/K', 1e3),
    unit('Btu/h F|Btu/(h F)|Btu/h degF', BTU / 3600 / FAHRENHEIT),
  ],
  'heat capacity': [
    unit('J/K|J/C|J/degC', 1),
    unit('kJ/K|kJ/C|kJ/degC', 1e3),
    unit('Wh/K|Wh/C', 3600),
    unit('Btu/F|Btu/degF', BTU / FAHRENHEIT),
    unit('kcal/K|kcal/C', 4186.8),
  ],
  energy: [
    unit('J', 1),
    unit('kJ', 1e3),
    unit('MJ', 1e6),
    unit('Wh', 3600),
    unit('kWh', 3.6e6),
    unit('Btu', BTU),
    unit('cal', 4.1868),
    unit('kcal', 4186.8),
  ],
  power: [
    unit('W', 1),
    unit('kW', 1e3),
    unit('Btu/h|Btu/hr|Btuh', BTU / 3600),
    unit('ton of refrigeration|TR|RT|tons', (12000 * BTU) / 3600),
    unit('hp', 550 * FOOT * POUND * STANDARD_GRAVITY),
  ],
  'sonic conductance': [
    unit('m3/(s Pa)', 1),
    unit('dm3/(s bar)|L/(s bar)|l/(s bar)', 1e-8),
    unit('L/(min bar)|l/(min bar)|dm3/(min bar)', 1e-8 / 60),
    unit('L/(s kPa)|dm3/(s kPa)', 1e-6),
    unit('cfm/psi|ft3/(min psi)', CUBIC_FOOT_PER_MINUTE / PSI),
  ],
  /** base unit Kv: m3/h of water at 1 bar */
  'flow coefficient': [unit('Kv|m3/h', 1), unit('Cv', KV_PER_CV)],
  viscosity: [
    unit('Pa s', 1),
    unit('mPa s', 1e-3),
    unit('uPa s', 1e-6),
    unit('cP|centipoise', 1e-3),
    unit('P|poise', 0.1),
    unit('uP|micropoise', 1e-7),
    unit('lb/(ft s)', POUND / FOOT),
  ],
  density: [unit('kg/m3', 1), unit('g/L|g/l', 1), unit('g/cm3|kg/L|kg/l', 1e3), unit('lb/ft3', POUND / CUBIC_FOOT)],
  'specific volume': [unit('m3/kg', 1), unit('L/kg|l/kg', 1e-3), unit('ft3/lb', CUBIC_FOOT / POUND)],
  'mass per length': [
    unit('g/m', 1e-3),
    unit('kg/m', 1),
    unit('oz/ft', POUND / 16 / FOOT),
    unit('lb/ft', POUND / FOOT),
  ],
  velocity: [unit('m/s', 1), unit('ft/s|fps', FOOT), unit('ft/min|fpm', FOOT / 60), unit('km/h', 1 / 3.6)],
  acceleration: [unit('m/s2', 1), unit('standard gravity|g0', STANDARD_GRAVITY)],
  force: [unit('N', 1), unit('kN', 1e3), unit('lbf', POUND * STANDARD_GRAVITY), unit('kgf', STANDARD_GRAVITY)],
  'molar mass': [unit('kg/mol', 1), unit('g/mol|kg/kmol', 1e-3)],
  'specific heat': [unit('J/(kg K)', 1), unit('kJ/(kg K)', 1e3), unit('Btu/(lb F)', BTU / POUND / FAHRENHEIT)],
  fraction: [unit('1|-', 1), unit('%|percent', 0.01)],
} as const satisfies Record<string, readonly Unit[]>;

export type Quantity = keyof typeof UNITS;
