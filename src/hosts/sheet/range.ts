import type { CellRange } from '../../tables/cells.ts';
import { parseBlock } from '../../workbook/address.ts';
import { partsOf } from './faults.ts';
import type { Grid } from './page/grid.ts';

/** The cells of a range that names its sheet ('Pipe runs'!$A$1:$B$9), or of the sheet in view; none if it is not there. */
export function rangeCells(grid: Grid, text: string): CellRange {
  const book = grid.api.getActiveWorkbook();
  const { sheetName, cell } = partsOf(text);
  const sheet = sheetName === '' ? book?.getActiveSheet() : book?.getSheetByName(sheetName);
  const block = parseBlock(cell);
  if (!book || !sheet || block === undefined) return [];
  const range = {
    ...block,
    endRow: Math.min(block.endRow, sheet.getMaxRows() - 1),
    endColumn: Math.min(block.endColumn, sheet.getMaxColumns() - 1),
  };
  return grid.reader.cellsIn(book.getId(), sheet.getSheetId(), range);
}
