import { type CellRange, isCellError } from '../tables/cells.ts';
import { isoDate } from './iso-date.ts';

/**
 * What a spreadsheet program may take for a formula when it opens a text file, wide forms of the signs included. Spaces
 * before it do not help.
 */
const STARTS_FORMULA = /^\s*[=+\-@\uff1d\uff0b\uff0d\uff20]|^[\t\r\n]/;
const PLAIN_NUMBER = /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[+-]?\d+)?$/i;
/** A separator of any country inside a field would open a new field there. */
const NEEDS_QUOTES = /["\t\r\n,;]|^\s|\s$/;
const LINE_END = '\r\n';

/**
 * Cells as comma-separated text (RFC 4180). Numbers stay numbers, negative ones too; those that are shown as dates or times
 * are written so (ISO 8601). Text that would start a formula gets an apostrophe before it, by which spreadsheet programs know
 * text. An error is its code.
 *
 * @param formatAt the number format of a cell by its place among the rows
 */
export function csvOf(
  rows: CellRange,
  formatAt: (row: number, column: number) => string | undefined = () => undefined,
): string {
  return rows
    .map((cells, row) => cells.map((cell, column) => field(cell, () => formatAt(row, column))).join(',') + LINE_END)
    .join('');
}

function field(cell: CellRange[number][number], format: () => string | undefined): string {
  if (cell === null || cell === undefined) return '';
  if (isCellError(cell)) return quoted(cell.error);
  if (typeof cell === 'number') return isoDate(cell, format()) ?? String(cell);
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  const harmless = !STARTS_FORMULA.test(cell) || PLAIN_NUMBER.test(cell);
  return quoted(harmless ? cell : `'${cell}`);
}

function quoted(text: string): string {
  return NEEDS_QUOTES.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
