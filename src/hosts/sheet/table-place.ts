import { cellName } from '../../calc/formula-text.ts';
import { cellsNamed } from './cells.ts';
import { addressOf } from './faults.ts';
import type { Grid } from './page/grid.ts';

/** How the words of a fault begin that is in a table: its name, the row in it, and mostly the header of the column. */
const PLACE = /^(\p{Lu}\w*), row (\d+)(?:, column ([^:]+))?: /u;
const QUOTED = /"[^"]*"/g;

/** Whether words say in which row of which table a fault is. */
export const namesPlace = (words: string): boolean => PLACE.test(words);

/**
 * The place on the sheet of a fault of a table, such as Units!F6 for "Units, row 3, column Rig: …". Undefined where the
 * formula does not read the table by a defined name like that of the table: which cells it takes is not known here then.
 */
export function tablePlace(grid: Grid, formula: string, words: string): string | undefined {
  const [, table = '', row = '', header] = PLACE.exec(words) ?? [];
  const book = grid.api.getActiveWorkbook();
  if (table === '' || book === null) return undefined;
  const read = new RegExp(`(?<![\\w.!'])${table}(?![\\w.!'(])`, 'i').test(formula.replace(QUOTED, '""'));
  const block = read ? cellsNamed(grid, book, table) : undefined;
  const at = Number(row) - 1;
  if (block?.cells[at] === undefined) return undefined;
  const column = block.cells[0]?.findIndex((cell) => isHeader(cell, header)) ?? -1;
  return addressOf(block.sheet, cellName(block.row + at, block.column + Math.max(0, column)));
}

/** Headers may name a unit behind their name: "Bore (mm)". */
function isHeader(cell: unknown, header: string | undefined): boolean {
  if (header === undefined || typeof cell !== 'string') return false;
  const [name = ''] = cell.split('(');
  return [cell, name].some((text) => text.trim().toLowerCase() === header.trim().toLowerCase());
}
