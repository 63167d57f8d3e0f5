import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

/** Rows of a check table of this folder: name of the refrigerant, source, and the numbers by their header. */
export interface CheckRow {
  readonly refrigerant: string;
  readonly source: string;
  readonly number: (header: string) => number;
}

/** Tables made by tools/refrigerants/make_tables.py, straight from the equations of state. */
export function checkRows(file: string): readonly CheckRow[] {
  const text = readFileSync(fileURLToPath(new URL(`./${file}.csv`, import.meta.url)), 'utf8');
  const [header = '', ...lines] = text.trim().split('\n');
  const names = header.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    const cell = (name: string): string => cells[names.indexOf(name)] ?? '';
    return { refrigerant: cell('refrigerant'), source: cell('source'), number: (name) => Number(cell(name)) };
  });
}
