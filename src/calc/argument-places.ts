import { namesRow, type Standing, withAddresses } from '../faults/addresses.ts';
import type { CellFunction, RawArgument } from '../functions/define.ts';
import type { Outcome } from '../functions/outcome.ts';
import type { Registry } from '../functions/registry.ts';
import { type Cell, type CellRange, isCellError } from '../tables/cells.ts';
import { CONDITIONS_HEADERS } from '../tables/conditions.ts';
import { headerWithoutUnit } from '../tables/table.ts';
import { cellName } from './formula-text.ts';
import { isReference, type NodeValue, type ReferenceObject } from './seams.ts';
import type { SheetNames } from './sheet-names.ts';

type Value = Extract<Outcome, { readonly ok: true }>['value'];

/** Puts addresses into what a call gave. */
export interface Addressing {
  words(words: string): string;
  value(value: Value): Value;
}

const isRange = (cells: RawArgument | Value): cells is CellRange => Array.isArray(cells);

/** A call whose faults are told: that of a function, or the one inside it that WHY is asked about. */
export interface ToldCall {
  readonly fn: CellFunction;
  readonly args: readonly NodeValue[];
  readonly cells: readonly RawArgument[];
}

export function toldCall(call: ToldCall, find: Registry['find']): ToldCall {
  const { fn, args, cells } = call;
  const [name] = cells;
  if (fn.id !== 'WHY' || typeof name !== 'string') return call;
  const inner = find(name);
  return inner === undefined ? call : { fn: inner, args: args.slice(1), cells: cells.slice(1) };
}

/**
 * Faults of tables say which row of the range they are in: where the table was given as a reference, their words get the
 * address of the cell instead. An array that was worked out has no address, and its words stay.
 */
export function addressing({ fn, args, cells }: ToldCall, sheetNames: SheetNames): Addressing {
  const parameters = Object.values(fn.parameters);
  const standingOf = (table: string): Standing | undefined => {
    const at = parameters.findIndex((parameter) => (parameter.table ?? parameter.kind) === table);
    const [given, read] = [args[at], cells[at]];
    if (given === undefined || read === undefined || !isReference(given) || !isRange(read)) return undefined;
    const headers =
      table === 'conditions' ? CONDITIONS_HEADERS.map((header) => [header]) : (read[0] ?? []).map(namesOf);
    return standing(given, headers, sheetNames);
  };
  const words = (text: string): string => withAddresses(text, standingOf);
  const cell = (held: Cell): Cell => {
    if (isCellError(held)) return held.message === undefined ? held : { ...held, message: words(held.message) };
    return typeof held === 'string' && namesRow(held) ? words(held) : held;
  };
  return {
    words,
    value(value) {
      if (typeof value === 'string') return words(value);
      return isRange(value) && value.some(someWords) ? value.map((row) => row.map(cell)) : value;
    },
  };
}

const hasWords = (cell: Cell): boolean => {
  const text = isCellError(cell) ? cell.message : cell;
  return typeof text === 'string' && namesRow(text);
};
const someWords = (row: readonly Cell[]): boolean => row.some(hasWords);

/** A header as it stands, and without the unit behind it: "Bore (mm)" is told as Bore, too. */
function namesOf(header: Cell): readonly string[] {
  if (typeof header !== 'string') return [];
  return [...new Set([header.trim(), headerWithoutUnit(header)])].filter((text) => text !== '');
}

function standing(reference: ReferenceObject, headers: Standing['headers'], sheetNames: SheetNames): Standing {
  const { startRow, startColumn, endRow, endColumn } = reference.getRangePosition();
  const sheet = sheetNames(reference.getUnitId(), reference.getSheetId());
  const area = (top: number, left: number, bottom: number, right: number): string => {
    const [first, last] = [cellName(top, left), cellName(bottom, right)];
    return `${sheet}!${first}${first === last ? '' : `:${last}`}`;
  };
  return {
    headers,
    address: area(startRow, startColumn, endRow, endColumn),
    rowAddress(row, column) {
      const at = startRow + row - 1;
      const [left, right] =
        column === undefined ? [startColumn, endColumn] : [startColumn + column, startColumn + column];
      return area(at, left, at, right);
    },
  };
}

const ADDRESS = /^([^:]+)!([A-Z]{1,3}\d+)(?::[A-Z]{1,3}\d+)?(?:, column [^:]+)?: /u;

/** The sheet and the first cell of the address that words begin with. */
export function addressIn(words: string): { readonly sheet: string; readonly cell: string } | undefined {
  const [, sheet, cell] = ADDRESS.exec(words) ?? [];
  return sheet === undefined || cell === undefined ? undefined : { sheet, cell };
}
