import type { Limit } from '../units/limit.ts';
import type { Quantity } from '../units/quantity.ts';
import { STANDARD_ATMOSPHERE } from '../units/table.ts';
import { MOST_ACCESS, MOST_MINUTES, MOST_OF_A_KIND, MOST_TECHNICIANS } from './labour-limits.ts';
import { plainName } from './table.ts';

/** A name that a conditions range may hold. */
export interface Condition {
  readonly name: string;
  readonly synonyms?: readonly string[];
  readonly quantity?: Quantity | 'number';
  readonly unit?: string;
  readonly limit?: Limit;
  readonly whole?: boolean;
  /** in `unit`; undefined: no default */
  readonly standard: number | string | undefined;
  readonly description: string;
}

const ABSOLUTE_ZERO = -273.15;

const minutes = { quantity: 'time', unit: 'min', limit: { atLeast: 0, atMost: MOST_MINUTES } } as const;
const number = { quantity: 'number', limit: { atLeast: 0, atMost: MOST_OF_A_KIND }, whole: true } as const;

/** Work on one unit, where its row says nothing else. The standard values are common practice, no source. */
const LABOUR_CONDITIONS = {
  setUp: {
    name: 'Set-up',
    synonyms: ['Set-up time'],
    ...minutes,
    standard: 20,
    description: 'attended time to bring and connect the rig at one unit (common practice, no source)',
  },
  packUp: {
    name: 'Pack-up',
    synonyms: ['Pack-up time'],
    ...minutes,
    standard: 15,
    description: 'attended time to take the rig off one unit (common practice, no source)',
  },
  hold: {
    name: 'Hold',
    synonyms: ['Hold time'],
    ...minutes,
    standard: 30,
    description: 'time that one unit stands shut after the pull (common practice, no source)',
  },
  holdReadings: {
    name: 'Hold readings',
    ...number,
    standard: 2,
    description: 'readings of the hold test: one at its start, the others at its end (common practice, no source)',
  },
  readingTime: {
    name: 'Reading time',
    ...minutes,
    standard: 2,
    description: 'attended time for one reading (common practice, no source)',
  },
  checkInterval: {
    name: 'Check interval',
    ...minutes,
    standard: 60,
    description: 'pump time from one look at the pump to the next, 0 for none (common practice, no source)',
  },
  checkTime: {
    name: 'Check time',
    ...minutes,
    standard: 5,
    description: 'attended time for one look (common practice, no source)',
  },
  breaks: { name: 'Breaks', synonyms: ['Nitrogen breaks'], ...number, standard: 0, description: 'nitrogen breaks' },
  breakTime: {
    name: 'Break time',
    ...minutes,
    standard: 10,
    description: 'attended time for one nitrogen break (common practice, no source)',
  },
  charging: {
    name: 'Charging',
    synonyms: ['Charging time'],
    ...minutes,
    standard: 0,
    description: 'attended time to charge one unit; 0 where the unit comes charged or others do it',
  },
  access: {
    name: 'Access',
    synonyms: ['Access factor'],
    quantity: 'number',
    limit: { above: 0, atMost: MOST_ACCESS },
    standard: 1,
    description: 'factor on all attended time at a unit: ladders, ceilings, roofs',
  },
  travel: {
    name: 'Travel between areas',
    synonyms: ['Travel'],
    ...minutes,
    standard: 10,
    description: 'attended time from one area to another (common practice, no source)',
  },
  technicians: {
    name: 'Technicians',
    quantity: 'number',
    limit: { atLeast: 1, atMost: MOST_TECHNICIANS },
    whole: true,
    standard: 1,
    description: 'how many work side by side, each at a unit of its own, where days are counted from hours',
  },
  percentiles: {
    name: 'Percentiles',
    standard: '10, 50, 80, 90',
    description: 'percentiles that LABOUR.RISK gives, as text with commas; each above 0 and below 100',
  },
} as const satisfies Record<string, Condition>;

export const CONDITIONS = {
  gas: { name: 'Gas', standard: 'air', description: 'gas that is pumped' },
  temperature: {
    name: 'Temperature',
    synonyms: ['Gas temperature'],
    quantity: 'temperature',
    unit: 'C',
    limit: { above: ABSOLUTE_ZERO },
    standard: 20,
    description: 'temperature of the gas',
  },
  startPressure: {
    name: 'Start pressure',
    synonyms: ['Start'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0 },
    standard: STANDARD_ATMOSPHERE,
    description: 'pressure when the pump is started',
  },
  target: {
    name: 'Target pressure',
    synonyms: ['Target'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0 },
    standard: '500 micron',
    description: 'pressure to reach',
  },
  ambientTemperature: {
    name: 'Ambient',
    synonyms: ['Ambient temperature'],
    quantity: 'temperature',
    unit: 'C',
    limit: { above: ABSOLUTE_ZERO },
    standard: 20,
    description: 'temperature around the system',
  },
  ambientPressure: {
    name: 'Ambient pressure',
    synonyms: ['Barometer'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0 },
    standard: STANDARD_ATMOSPHERE,
    description: 'pressure of the air around, at which a free-air meter reads',
  },
  water: {
    name: 'Water',
    quantity: 'mass',
    unit: 'g',
    limit: { atLeast: 0 },
    standard: 0,
    description: 'liquid water in the system',
  },
  heat: {
    name: 'Heat',
    synonyms: ['Heat conductance'],
    quantity: 'heat conductance',
    unit: 'W/K',
    limit: { atLeast: 0 },
    standard: 0,
    description: 'heat conductance from Ambient to the water, or to the refrigerant, in the system',
  },
  metal: {
    name: 'Metal',
    synonyms: ['Heat capacity of metal', 'Metal heat capacity'],
    quantity: 'heat capacity',
    unit: 'J/K',
    limit: { atLeast: 0 },
    standard: 0,
    description:
      'heat capacity of the metal that is as cold as the water, or the boiling refrigerant: mass times 385 J/(kg K) for copper, 460 for steel',
  },
  leak: {
    name: 'Leak',
    synonyms: ['Leak rate'],
    quantity: 'throughput',
    unit: 'Pa m3/s',
    limit: { atLeast: 0 },
    standard: 0,
    description: 'air that leaks in',
  },
  outgassing: {
    name: 'Outgassing',
    quantity: 'throughput',
    unit: 'Pa m3/s',
    limit: { atLeast: 0 },
    standard: 0,
    description: 'gas given off by walls and oil after one hour of pumping',
  },
  outgassingExponent: {
    name: 'Outgassing exponent',
    quantity: 'number',
    limit: { atLeast: 0, atMost: 2 },
    standard: 0,
    description: 'outgassing falls with time to this power; 0 keeps it constant',
  },
  gaugeResolution: {
    name: 'Gauge resolution',
    synonyms: ['Resolution', 'Gauge step'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0 },
    standard: undefined,
    description:
      'step of the gauge that a hold test is read with; blank is one micron, or the steps that the log shows',
  },
  volume: {
    name: 'Volume',
    synonyms: ['System volume'],
    quantity: 'volume',
    unit: 'L',
    limit: { above: 0 },
    standard: undefined,
    description: 'inside volume of the system, where a function asks for none',
  },
  chargeAs: {
    name: 'Charge as',
    synonyms: ['Charging as'],
    standard: 'liquid',
    description: 'liquid or vapour: what leaves the cylinder when a system is charged',
  },
  cylinderCharge: {
    name: 'Cylinder charge',
    synonyms: ['Cylinder mass'],
    quantity: 'mass',
    unit: 'kg',
    limit: { above: 0 },
    standard: 10,
    description: 'refrigerant in the cylinder when charging begins',
  },
  cylinderTemperature: {
    name: 'Cylinder temperature',
    quantity: 'temperature',
    unit: 'C',
    limit: { above: ABSOLUTE_ZERO },
    standard: undefined,
    description: 'temperature of the cylinder, when charging begins or all through a recovery; blank is Ambient',
  },
  cylinderHeat: {
    name: 'Cylinder heat',
    quantity: 'heat conductance',
    unit: 'W/K',
    limit: { atLeast: 0 },
    standard: 0,
    description: 'heat conductance from the air or the bath around the cylinder to its refrigerant',
  },
  bathTemperature: {
    name: 'Bath temperature',
    synonyms: ['Bath'],
    quantity: 'temperature',
    unit: 'C',
    limit: { above: ABSOLUTE_ZERO },
    standard: undefined,
    description: 'temperature of the warm water around the cylinder; blank is Ambient, in air',
  },
  recoverAs: {
    name: 'Recover as',
    synonyms: ['Recovering as', 'Recovery mode', 'Mode'],
    standard: 'vapour',
    description: 'vapour, liquid or push-pull: how the liquid leaves a system that is recovered',
  },
  recoverTo: {
    name: 'Recover to',
    synonyms: ['Recovery level'],
    quantity: 'pressure',
    unit: 'Pa',
    limit: { above: 0 },
    standard: STANDARD_ATMOSPHERE,
    description: 'absolute pressure to which a system is recovered; 101325 Pa is 0 psi g',
  },
  cylinder: {
    name: 'Cylinder',
    synonyms: ['Cylinder water capacity', 'Water capacity'],
    quantity: 'volume',
    unit: 'L',
    limit: { above: 0 },
    standard: undefined,
    description: 'water capacity of a recovery cylinder',
  },
  ...LABOUR_CONDITIONS,
  reportUnits: {
    name: 'Report units',
    synonyms: ['Units'],
    standard: 'metric',
    description: 'metric or inch: units of spilled tables',
  },
} as const satisfies Record<string, Condition>;

export type ConditionKey = keyof typeof CONDITIONS;
export const CONDITION_KEYS = Object.keys(CONDITIONS) as ConditionKey[];

export const CONDITION_BY_NAME: ReadonlyMap<string, ConditionKey> = new Map(
  CONDITION_KEYS.flatMap((key) => {
    const condition: Condition = CONDITIONS[key];
    return [condition.name, ...(condition.synonyms ?? [])].map((name): [string, ConditionKey] => [
      plainName(name),
      key,
    ]);
  }),
);

export const conditionNames: readonly string[] = CONDITION_KEYS.map((key) => CONDITIONS[key].name);
