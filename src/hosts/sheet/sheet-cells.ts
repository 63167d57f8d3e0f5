import { isBlank } from '../../tables/cells.ts';
import type { Block } from '../../workbook/address.ts';
import type { Grid } from './page/grid.ts';

/** The rectangle from A1 to the last cell of a sheet that shows something; undefined for an empty sheet. */
export function usedBlock(grid: Grid, sheetId: string): Block | undefined {
  let [endRow, endColumn] = [-1, -1];
  for (const { place, cell } of grid.reader.shownCells()) {
    if (place.sheetId !== sheetId || isBlank(cell)) continue;
    endRow = Math.max(endRow, place.row);
    endColumn = Math.max(endColumn, place.column);
  }
  return endRow < 0 ? undefined : { startRow: 0, startColumn: 0, endRow, endColumn };
}
