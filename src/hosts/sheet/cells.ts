import type { FRange, FWorkbook } from '@univerjs/sheets/facade';
import type { CellBlock } from '../../pane/host.ts';
import { parseBlock } from '../../workbook/address.ts';
import { partsOf } from './faults.ts';
import type { Grid } from './page/grid.ts';

/** Columns of a row that are looked at: tables of units and results are narrower. */
const ROW_COLUMNS = 40;

/** The cells that a defined name or an address stands for; undefined where the workbook has neither. */
export function cellsNamed(grid: Grid, book: FWorkbook, reference: string): CellBlock | undefined {
  const wanted = reference.toLowerCase();
  const name = book.getDefinedNames().find((known) => known.getName().toLowerCase() === wanted);
  const { sheetName, cell } = partsOf((name?.getFormulaOrRefString() ?? reference).replace(/^=/, ''));
  const sheet = sheetName === '' ? (name === undefined ? null : book.getActiveSheet()) : book.getSheetByName(sheetName);
  const block = parseBlock(cell);
  if (sheet === null || block === undefined) return undefined;
  // Whole columns and rows end where the sheet does.
  const endRow = Math.min(block.endRow, sheet.getMaxRows() - 1);
  const endColumn = Math.min(block.endColumn, sheet.getMaxColumns() - 1);
  return {
    sheet: sheet.getSheetName(),
    row: block.startRow,
    column: block.startColumn,
    cells: grid.reader.cellsIn(book.getId(), sheet.getSheetId(), { ...block, endRow, endColumn }),
  };
}

/** What the row of a cell shows. */
export function rowOf(grid: Grid, book: FWorkbook, cell: FRange): CellBlock {
  const row = cell.getRow();
  const rectangle = { startRow: row, endRow: row, startColumn: 0, endColumn: ROW_COLUMNS - 1 };
  return {
    sheet: cell.getSheetName(),
    row,
    column: 0,
    cells: grid.reader.cellsIn(book.getId(), cell.getSheetId(), rectangle),
  };
}
