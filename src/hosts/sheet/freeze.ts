import type { FWorksheet } from '@univerjs/sheets/facade';
import { type Cell, isCellError } from '../../tables/cells.ts';
import type { Grid } from './page/grid.ts';

const OURS = /\bNARROWS\./i;

/**
 * Puts the values that our formulas show, spilled ones with all their cells, in place of the formulas.
 *
 * @returns how many formulas went
 */
export function freezeSheet(grid: Grid, sheet: FWorksheet): number {
  const unitId = sheet.getWorkbook().getUnitId();
  const sheetId = sheet.getSheetId();
  const spills = grid.formulas.getArrayFormulaRange()[unitId]?.[sheetId] ?? {};
  const found: { readonly row: number; readonly column: number }[] = [];
  sheet
    .getSheet()
    .getCellMatrix()
    .forValue((row, column) => {
      const formula = grid.reader.formulaAt({ unitId, sheetId, row, column });
      if (formula !== undefined && OURS.test(formula)) found.push({ row, column });
    });
  // All values are read before the first formula goes: the cells after it would be empty by then.
  const frozen = found.map(({ row, column }) => {
    const single = { startRow: row, startColumn: column, endRow: row, endColumn: column };
    const spill = spills[row]?.[column] ?? single;
    const blocked = isCellError(grid.reader.cellAt({ unitId, sheetId, row, column }));
    return { row, column, cells: grid.reader.cellsIn(unitId, sheetId, blocked ? single : spill) };
  });
  for (const { row, column, cells } of frozen) {
    sheet
      .getRange(row, column, cells.length, cells[0]?.length ?? 1)
      .setValues(cells.map((line) => line.map((cell) => ({ f: null, si: null, p: null, v: plainValue(cell) }))));
  }
  return frozen.length;
}

function plainValue(cell: Cell): string | number | boolean | null {
  if (isCellError(cell)) return cell.error;
  return cell ?? null;
}
