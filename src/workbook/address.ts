/** A1 addresses. Rows and columns count from 0 here, as in the sheet's snapshot. */
export interface Spot {
  readonly row: number;
  readonly column: number;
}

export interface Block {
  readonly startRow: number;
  readonly startColumn: number;
  readonly endRow: number;
  readonly endColumn: number;
}

/** Most rows and columns that a sheet file can name (ISO/IEC 29500-1 §18.3.1.73 and §18.3.1.13). */
export const MOST_ROWS = 1_048_576;
export const MOST_COLUMNS = 16_384;

const LETTERS: string[] = [];

export function columnLetters(column: number): string {
  const known = LETTERS[column];
  if (known !== undefined) return known;
  let letters = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  LETTERS[column] = letters;
  return letters;
}

export function columnNumber(letters: string): number {
  let number = 0;
  for (const letter of letters.toUpperCase()) number = number * 26 + letter.charCodeAt(0) - 64;
  return number - 1;
}

export function spotName(row: number, column: number): string {
  return `${columnLetters(column)}${row + 1}`;
}

export function blockName(block: Block): string {
  const from = spotName(block.startRow, block.startColumn);
  const to = spotName(block.endRow, block.endColumn);
  return from === to ? from : `${from}:${to}`;
}

const SPOT = /^\$?([A-Za-z]{1,3})\$?([1-9]\d{0,6})$/;

/** Reads "B4" or "$B$4"; undefined when it is no address on a sheet. */
export function parseSpot(text: string): Spot | undefined {
  const match = SPOT.exec(text.trim());
  if (match === null) return undefined;
  const column = columnNumber(match[1] as string);
  const row = Number(match[2]) - 1;
  return row < MOST_ROWS && column < MOST_COLUMNS ? { row, column } : undefined;
}

/** Reads "A1:D9", "A1", "A:C" (whole columns) or "2:3" (whole rows); undefined when it is none of them. */
export function parseBlock(text: string): Block | undefined {
  const [left, right = left] = text.trim().replaceAll('$', '').split(':');
  if (left === undefined || right === undefined) return undefined;
  if (/^[A-Za-z]{1,3}$/.test(left) && /^[A-Za-z]{1,3}$/.test(right)) {
    const [a, b] = [columnNumber(left), columnNumber(right)];
    return { startRow: 0, endRow: MOST_ROWS - 1, startColumn: Math.min(a, b), endColumn: Math.max(a, b) };
  }
  if (/^\d+$/.test(left) && /^\d+$/.test(right)) {
    const [a, b] = [Number(left) - 1, Number(right) - 1];
    return { startRow: Math.min(a, b), endRow: Math.max(a, b), startColumn: 0, endColumn: MOST_COLUMNS - 1 };
  }
  const from = parseSpot(left);
  const to = parseSpot(right);
  if (from === undefined || to === undefined) return undefined;
  return {
    startRow: Math.min(from.row, to.row),
    startColumn: Math.min(from.column, to.column),
    endRow: Math.max(from.row, to.row),
    endColumn: Math.max(from.column, to.column),
  };
}

export function quoteSheetName(name: string): string {
  return /^[A-Za-z_][A-Za-z0-9_]*$/.test(name) && parseSpot(name) === undefined && !/^[rc]\d*$/i.test(name)
    ? name
    : `'${name.replaceAll("'", "''")}'`;
}
