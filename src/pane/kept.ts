import { type Cell, type CellRange, isBlank, isCellError } from '../tables/cells.ts';
import { blockName, parseBlock } from '../workbook/address.ts';

/**
 * The sheet on which a workbook keeps the formulas that were frozen to values: one row a formula, as text, so that the
 * workbook itself has what is needed to put them back. The values that stand in for a formula are kept with it: by them it
 * is told whether its cells are still its own.
 */
export const KEPT_SHEET = 'Formulas kept';
export const KEPT_HEADER = ['Sheet', 'Cell', 'Fills', 'Formula', 'Values'] as const;

/** Columns before the values, which run on in the columns behind theirs where they are long. */
const BEFORE_VALUES = KEPT_HEADER.length - 1;
/** A cell takes 32,767 letters (published limit of the format). */
const MOST_LETTERS = 30_000;

/** What a frozen cell holds: an error as its code, a blank as null. */
export type FrozenValue = string | number | boolean | null;

export interface KeptFormula {
  readonly sheet: string;
  /** corner, e.g. B4 */
  readonly cell: string;
  /** all that it fills, e.g. B4:D9 */
  readonly fills: string;
  /** as typed, with its = */
  readonly formula: string;
  /** what stands in for it, by rows; absent where that was not kept */
  readonly values?: readonly (readonly FrozenValue[])[];
}

/** What came of putting formulas back. */
export interface Restored {
  readonly count: number;
  /** formulas that stay on the list, and why */
  readonly left: readonly { readonly cell: string; readonly why: string }[];
}

/** Reads the rows below the header; rows that are not whole are passed over. */
export function readKept(cells: CellRange): readonly KeptFormula[] {
  return cells.slice(1).flatMap((row) => {
    const [sheet = '', cell = '', fills = '', formula = ''] = row
      .slice(0, BEFORE_VALUES)
      .map((held) => plainText(held).trim());
    if (sheet === '' || cell === '' || !formula.startsWith('=')) return [];
    const values = parsedValues(row.slice(BEFORE_VALUES).map(plainText).join(''));
    return [{ sheet, cell, fills: fills || cell, formula, ...(values === undefined ? {} : { values }) }];
  });
}

/**
 * Rows for the sheet, header first, all of one width. A formula of the same cell takes the place of the one kept before.
 */
export function keptRows(before: readonly KeptFormula[], added: readonly KeptFormula[]): readonly string[][] {
  const place = ({ sheet, cell }: KeptFormula) => `${sheet}!${cell}`.toLowerCase();
  const fresh = new Set(added.map(place));
  const rows: string[][] = [
    [...KEPT_HEADER],
    ...[...before.filter((kept) => !fresh.has(place(kept))), ...added].map(
      ({ sheet, cell, fills, formula, values }) => [sheet, cell, fills, formula, ...valueTexts(values)],
    ),
  ];
  const width = Math.max(...rows.map((row) => row.length));
  return rows.map((row) => [...row, ...Array<string>(width - row.length).fill('')]);
}

/**
 * Why a kept formula must not be put back: what stands in its cells is not what was frozen there. Undefined if it may.
 *
 * @param now what the cells that it fills show now; undefined where they are gone
 * @param isFormula whether a cell of them, by its place among them, holds a formula
 */
export function whyLeft(
  { fills, values }: KeptFormula,
  now: CellRange | undefined,
  isFormula: (row: number, column: number) => boolean,
): string | undefined {
  const block = parseBlock(fills);
  if (block === undefined || now === undefined) return 'its cells are gone';
  if (values === undefined) return 'the values that were frozen were not kept with it';
  if (now.length !== values.length || now[0]?.length !== values[0]?.length)
    return `rows or columns came or went inside ${fills}`;
  const changed = now.flatMap((line, down) =>
    line.flatMap((cell, across) => {
      if (!isFormula(down, across) && plain(cell) === plain(values[down]?.[across])) return [];
      const [row, column] = [block.startRow + down, block.startColumn + across];
      return [blockName({ startRow: row, endRow: row, startColumn: column, endColumn: column })];
    }),
  );
  const [first, ...more] = changed;
  if (first === undefined) return undefined;
  const others = more.length === 0 ? '' : ` and ${more.length} more ${more.length === 1 ? 'cell' : 'cells'}`;
  return `${first}${others} ${more.length === 0 ? 'holds' : 'hold'} something else than was frozen there`;
}

/** A cell as it is frozen. */
export function frozenValue(cell: Cell): FrozenValue {
  return isCellError(cell) ? cell.error : (cell ?? null);
}

/** Digits of a number that every file and program keeps. */
const DIGITS = 14;

/** One text for all that a value is made of on its way through programs and files: numbers as text, blanks as empty text. */
function plain(cell: Cell): string {
  const value = frozenValue(cell);
  if (isBlank(value)) return '';
  if (typeof value === 'boolean') return String(value).toUpperCase();
  const number = Number(value);
  return Number.isFinite(number) ? String(Number(number.toPrecision(DIGITS))) : String(value);
}

/** Values as text in pieces that cells take. A piece never begins with an apostrophe, which would be a mark of text. */
function valueTexts(values: KeptFormula['values']): string[] {
  if (values === undefined) return [];
  const text = JSON.stringify(values).replaceAll("'", '\\u0027');
  return Array.from({ length: Math.ceil(text.length / MOST_LETTERS) }, (_, i) =>
    text.slice(i * MOST_LETTERS, (i + 1) * MOST_LETTERS),
  );
}

function parsedValues(text: string): KeptFormula['values'] {
  try {
    const read: unknown = JSON.parse(text);
    const isTable = Array.isArray(read) && read.every((row) => Array.isArray(row) && row.every(isFrozen));
    return isTable ? (read as FrozenValue[][]) : undefined;
  } catch {
    return undefined;
  }
}

function isFrozen(value: unknown): value is FrozenValue {
  return value === null || typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';
}

function plainText(cell: Cell): string {
  return isBlank(cell) ? '' : String(cell).replace(/^'/, '');
}
