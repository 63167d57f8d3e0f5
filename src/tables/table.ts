import { Fault, type Issue, type Place, raise } from '../faults/issue.ts';
import { checkNumber, checkReading, type Limit, limitToSI, withinLimit } from '../units/limit.ts';
import { fromUnit, isUnit, LARGEST_SI, type Quantity, readQuantity } from '../units/quantity.ts';
import { type Cell, type CellRange, isBlank, isCellError } from './cells.ts';

/** More rows than this is a whole column given by mistake, and is refused before anything is read. */
export const MOST_ROWS = 200_000;

/** A column that a table knows. */
export interface Column {
  /** as messages and the reference pages show it */
  readonly header: string;
  readonly synonyms?: readonly string[];
  readonly needed?: boolean;
  /** absent: text */
  readonly quantity?: Quantity | 'number';
  /** default unit of the column where the header names none */
  readonly unit?: string;
  /** in `unit` */
  readonly limit?: Limit;
  readonly whole?: boolean;
  readonly description: string;
}

export type Columns = Readonly<Record<string, Column>>;

/** Takes a fault: throws it, or keeps it and lets the reading go on. */
export type FaultSink = (fault: Fault) => void;

export const throwFault: FaultSink = (fault) => {
  throw fault;
};

interface FoundColumn {
  readonly index: number;
  /** header as the person wrote it */
  readonly shown: string;
  readonly unit: string;
  readonly factor: number;
  readonly offset: number;
  readonly limitSI: Limit | undefined;
  readonly column: Column;
}

/** A range with known columns. Row indices count filled rows from 0; `rowNumber` gives the row within the range from 1. */
export interface OpenTable<K extends string> {
  readonly name: string;
  readonly rowCount: number;
  rowNumber(row: number): number;
  has(key: K): boolean;
  /** blank, or no such column */
  blank(row: number, key: K): boolean;
  text(row: number, key: K): string | undefined;
  /** SI value, or the plain number of a column without a unit; undefined when blank, absent or faulty */
  number(row: number, key: K): number | undefined;
  /** as `number`, but a blank is a fault */
  needed(row: number, key: K): number | undefined;
  neededText(row: number, key: K): string | undefined;
  place(row: number, key?: K): Place;
  fault(issue: Issue, row: number, key?: K): void;
}

/** `Water limit (mbar)` -> name `waterlimit`, unit `mbar` */
export function splitHeader(header: string): { readonly name: string; readonly unit: string | undefined } {
  const match = /^([^([,]+?)\s*(?:\((.*)\)|\[(.*)\]|,(.*))\s*$/u.exec(header.trim());
  const name = match?.[1] ?? header;
  const unit = (match?.[2] ?? match?.[3] ?? match?.[4])?.trim();
  return { name: plainName(name), unit: unit === '' ? undefined : unit };
}

/** A header as it was written, without the unit behind it: "Bore (mm)" is Bore. */
export function headerWithoutUnit(header: string): string {
  return (header.split(/[([,]/u)[0] ?? '').trim();
}

/** Names are matched without regard to case, spaces and punctuation. */
export function plainName(name: string): string {
  return name.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}

function rowIsBlank(cells: readonly Cell[]): boolean {
  for (let i = 0; i < cells.length; i++) if (!isBlank(cells[i])) return false;
  return true;
}

function findColumns<K extends string>(
  header: readonly Cell[],
  name: string,
  columns: Readonly<Record<K, Column>>,
  sink: FaultSink,
): ReadonlyMap<K, FoundColumn> {
  const byName = new Map<string, K>();
  for (const key of Object.keys(columns) as K[]) {
    for (const known of [columns[key].header, ...(columns[key].synonyms ?? [])]) byName.set(plainName(known), key);
  }
  const found = new Map<K, FoundColumn>();
  header.forEach((cell, index) => {
    if (typeof cell !== 'string' || isBlank(cell)) return;
    const match = matchHeader(cell, byName, columns);
    if (match === undefined) return;
    const { key, unit } = match;
    const column = columns[key];
    const place = { table: name, row: 1, column: cell.trim() };
    if (found.has(key)) {
      sink(new Fault({ kind: 'duplicate-header', table: name, header: column.header }, place));
      return;
    }
    try {
      found.set(key, foundColumn(column, index, cell.trim(), unit));
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      sink(new Fault(error.issue, place));
    }
  });
  for (const key of Object.keys(columns) as K[]) {
    const column = columns[key];
    if (column.needed === true && !found.has(key)) sink(headerFault(name, column.header, header));
  }
  return found;
}

/** `Bore (mm)`, `Bore [mm]`, `Bore, mm`, and `Bore mm` where the last words are a unit of the column. */
function matchHeader<K extends string>(
  header: string,
  byName: ReadonlyMap<string, K>,
  columns: Readonly<Record<K, Column>>,
): { readonly key: K; readonly unit: string | undefined } | undefined {
  const split = splitHeader(header);
  const key = byName.get(split.name);
  if (key !== undefined) return { key, unit: split.unit };
  const whole = byName.get(plainName(header));
  if (whole !== undefined) return { key: whole, unit: undefined };
  const text = header.trim();
  for (const gap of [...text.matchAll(/[\s_/]+/gu)].reverse()) {
    // "Bore in mm" as well as "Bore mm"
    const before = text.slice(0, gap.index);
    const named = byName.get(plainName(before)) ?? byName.get(plainName(before.replace(/[\s_]in$/iu, '')));
    const { quantity } = named === undefined ? { quantity: undefined } : columns[named];
    const unit = text.slice(gap.index + gap[0].length);
    if (named === undefined || quantity === undefined || quantity === 'number') continue;
    if (isUnit(unit, quantity)) return { key: named, unit };
  }
  return undefined;
}

function headerFault(table: string, header: string, cells: readonly Cell[]): Fault {
  const found = cells.filter((cell): cell is string => typeof cell === 'string' && !isBlank(cell));
  return new Fault({ kind: 'missing-header', table, header, found }, { table, row: 1 });
}

function foundColumn(column: Column, index: number, shown: string, headerUnit: string | undefined): FoundColumn {
  const { quantity, unit: defaultUnit = '', limit } = column;
  const plain = { index, shown, unit: '', factor: 1, offset: 0, column };
  if (quantity === undefined || quantity === 'number') return { ...plain, limitSI: limit };
  const unit = headerUnit ?? defaultUnit;
  const offset = fromUnit(0, unit, quantity, shown);
  const factor = fromUnit(1, unit, quantity, shown) - offset;
  return { ...plain, unit, factor, offset, limitSI: limit && limitToSI(limit, defaultUnit, quantity) };
}

/** counts, coefficients and prices */
const PLAIN_LIMIT: Limit = { atLeast: -LARGEST_SI, atMost: LARGEST_SI };

function readCell(cell: Cell, found: FoundColumn): number {
  const { column, limitSI } = found;
  const argument = column.header;
  if (isCellError(cell)) raise({ kind: 'cell-error', argument, code: cell.error });
  const { quantity } = column;
  if (quantity === undefined || quantity === 'number') {
    const value = plainNumber(cell, argument);
    checkNumber(value, PLAIN_LIMIT, argument);
    if (limitSI !== undefined) checkNumber(value, limitSI, argument);
    if (column.whole === true && !Number.isInteger(value)) {
      raise({ kind: 'wrong', argument, found: String(value), allowed: 'a whole number', todo: 'Round it.' });
    }
    return value;
  }
  const reading = readQuantity(cell, quantity, found.unit, argument);
  if (limitSI !== undefined) checkReading(reading, limitSI, quantity, argument);
  return reading.si;
}

/** A cell of a column without a unit. */
export function plainNumber(cell: unknown, argument: string): number {
  if (typeof cell === 'number' && Number.isFinite(cell)) return cell;
  const percent = typeof cell === 'string' ? readPlain(cell) : undefined;
  if (percent !== undefined) return percent;
  return raise({ kind: 'not-a-number', argument, value: cell, expected: 'a number' });
}

function readPlain(text: string): number | undefined {
  try {
    return readQuantity(text, 'fraction', '1', '').si;
  } catch {
    return undefined;
  }
}

/**
 * Opens a range whose first row is headers. Columns come in any order, unknown ones are ignored, blank rows are skipped.
 *
 * Faults: `too-many-rows` before anything is read, `empty-table`, `duplicate-header`, `missing-header`, a header's `unit`;
 * cells raise as they are read, with their place.
 */
export function openTable<K extends string>(
  range: CellRange,
  name: string,
  columns: Readonly<Record<K, Column>>,
  sink: FaultSink = throwFault,
): OpenTable<K> {
  if (range.length > MOST_ROWS + 1) {
    throw new Fault({ kind: 'too-many-rows', table: name, rows: range.length, limit: MOST_ROWS }, { table: name });
  }
  const header = range[0];
  if (header === undefined || rowIsBlank(header)) {
    throw new Fault({ kind: 'empty-table', table: name }, { table: name });
  }
  const found = findColumns(header, name, columns, sink);
  const filled: number[] = [];
  for (let r = 1; r < range.length; r++) {
    const cells = range[r];
    if (cells !== undefined && !rowIsBlank(cells)) filled.push(r);
  }
  if (filled.length === 0) sink(new Fault({ kind: 'empty-table', table: name }, { table: name }));

  const cellAt = (row: number, column: FoundColumn): Cell => range[filled[row] ?? -1]?.[column.index];
  const place = (row: number, key?: K): Place => {
    const at = { table: name, row: (filled[row] ?? 0) + 1 };
    return key === undefined ? at : { ...at, column: found.get(key)?.shown ?? columns[key].header };
  };
  const fault = (issue: Issue, row: number, key?: K): void => sink(new Fault(issue, place(row, key)));
  const attempt = <T>(row: number, key: K, read: () => T): T | undefined => {
    try {
      return read();
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      fault(error.issue, row, key);
      return undefined;
    }
  };
  const number = (row: number, key: K): number | undefined => {
    const column = found.get(key);
    if (column === undefined) return undefined;
    const cell = cellAt(row, column);
    // the hot path of a long table: a plain number within its limit (npm run bench)
    if (typeof cell === 'number' && Number.isFinite(cell)) {
      const si = column.offset === 0 ? cell * column.factor : cell * column.factor + column.offset;
      const { limitSI } = column;
      const sized = Math.abs(si) <= LARGEST_SI;
      const allowed = sized && (limitSI === undefined || withinLimit(si, limitSI));
      if (allowed && (column.column.whole !== true || Number.isInteger(si))) return si;
    }
    return isBlank(cell) ? undefined : attempt(row, key, () => readCell(cell, column));
  };
  const text = (row: number, key: K): string | undefined => {
    const column = found.get(key);
    if (column === undefined) return undefined;
    const cell = cellAt(row, column);
    if (isBlank(cell)) return undefined;
    if (isCellError(cell)) {
      fault({ kind: 'cell-error', argument: column.column.header, code: cell.error }, row, key);
      return undefined;
    }
    return String(cell).trim();
  };
  const blank = (row: number, key: K): boolean => {
    const column = found.get(key);
    return column === undefined || isBlank(cellAt(row, column));
  };
  const missing = (row: number, key: K): boolean => {
    if (!blank(row, key)) return false;
    if (!found.has(key)) sink(headerFault(name, columns[key].header, header));
    else fault({ kind: 'missing', argument: columns[key].header }, row, key);
    return true;
  };
  return {
    name,
    rowCount: filled.length,
    rowNumber: (row) => (filled[row] ?? 0) + 1,
    has: (key) => found.has(key),
    blank,
    text,
    number,
    needed: (row, key) => (missing(row, key) ? undefined : number(row, key)),
    neededText: (row, key) => (missing(row, key) ? undefined : text(row, key)),
    place,
    fault,
  };
}
