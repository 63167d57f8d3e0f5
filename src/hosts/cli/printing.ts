import Table from 'cli-table3';
import type { Plain } from '../../calc/evaluate.ts';

/** Writes to standard output and waits until it has been taken; a reader that has gone away ends the writing quietly. */
export function printed(text: string): Promise<void> {
  return new Promise((resolve, reject) => {
    process.stdout.write(text, (error) => {
      if (error && (error as NodeJS.ErrnoException).code !== 'EPIPE') reject(error);
      else resolve();
    });
  });
}

/** Digits that a number is printed with; `--json` prints all of them. */
const SIGNIFICANT = 6;

export function plainText(value: Plain): string {
  if (typeof value === 'boolean') return value ? 'TRUE' : 'FALSE';
  if (typeof value === 'string') return value;
  if (Number.isInteger(value) && Math.abs(value) < 1e15) return String(value);
  return String(Number(value.toPrecision(SIGNIFICANT)));
}

const BETWEEN = '  ';
/** Room for a sign, six digits, a point and an exponent. */
const NUMBER_WIDTH = 13;
/** Narrowest that a column of words is made, so that it can still be read. */
const READABLE = 14;

/**
 * A spilled table as aligned text, numbers to the right.
 *
 * @param width characters of the terminal: words break over several lines where the table is wider; without one, a row is a line
 */
export function tableText(rows: readonly (readonly Plain[])[], width?: number): string {
  const columns = rows.reduce((widest, row) => Math.max(widest, row.length), 0);
  const rest = rows.slice(1);
  const isNumeric = (column: number): boolean =>
    (rest.length > 0 ? rest : rows).some((row) => typeof row[column] === 'number');
  const texts = rows.map((row) => row.map((value) => printable(plainText(value))));
  const widths = Array.from({ length: columns }, (_, column) =>
    texts.reduce((widest, row) => Math.max(widest, row[column]?.length ?? 0), 0),
  );
  if (width !== undefined) narrow(widths, isNumeric, width - BETWEEN.length * (columns - 1));
  const table = new Table({
    colAligns: Array.from({ length: columns }, (_, column) => (isNumeric(column) ? 'right' : 'left')),
    chars: { ...noLines, middle: BETWEEN },
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
    ...(width === undefined ? {} : { colWidths: widths, wordWrap: true }),
  });
  table.push(...texts);
  return table.toString().replace(/[ \t]+$/gm, '');
}

/** Takes characters from the widest columns of words until all columns fit; those of numbers stay, but for long headers. */
function narrow(widths: number[], isNumeric: (column: number) => boolean, room: number): void {
  let over = widths.reduce((sum, width) => sum + width, 0) - room;
  const least = widths.map((_, column) => (isNumeric(column) ? NUMBER_WIDTH : READABLE));
  while (over > 0) {
    const widest = widths.reduce((best, width, column) => {
      const canGive = width > (least[column] ?? 0);
      return canGive && (best < 0 || width > (widths[best] ?? 0)) ? column : best;
    }, -1);
    if (widest < 0) return;
    widths[widest] = (widths[widest] ?? 0) - 1;
    over--;
  }
}

/** Control characters of a cell's text never reach the terminal. */
export function printable(text: string): string {
  return text.replace(/\p{Cc}/gu, ' ');
}

const noLines = {
  top: '',
  'top-mid': '',
  'top-left': '',
  'top-right': '',
  bottom: '',
  'bottom-mid': '',
  'bottom-left': '',
  'bottom-right': '',
  left: '',
  'left-mid': '',
  mid: '',
  'mid-mid': '',
  right: '',
  'right-mid': '',
};
