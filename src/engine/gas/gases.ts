import { carbonDioxideViscosity, lemmonJacobsen, powerLaw, waterVapourViscosity } from './viscosity.ts';

/** A gas as data: what `gasState` resolves at a temperature. */
export interface Gas {
  readonly name: string;
  readonly synonyms: readonly string[];
  /** kg/mol */
  readonly molarMass: number;
  /** c_p/c_v of the ideal gas at 20 C */
  readonly heatCapacityRatio: number;
  /** dilute-gas viscosity, Pa s, at a temperature in K */
  readonly viscosity: (temperature: number) => number;
  /** K, where the viscosity formula is trusted */
  readonly coldest: number;
  readonly hottest: number;
  readonly source: string;
}

/** Temperature of the reference viscosities of the power laws, K. */
const REFERENCE = 293.15;
const MICRO = 1e-6;
/** Range of the simple gases, K. */
const SIMPLE = { coldest: 200, hottest: 600 } as const;

/**
 * Refrigerant vapours: power law through the dilute-gas viscosity at 20 C, its exponent fitted (least squares in the
 * logarithms, 250-333 K, within 0.4 %) to values of the correlation named; trusted a little beyond that range.
 */
function refrigerant(
  name: string,
  gramPerMole: number,
  heatCapacityRatio: number,
  microPascalSecond: number,
  exponent: number,
  source: string,
): Gas {
  const bare = name.replace('-', '');
  return {
    name,
    synonyms: [bare, name.replace('R-', '')],
    molarMass: gramPerMole / 1000,
    heatCapacityRatio,
    viscosity: powerLaw(microPascalSecond * MICRO, REFERENCE, exponent),
    coldest: 230,
    hottest: 400,
    source,
  };
}

export const GASES: readonly Gas[] = [
  {
    name: 'air',
    synonyms: ['dry air'],
    molarMass: 0.0289655,
    heatCapacityRatio: 1.4001,
    viscosity: lemmonJacobsen(28.9586, 0.36, 103.3),
    ...SIMPLE,
    source: 'Lemmon et al., J. Phys. Chem. Ref. Data 29 (2000) 331; viscosity Lemmon and Jacobsen (2004)',
  },
  {
    name: 'nitrogen',
    synonyms: ['N2', 'dry nitrogen', 'OFN', 'oxygen-free nitrogen'],
    molarMass: 0.0280135,
    heatCapacityRatio: 1.3996,
    viscosity: lemmonJacobsen(28.01348, 0.3656, 98.94),
    ...SIMPLE,
    source: 'Span et al., J. Phys. Chem. Ref. Data 29 (2000) 1361; viscosity Lemmon and Jacobsen (2004)',
  },
  {
    name: 'water vapour',
    synonyms: ['H2O', 'H2O vapour', 'water', 'steam', 'water vapor', 'moisture'],
    molarMass: 0.0180153,
    heatCapacityRatio: 1.3293,
    viscosity: waterVapourViscosity,
    coldest: 230,
    hottest: 600,
    source: 'IAPWS-95; viscosity IAPWS R12-08 (2008)',
  },
  {
    name: 'carbon dioxide',
    synonyms: ['CO2', 'R-744', 'R744', 'CO2 (R-744)'],
    molarMass: 0.0440098,
    heatCapacityRatio: 1.2908,
    viscosity: carbonDioxideViscosity,
    ...SIMPLE,
    source: 'Span and Wagner, J. Phys. Chem. Ref. Data 25 (1996) 1509; viscosity Fenghour et al. (1998)',
  },
  {
    name: 'argon',
    synonyms: ['Ar'],
    molarMass: 0.039948,
    heatCapacityRatio: 5 / 3,
    viscosity: lemmonJacobsen(39.948, 0.335, 143.2),
    ...SIMPLE,
    source: 'molar mass IUPAC; monatomic ideal gas; viscosity Lemmon and Jacobsen (2004)',
  },
  {
    name: 'oxygen',
    synonyms: ['O2'],
    molarMass: 0.0319988,
    heatCapacityRatio: 1.396,
    viscosity: lemmonJacobsen(31.9988, 0.3428, 118.5),
    ...SIMPLE,
    source: 'molar mass IUPAC; ratio from c_p at 20 C, from memory; viscosity Lemmon and Jacobsen (2004)',
  },
  {
    name: 'helium',
    synonyms: ['He'],
    molarMass: 0.0040026,
    heatCapacityRatio: 5 / 3,
    // eta = 3.674e-7 T^0.7, written at 1 K
    viscosity: powerLaw(3.674e-7, 1, 0.7),
    ...SIMPLE,
    source: 'molar mass IUPAC; monatomic ideal gas; viscosity Petersen, report Risoe-224 (1970), from memory',
  },
  {
    name: 'hydrogen',
    synonyms: ['H2'],
    molarMass: 0.0020159,
    heatCapacityRatio: 1.406,
    viscosity: powerLaw(8.8 * MICRO, REFERENCE, 0.68),
    ...SIMPLE,
    source: 'molar mass IUPAC; ratio and viscosity from memory',
  },
  refrigerant('R-134a', 102.032, 1.1097, 11.659, 0.966, 'Tillner-Roth and Baehr (1994); Huber et al. (2003)'),
  refrigerant('R-290', 44.0956, 1.1298, 8.022, 0.9705, 'Lemmon et al. (2009); Vogel et al. (1998)'),
  refrigerant('R-600a', 58.1222, 1.0956, 7.398, 0.9631, 'Buecker and Wagner (2006); Vogel et al. (2000)'),
  refrigerant('R-32', 52.024, 1.2428, 12.402, 1.0147, 'Tillner-Roth and Yokozeki (1997); kinetic theory'),
  refrigerant('R-22', 86.468, 1.1756, 12.442, 1.0123, 'Kamei et al. (1995); kinetic theory'),
  refrigerant('R-1234yf', 114.042, 1.0902, 11.029, 1.0103, 'Lemmon et al. (2022); kinetic theory'),
  refrigerant('R-410A', 72.5854, 1.1675, 12.625, 1.0762, 'Lemmon (2003); Geller et al. (2000)'),
  refrigerant('R-404A', 97.6038, 1.1109, 12.005, 0.9376, 'Lemmon (2003); Geller et al. (2000)'),
  refrigerant('R-407C', 86.2036, 1.1349, 12.04, 1.063, 'Lemmon (2003); Geller et al. (2000)'),
  refrigerant('R-454B', 62.614, 1.1884, 12.159, 1.0134, 'composition of ASHRAE 34; Wilke (1950) mixing'),
  refrigerant('R-513A', 108.43, 1.0984, 11.311, 0.9907, 'composition of ASHRAE 34; Wilke (1950) mixing'),
  refrigerant('R-448A', 86.283, 1.1322, 12.198, 0.9959, 'composition of ASHRAE 34; Wilke (1950) mixing'),
];
