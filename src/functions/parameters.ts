import { raise } from '../faults/issue.ts';
import { byContent } from '../tables/cache.ts';
import { type Cell, type CellRange, isBlank, isCellError } from '../tables/cells.ts';
import { type Conditions, readConditions } from '../tables/conditions.ts';
import { type CrewsTable, readCrews } from '../tables/crews.ts';
import { type FactorsTable, readFactors } from '../tables/factors.ts';
import { type LogTable, readLog } from '../tables/log.ts';
import { type PlanTable, readPlan } from '../tables/plan.ts';
import { type PortsTable, readPorts } from '../tables/ports.ts';
import { type RatesTable, readRates } from '../tables/rates.ts';
import { type PartsTable, readParts } from '../tables/rigs.ts';
import { type RunsTable, readRuns } from '../tables/runs.ts';
import { MOST_ROWS, plainName, plainNumber } from '../tables/table.ts';
import { readUnits, type UnitsTable } from '../tables/units.ts';
import { checkNumber, checkReading, type Limit, limitToSI } from '../units/limit.ts';
import { countsFromElsewhere, type Quantity, readQuantity } from '../units/quantity.ts';
import type { Parameter, ParameterKind, RawArgument } from './define.ts';

export function isRange(raw: RawArgument): raw is CellRange {
  return Array.isArray(raw);
}

/** A blank cell, an omitted argument, or a range of one blank cell. */
export function isBlankArgument(raw: RawArgument): boolean {
  if (!isRange(raw)) return isBlank(raw);
  return raw.length === 0 || (raw.length === 1 && (raw[0]?.length ?? 0) <= 1 && isBlank(raw[0]?.[0]));
}

interface Basics {
  readonly kind: ParameterKind;
  readonly description: string;
}

function scalar<T>(basics: Basics, read: (cell: Cell, argument: string) => T, more: Partial<Parameter<T>> = {}) {
  const parameter: Parameter<T> = {
    ...basics,
    ...more,
    optional: false,
    repeating: false,
    takesRange: false,
    read: (raw, argument) => {
      if (isRange(raw))
        return raise({ kind: 'wrong', argument, found: 'a range', allowed: 'a single cell', todo: 'Give one cell.' });
      if (isCellError(raw)) return raise({ kind: 'cell-error', argument, code: raw.error });
      return read(raw, argument);
    },
  };
  return parameter;
}

/** A number in `unit`, or text with a unit of the quantity; the body sees SI. The limit is in `unit`. */
export function quantity(name: Quantity, unit: string, description: string, limit?: Limit): Parameter<number> {
  const limitSI = limit && limitToSI(limit, unit, name);
  const read = (cell: Cell, argument: string): number => {
    const reading = readQuantity(cell, name, unit, argument);
    if (limitSI !== undefined) checkReading(reading, limitSI, name, argument);
    return reading.si;
  };
  return scalar({ kind: 'quantity', description }, read, { quantity: name, unit });
}

/** A difference of two pressures in Pa, or text with a unit: one that counts from the atmosphere is refused. */
export function pressureDifference(description: string, limit: Limit): Parameter<number> {
  const pressure = quantity('pressure', 'Pa', description, limit);
  const read: typeof pressure.read = (raw, argument) => {
    const difference = pressure.read(raw, argument);
    const { unit } = readQuantity(raw, 'pressure', 'Pa', argument);
    if (!countsFromElsewhere(unit, 'pressure')) return difference;
    const todo = 'Leave out gauge and vacuum, as in "1 psi".';
    return raise({ kind: 'wrong', argument, found: `"${raw}"`, allowed: 'a difference of pressures', todo });
  };
  return { ...pressure, read };
}

/** A plain number; text such as "0.8" or "80 %" is understood. */
export function number(description: string, limit?: Limit): Parameter<number> {
  return scalar({ kind: 'number', description }, (cell, argument) => {
    const value = plainNumber(cell, argument);
    if (limit !== undefined) checkNumber(value, limit, argument);
    return value;
  });
}

/** Text; a number is taken as the text it shows. `expected` says in a message what it must be. */
export function text(description: string, expected = 'text'): Parameter<string> {
  return scalar({ kind: 'text', description }, (cell, argument) => {
    if (typeof cell === 'string') return cell.trim();
    if (typeof cell === 'number' && Number.isFinite(cell)) return String(cell);
    return raise({ kind: 'not-text', argument, value: cell, expected });
  });
}

/** One of a closed list of names, matched without regard to case, spaces and punctuation. */
export function choice<const C extends string>(choices: readonly C[], description: string): Parameter<C> {
  const byName = new Map(choices.map((name) => [plainName(name), name]));
  return scalar(
    { kind: 'choice', description },
    (cell, argument) => {
      if (typeof cell !== 'string')
        return raise({ kind: 'not-text', argument, value: cell, expected: `one of: ${choices.join(', ')}` });
      return (
        byName.get(plainName(cell)) ?? raise({ kind: 'unknown', what: argument, value: cell.trim(), known: choices })
      );
    },
    { choices },
  );
}

/** One value or a range of them, blanks left out; the body sees SI numbers in reading order. */
export function list(
  name: Quantity | 'number',
  unit: string,
  description: string,
  limit?: Limit,
): Parameter<readonly number[]> {
  const one = name === 'number' ? number(description, limit) : quantity(name, unit, description, limit);
  const read = (raw: RawArgument, argument: string): readonly number[] => {
    if (!isRange(raw)) return [one.read(raw, argument)];
    refuseHuge(raw, argument);
    const values: number[] = [];
    raw.forEach((row) => {
      row.forEach((cell) => {
        if (!isBlank(cell)) values.push(one.read(cell, argument));
      });
    });
    return values.length > 0 ? values : raise({ kind: 'missing', argument });
  };
  return {
    kind: 'list',
    description,
    ...(name === 'number' ? {} : { quantity: name, unit }),
    optional: false,
    repeating: false,
    takesRange: true,
    read,
  };
}

export function refuseHuge(range: CellRange, argument: string): void {
  if (range.length > MOST_ROWS + 1) {
    raise({ kind: 'too-many-rows', table: argument, rows: range.length, limit: MOST_ROWS });
  }
}

function table<T>(kind: string, description: string, read: (range: CellRange) => T): Parameter<T> {
  return {
    kind: 'table',
    table: kind,
    description,
    optional: false,
    repeating: false,
    takesRange: true,
    read: (raw, argument) => {
      if (isCellError(raw)) return raise({ kind: 'cell-error', argument, code: raw.error });
      if (isRange(raw)) return read(raw);
      const todo = 'Give a range whose first row is headers.';
      return raise({ kind: 'wrong', argument, found: 'a single cell', allowed: 'a range with headers', todo });
    },
  };
}

const parts = byContent((range) => readParts(range));
const runs = byContent((range) => readRuns(range));

/** The same content gives the same record, so that curves kept by rig are shared by all cells of a sheet. */
export function partsTable(
  description = 'range with a header row: one row a part, from the pump to the system',
): Parameter<PartsTable> {
  return table('parts', description, parts);
}

export function runsTable(
  description = 'range with a header row: one row a length of pipe or a component',
): Parameter<RunsTable> {
  return table('runs', description, runs);
}

/**
 * `rigs: false` where the function chooses the rig itself, so that the units need none. Faults of a row stay with the row: the
 * function tells them there.
 */
export function unitsTable({ rigs = true } = {}): Parameter<UnitsTable> {
  const description = 'range with a header row: one row a kind of unit';
  return table('units', description, (range) => readUnits(range, undefined, { rigs, keepFaults: true }));
}

export function logTable(description = 'range with a header row: minutes and pressures'): Parameter<LogTable> {
  return table('log', description, (range) => readLog(range));
}

export function crewsTable(description = 'range with a header row: one row a crew'): Parameter<CrewsTable> {
  return table('crews', description, (range) => readCrews(range));
}

export function portsTable(
  description = 'range with a header row: one row a rig, with the node at which it is connected',
): Parameter<PortsTable> {
  return table('ports', description, (range) => readPorts(range));
}

export function planTable(
  description = 'range with a header row: one row a pull, with the break after it',
): Parameter<PlanTable> {
  return table('plan', description, (range) => readPlan(range));
}

export function ratesTable(
  description = 'range with a header row: one row a role, with its rate',
): Parameter<RatesTable> {
  return table('rates', description, (range) => readRates(range));
}

export function factorsTable(
  description = 'range with a header row: one row a factor, with what it acts on and how far it may be off',
): Parameter<FactorsTable> {
  return table('factors', description, (range) => readFactors(range));
}

/** Any cell or range, as the host gave it. */
export function anyRange(description: string): Parameter<RawArgument> {
  return {
    kind: 'any',
    description,
    optional: false,
    repeating: false,
    takesRange: true,
    read: (raw) => raw,
  };
}

const conditionsByContent = byContent((range) => readConditions(range));
const STANDARD_CONDITIONS = readConditions(undefined);

/** The last, optional argument of most functions: a range of names, values and units. */
export function conditions(description = 'range of two or three columns: name, value, unit'): Parameter<Conditions> {
  return {
    kind: 'conditions',
    description,
    optional: true,
    repeating: false,
    takesRange: true,
    read: (raw, argument) => {
      if (isBlankArgument(raw)) return STANDARD_CONDITIONS;
      if (isCellError(raw)) return raise({ kind: 'cell-error', argument, code: raw.error });
      if (isRange(raw)) return conditionsByContent(raw);
      const todo = 'Give a range of names, values and units.';
      return raise({ kind: 'wrong', argument, found: 'a single cell', allowed: 'a range', todo });
    },
  };
}

/** May be omitted or blank: the body then sees the fallback, or undefined. */
export function optional<T>(parameter: Parameter<T>): Parameter<T | undefined>;
export function optional<T>(parameter: Parameter<T>, fallback: T): Parameter<T>;
export function optional<T>(parameter: Parameter<T>, fallback?: T): Parameter<T | undefined> {
  const read = (raw: RawArgument, argument: string): T | undefined =>
    isBlankArgument(raw) || (parameter.kind === 'list' && isRange(raw) && raw.every((row) => row.every(isBlank)))
      ? fallback
      : parameter.read(raw, argument);
  return { ...parameter, optional: true, read };
}

type Item<T> = T extends readonly number[] ? number : T;

/** The last parameter, given any number of times; the body sees all values in one array. Lists are joined. */
export function repeating<T>(parameter: Parameter<T>): Parameter<readonly Item<T>[]> {
  const read = (raw: RawArgument, argument: string): readonly Item<T>[] => {
    const value = parameter.read(raw, argument);
    return (parameter.kind === 'list' ? value : [value]) as readonly Item<T>[];
  };
  return { ...parameter, repeating: true, read };
}
