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

/** A spilled table as aligned text: a rule under the header, numbers to the right. */
export function tableText(rows: readonly (readonly Plain[])[]): string {
  const columns = rows.reduce((widest, row) => Math.max(widest, row.length), 0);
  const rest = rows.slice(1);
  const isNumeric = (column: number): boolean =>
    (rest.length > 0 ? rest : rows).some((row) => typeof row[column] === 'number');
  const table = new Table({
    colAligns: Array.from({ length: columns }, (_, column) => (isNumeric(column) ? 'right' : 'left')),
    chars: { ...noLines, middle: '  ' },
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
  });
  table.push(...rows.map((row) => row.map((value) => printable(plainText(value)))));
  return table.toString().replace(/[ \t]+$/gm, '');
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
