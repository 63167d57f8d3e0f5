import { gasState } from '../engine/gas/gas.ts';
import type { GasState } from '../engine/gas/state.ts';
import { at, Fault, type Issue, type Place, raise } from '../faults/issue.ts';
import { checkNumber, checkReading, limitToSI } from '../units/limit.ts';
import { fromUnit, readQuantity } from '../units/quantity.ts';
import { type Cell, type CellRange, isBlank, isCellError } from './cells.ts';
import {
  CONDITION_BY_NAME,
  CONDITION_KEYS,
  CONDITIONS,
  type Condition,
  type ConditionKey,
  conditionNames,
} from './condition-list.ts';
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
  /** J/K of metal that is as cold as the water or the boiling refrigerant */
  readonly metal: number;
  /** Pa m3/s at the gas temperature */
  readonly leak: number;
  /** Pa m3/s after one hour */
  readonly outgassing: number;
  /** the outgassing falls with time to this power; 0 is constant */
  readonly outgassingExponent: number;
  /** Pa, step of the gauge of a hold test */
  readonly gaugeResolution?: number;
  /** m3 */
  readonly volume?: number;
  /** what leaves the cylinder */
  readonly chargeAs: ChargeAs;
  /** kg in the cylinder at the start */
  readonly cylinderCharge: number;
  /** K; absent: Ambient */
  readonly cylinderTemperature?: number;
  /** W/K */
  readonly cylinderHeat: number;
  /** K of what the cylinder stands in; absent: Ambient */
  readonly bathTemperature?: number;
  /** how the liquid leaves */
  readonly recoverAs: RecoverAs;
  /** Pa */
  readonly recoverTo: number;
  /** m3 of water */
  readonly cylinder?: number;
  readonly labour: LabourConditions;
  readonly reportUnits: ReportUnits;
}

export type ChargeAs = 'liquid' | 'vapour';
export type RecoverAs = 'vapour' | 'liquid' | 'push-pull';

/** Work on one unit, where its row says nothing else. SI. */
export interface LabourConditions {
  /** s */
  readonly setUp: number;
  readonly packUp: number;
  readonly hold: number;
  readonly holdReadings: number;
  readonly readingTime: number;
  /** s of pump time; 0 for no looks */
  readonly checkInterval: number;
  readonly checkTime: number;
  readonly breaks: number;
  readonly breakTime: number;
  readonly charging: number;
  readonly access: number;
  /** s from one area to another */
  readonly travel: number;
  readonly technicians: number;
  /** shares between 0 and 1, in the order given */
  readonly percentiles: readonly number[];
}

/** What the columns hold, whether the range has headers or not. */
export const CONDITIONS_HEADERS = ['Name', 'Value', 'Unit'] as const;
type ConditionsHeader = (typeof CONDITIONS_HEADERS)[number];

const HEADER_NAMES: ReadonlySet<string> = new Set(['name', 'condition', 'conditions']);

type Given = Map<ConditionKey, number | string>;

function readValue(
  key: ConditionKey,
  cell: Cell,
  unitCell: Cell,
  headerUnit: string | undefined,
  placeIn: (column: ConditionsHeader) => Place,
): number | string {
  const condition: Condition = CONDITIONS[key];
  const { name, quantity, limit } = condition;
  if (isCellError(cell)) raise({ kind: 'cell-error', argument: name, code: cell.error });
  if (quantity === undefined) {
    if (typeof cell === 'string') return cell.trim();
    if (key === 'percentiles' && typeof cell === 'number') return String(cell);
    return raise({ kind: 'not-text', argument: name, value: cell, expected: 'a name' });
  }
  if (quantity === 'number') {
    const value = plainNumber(cell, name);
    if (limit !== undefined) checkNumber(value, limit, name);
    if (condition.whole === true && !Number.isInteger(value))
      raise({ kind: 'wrong', argument: name, found: String(value), allowed: 'a whole number', todo: 'Round it.' });
    return value;
  }
  const defaultUnit = condition.unit ?? '';
  const ownUnit = typeof unitCell === 'string' && !isBlank(unitCell) ? unitCell.trim() : undefined;
  const unit = ownUnit ?? headerUnit ?? defaultUnit;
  // so that a wrong unit is told even beside a value that carries its own
  at(placeIn(ownUnit === undefined ? 'Name' : 'Unit'), () => fromUnit(0, unit, quantity, name));
  const reading = readQuantity(cell, quantity, unit, name);
  if (limit !== undefined) checkReading(reading, limitToSI(limit, defaultUnit, quantity), quantity, name);
  return reading.si;
}

function standardOf(key: ConditionKey): number | string | undefined {
  const { standard, quantity, unit = '' }: Condition = CONDITIONS[key];
  if (standard === undefined || quantity === undefined || quantity === 'number') return standard;
  return readQuantity(standard, quantity, unit, key).si;
}

const STANDARDS: ReadonlyMap<ConditionKey, number | string | undefined> = new Map(
  CONDITION_KEYS.map((key) => [key, standardOf(key)]),
);

function collect(range: CellRange, sink: FaultSink): { given: Given; places: Map<ConditionKey, Place> } {
  const given: Given = new Map();
  const places = new Map<ConditionKey, Place>();
  range.forEach((cells, index) => {
    const [nameCell, valueCell, unitCell] = cells;
    if (isBlank(nameCell)) return;
    const placeIn = (column: ConditionsHeader): Place => ({ table: 'conditions', row: index + 1, column });
    const keyOf = (shown: string, name: string): ConditionKey => {
      const key = CONDITION_BY_NAME.get(name) ?? CONDITION_BY_NAME.get(plainName(shown));
      if (key === undefined) return raise({ kind: 'unknown', what: 'condition', value: shown, known: conditionNames });
      if (!places.has(key)) return key;
      const todo = 'Remove one of the rows.';
      return raise({ kind: 'wrong', argument: shown, found: 'given twice', allowed: 'one row', todo });
    };
    const attempt = (): void => {
      if (isCellError(nameCell)) raise({ kind: 'cell-error', argument: 'the name', code: nameCell.error });
      const shown = String(nameCell).trim();
      const { name, unit } = splitHeader(shown);
      if (index === 0 && HEADER_NAMES.has(name)) return;
      const key = keyOf(shown, name);
      const place = placeIn('Value');
      places.set(key, place);
      if (isBlank(valueCell)) return;
      given.set(
        key,
        at(place, () => readValue(key, valueCell, unitCell, unit, placeIn)),
      );
    };
    guard(attempt, placeIn('Name'), sink);
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

function chargeAsOf(text: string): ChargeAs {
  const name = plainName(text);
  if (name === 'liquid') return 'liquid';
  if (name === 'vapour' || name === 'vapor' || name === 'gas') return 'vapour';
  return raise({ kind: 'unknown', what: 'way to charge', value: text, known: ['liquid', 'vapour'] });
}

function recoverAsOf(text: string): RecoverAs {
  const name = plainName(text);
  if (name === 'liquid') return 'liquid';
  if (name === 'vapour' || name === 'vapor' || name === 'gas') return 'vapour';
  if (name === 'pushpull') return 'push-pull';
  return raise({ kind: 'unknown', what: 'way to recover', value: text, known: ['vapour', 'liquid', 'push-pull'] });
}

const MOST_PERCENTILES = 20;

/** `10, 50, 80, 90` or `P50 P90` as shares, in the order given. */
function percentilesOf(text: string): readonly number[] {
  const words = text
    .replaceAll(/\s*%/gu, '')
    .split(/[\s,;]+/u)
    .filter((word) => word !== '');
  if (words.length === 0) raise({ kind: 'missing', argument: 'Percentiles' });
  if (words.length > MOST_PERCENTILES)
    raise({
      kind: 'wrong',
      argument: 'Percentiles',
      found: `${words.length} of them`,
      allowed: `at most ${MOST_PERCENTILES}`,
      todo: 'Leave some out.',
    });
  return words.map((word) => {
    const percent = Number(word.replace(/^p/iu, ''));
    if (word.length > MOST_PERCENTILES || !Number.isFinite(percent))
      raise({ kind: 'not-a-number', argument: 'Percentiles', value: word, expected: 'numbers such as "10, 50, 90"' });
    checkNumber(percent, { above: 0, below: 100 }, 'Percentiles');
    return percent / 100;
  });
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
  const value = (key: ConditionKey): number | string | undefined => given.get(key) ?? STANDARDS.get(key);
  const number = (key: ConditionKey): number => {
    const found = value(key);
    return typeof found === 'number' ? found : 0;
  };
  const placeOf = (key: ConditionKey): Place => places.get(key) ?? { table: 'conditions' };

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
  let chargeAs: ChargeAs = 'liquid';
  guard(
    () => {
      chargeAs = chargeAsOf(String(value('chargeAs')));
    },
    placeOf('chargeAs'),
    sink,
  );
  let recoverAs: RecoverAs = 'vapour';
  guard(
    () => {
      recoverAs = recoverAsOf(String(value('recoverAs')));
    },
    placeOf('recoverAs'),
    sink,
  );
  let percentiles: readonly number[] = [];
  guard(
    () => {
      percentiles = percentilesOf(String(value('percentiles')));
    },
    placeOf('percentiles'),
    sink,
  );
  const volume = value('volume');
  const cylinder = value('cylinder');
  const cylinderTemperature = value('cylinderTemperature');
  const bathTemperature = value('bathTemperature');
  const gaugeResolution = value('gaugeResolution');
  return {
    gas,
    temperature,
    startPressure: number('startPressure'),
    target: number('target'),
    ambientTemperature: number('ambientTemperature'),
    ambientPressure: number('ambientPressure'),
    water: number('water'),
    heat: number('heat'),
    metal: number('metal'),
    leak: number('leak'),
    outgassing: number('outgassing'),
    outgassingExponent: number('outgassingExponent'),
    ...(typeof gaugeResolution === 'number' ? { gaugeResolution } : {}),
    ...(typeof volume === 'number' ? { volume } : {}),
    chargeAs,
    cylinderCharge: number('cylinderCharge'),
    ...(typeof cylinderTemperature === 'number' ? { cylinderTemperature } : {}),
    cylinderHeat: number('cylinderHeat'),
    ...(typeof bathTemperature === 'number' ? { bathTemperature } : {}),
    recoverAs,
    recoverTo: number('recoverTo'),
    ...(typeof cylinder === 'number' ? { cylinder } : {}),
    labour: {
      setUp: number('setUp'),
      packUp: number('packUp'),
      hold: number('hold'),
      holdReadings: number('holdReadings'),
      readingTime: number('readingTime'),
      checkInterval: number('checkInterval'),
      checkTime: number('checkTime'),
      breaks: number('breaks'),
      breakTime: number('breakTime'),
      charging: number('charging'),
      access: number('access'),
      travel: number('travel'),
      technicians: number('technicians'),
      percentiles,
    },
    reportUnits,
  };
}

const STANDARD_GAS: GasState = gasState('air', 293.15);
