import { raise } from '../faults/issue.ts';

/**
 * How much of a workbook we take in. Files come from strangers: each bound is checked before the memory is spent.
 * The bounds are choices, wide enough for a sheet of 100,000 rows and narrow enough for a browser tab.
 */
export interface Limits {
  /** size of the file, bytes */
  readonly fileBytes: number;
  /** parts in the package */
  readonly parts: number;
  /** all parts unpacked, bytes */
  readonly unpackedBytes: number;
  /** unpacked over packed size of one part; only asked of parts above `ratioFromBytes` */
  readonly ratio: number;
  readonly ratioFromBytes: number;
  readonly sheets: number;
  /** cells of all sheets together, blank but formatted ones included */
  readonly cells: number;
  /** cells from the first column on to the last one of each row that a sheet has: a reader lays them out */
  readonly rectangle: number;
  /** rows times columns from A1 to the last row and column with a cell: the reader of files takes no more */
  readonly spanned: number;
  /** cells inside merged ranges, of all sheets together: each is remembered by itself */
  readonly merged: number;
  /** characters of all formulas together, once those that share a text have each their own */
  readonly formulaCharacters: number;
}

const MEBIBYTE = 1024 * 1024;

export const LIMITS: Limits = {
  fileBytes: 64 * MEBIBYTE,
  parts: 5000,
  unpackedBytes: 256 * MEBIBYTE,
  ratio: 250,
  ratioFromBytes: 4 * MEBIBYTE,
  sheets: 255,
  cells: 2_000_000,
  rectangle: 10_000_000,
  spanned: 20_000_000,
  merged: 1_000_000,
  formulaCharacters: 32_000_000,
};

const ARGUMENT = 'Workbook';

/**
 * The file is no workbook that we can read. Raises a fault of kind `wrong`.
 *
 * @param found what it is instead
 * @param as how to save it so that we can
 */
export function unreadable(found: string, as = 'again as .xlsx'): never {
  const todo = `Open it in a spreadsheet program and save it ${as}.`;
  return raise({ kind: 'wrong', argument: ARGUMENT, found, allowed: 'a complete .xlsx file', todo });
}

/** Raises a fault of kind `limit` when `value` is above `most`. */
export function atMost(argument: string, value: number, most: number, unit: string): void {
  if (value > most) raise({ kind: 'limit', argument, value, rule: 'at most', limit: most, unit });
}
