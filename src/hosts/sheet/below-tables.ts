import type { FWorkbook } from '@univerjs/sheets/facade';
import type { CellNote } from '../../pane/host.ts';
import { isBlank } from '../../tables/cells.ts';
import { blockName, spotName } from '../../workbook/address.ts';
import { addressOf } from './faults.ts';
import { type NamedTable, tablesRead } from './named-tables.ts';
import type { Grid } from './page/grid.ts';

/**
 * Content directly below the tables that our functions read by a defined name, of the workbook or of one sheet: it looks
 * like a row of the table and is not read.
 */
export function contentBelowTables(grid: Grid, book: FWorkbook, sheetId?: string): readonly CellNote[] {
  return tablesRead(grid, book, sheetId).flatMap((table) => noteBelow(grid, book, table) ?? []);
}

function noteBelow(grid: Grid, book: FWorkbook, { name, sheetId, sheetName, block }: NamedTable): CellNote | undefined {
  const row = block.endRow + 1;
  const [below] = grid.reader.cellsIn(book.getId(), sheetId, { ...block, startRow: row, endRow: row });
  const first = below?.findIndex((cell) => !isBlank(cell)) ?? -1;
  if (first < 0) return undefined;
  const address = addressOf(sheetName, spotName(row, block.startColumn + first));
  const message = `This row is not read: it stands below ${name}, which ends with ${addressOf(sheetName, blockName(block))}. If it belongs to the table, insert a row inside the table and put it there.`;
  return { address, message };
}
