import { gasState } from '../engine/gas/gas.ts';
import type { GasState } from '../engine/gas/state.ts';
import { Fault, type Issue, type Place, raise } from '../faults/issue.ts';
import { checkNumber, checkReading, type Limit, limitToSI } from '../units/limit.ts';
import { fromUnit, type Quantity, readQuantity } from '../units/quantity.ts';
import { STANDARD_ATMOSPHERE } from '../units/table.ts';
import { type Cell, type CellRange, isBlank, isCellError } from './cells.ts';
import type { ReportUnits } from './spill.ts';
import { type FaultSink, MOST_ROWS, plainName, plainNumber, splitHeader, throwFault } from './table.ts';

/** What holds for a whole workbook. SI. */
export interface Conditions {
  readonly gas: GasState;
  /** K, of the gas in rig and system */
  readonly temperature: number;
  /** Pa */
  readonly startPressure: number;
  /** Pa */
  readonly target: number;
  /** K */
  readonly ambientTemperature: number;
  /** Pa */
  readonly ambientPressure: number;
  /** kg */
  readonly water: number;
  /** W/K */
  readonly heat: number;
  /** Pa m3/s at the gas temperature */
  readonly leak: number;
  /** Pa m3/s after one hour */
  readonly outgassing: number;
  /** the outgassing falls with time to this power; 0 is constant */
  readonly outgassingExponent: number;
  /** m3 */
  readonly volume?: number;
  readonly reportUnits: ReportUnits;
}

interface Condition {
  readonly name: string;
  readonly synonyms?: readonly string[];
  readonly quantity?: Quantity | 'number';
  readonly unit?: string;
  readonly limit?: Limit;
  /** in `unit`; undefined: no default */
  readonly standard: number | string | undefined;
  readonly description: string;
}

const ABSOLUTE_ZERO = -273.15;

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
    description: 'heat conductance from the surroundings to the water',
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
  volume: {
    name: 'Volume',
    synonyms: ['System volume'],
    quantity: 'volume',
    unit: 'L',
    limit: { above: 0 },
    standard: undefined,
    description: 'inside volume of the system, where a function asks for none',
  },
  reportUnits: {
    name: 'Report units',
    synonyms: ['Units'],
    standard: 'metric',
    description: 'metric or inch: units of spilled tables',
  },
} as const satisfies Record<string, Condition>;

type Key = keyof typeof CONDITIONS;
const KEYS = Object.keys(CONDITIONS) as Key[];

const KEY_BY_NAME: ReadonlyMap<string, Key> = new Map(
  KEYS.flatMap((key) => {
    const condition: Condition = CONDITIONS[key];
    return [condition.name, ...(condition.synonyms ?? [])].map((name): [string, Key] => [plainName(name), key]);
  }),
);

export const conditionNames: readonly string[] = KEYS.map((key) => CONDITIONS[key].name);

const HEADER_NAMES: ReadonlySet<string> = new Set(['name', 'condition', 'conditions']);

type Given = Map<Key, number | string>;

function readValue(key: Key, cell: Cell, unitCell: Cell, headerUnit: string | undefined): number | string {
  const condition: Condition = CONDITIONS[key];
  const { name, quantity, limit } = condition;
  if (isCellError(cell)) raise({ kind: 'cell-error', argument: name, code: cell.error });
  if (quantity === undefined) {
    if (typeof cell === 'string') return cell.trim();
    return raise({ kind: 'not-text', argument: name, value: cell, expected: 'a name' });
  }
  if (quantity === 'number') {
    const value = plainNumber(cell, name);
    if (limit !== undefined) checkNumber(value, limit, name);
    return value;
  }
  const defaultUnit = condition.unit ?? '';
  const unit = typeof unitCell === 'string' && !isBlank(unitCell) ? unitCell.trim() : (headerUnit ?? defaultUnit);
  // so that a wrong unit is told even beside a value that carries its own
  fromUnit(0, unit, quantity, name);
  const reading = readQuantity(cell, quantity, unit, name);
  if (limit !== undefined) checkReading(reading, limitToSI(limit, defaultUnit, quantity), quantity, name);
  return reading.si;
}

function standardOf(key: Key): number | string | undefined {
  const { standard, quantity, unit = '' }: Condition = CONDITIONS[key];
  if (standard === undefined || quantity === undefined || quantity === 'number') return standard;
  return readQuantity(standard, quantity, unit, key).si;
}

const STANDARDS: ReadonlyMap<Key, number | string | undefined> = new Map(KEYS.map((key) => [key, standardOf(key)]));

function collect(range: CellRange, sink: FaultSink): { given: Given; places: Map<Key, Place> } {
  const given: Given = new Map();
  const places = new Map<Key, Place>();
  range.forEach((cells, index) => {
    const [nameCell, valueCell, unitCell] = cells;
    if (isBlank(nameCell)) return;
    const place = { table: 'conditions', row: index + 1 };
    const attempt = (): void => {
      if (isCellError(nameCell)) raise({ kind: 'cell-error', argument: 'the name', code: nameCell.error });
      const shown = String(nameCell).trim();
      const split = splitHeader(shown);
      if (index === 0 && HEADER_NAMES.has(split.name)) return;
      const key = KEY_BY_NAME.get(split.name) ?? KEY_BY_NAME.get(plainName(shown));
      if (key === undefined) raise({ kind: 'unknown', what: 'condition', value: shown, known: conditionNames });
      if (places.has(key)) {
        raise({
          kind: 'wrong',
          argument: shown,
          found: 'given twice',
          allowed: 'one row',
          todo: 'Remove one of the rows.',
        });
      }
      places.set(key, place);
      if (!isBlank(valueCell)) given.set(key, readValue(key, valueCell, unitCell, split.unit));
    };
    guard(attempt, place, sink);
  });
  return { given, places };
}

function guard(read: () => void, place: Place, sink: FaultSink): void {
  try {
    read();
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    sink(error.place === undefined ? new Fault(error.issue, place) : error);
  }
}

function reportUnitsOf(text: string): ReportUnits {
  const name = plainName(text);
  if (name === 'metric' || name === 'si') return 'metric';
  if (name === 'inch' || name === 'inches' || name === 'imperial') return 'inch';
  return raise({ kind: 'unknown', what: 'set of report units', value: text, known: ['metric', 'inch'] });
}

/**
 * Reads a range of two or three columns: name, value, unit. Rows in any order, a blank value is the default, a first row
 * Name, Value, Unit is passed over. Undefined gives the defaults.
 *
 * Raises `unknown` with the known names, `wrong` for one given twice, and whatever is wrong with a value, with its row.
 */
export function readConditions(range: CellRange | undefined, sink: FaultSink = throwFault): Conditions {
  if (range !== undefined && range.length > MOST_ROWS) {
    const issue: Issue = { kind: 'too-many-rows', table: 'conditions', rows: range.length, limit: MOST_ROWS };
    throw new Fault(issue, { table: 'conditions' });
  }
  const { given, places } = collect(range ?? [], sink);
  const value = (key: Key): number | string | undefined => given.get(key) ?? STANDARDS.get(key);
  const number = (key: Key): number => {
    const found = value(key);
    return typeof found === 'number' ? found : 0;
  };
  const placeOf = (key: Key): Place => places.get(key) ?? { table: 'conditions' };

  const temperature = number('temperature');
  let gas = STANDARD_GAS;
  guard(
    () => {
      gas = gasState(String(value('gas')), temperature);
    },
    places.get('gas') ?? placeOf('temperature'),
    sink,
  );
  let reportUnits: ReportUnits = 'metric';
  guard(
    () => {
      reportUnits = reportUnitsOf(String(value('reportUnits')));
    },
    placeOf('reportUnits'),
    sink,
  );
  const volume = value('volume');
  return {
    gas,
    temperature,
    startPressure: number('startPressure'),
    target: number('target'),
    ambientTemperature: number('ambientTemperature'),
    ambientPressure: number('ambientPressure'),
    water: number('water'),
    heat: number('heat'),
    leak: number('leak'),
    outgassing: number('outgassing'),
    outgassingExponent: number('outgassingExponent'),
    ...(typeof volume === 'number' ? { volume } : {}),
    reportUnits,
  };
}

const STANDARD_GAS: GasState = gasState('air', 293.15);
