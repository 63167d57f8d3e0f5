import type { CellRectangle } from '../../../calc/seams.ts';
import type { SpilledRange } from '../../../workbook/results.ts';
import { writeWorkbook } from '../../../workbook/write.ts';
import type { Grid } from './grid.ts';
import type { OpenBook } from './workbook.ts';

export interface Saved {
  readonly bytes: Uint8Array;
  /** what the file does not carry, as sentences */
  readonly left: readonly string[];
}

export async function saveBook(grid: Grid, open: OpenBook, beyondCells: boolean): Promise<Saved> {
  const snapshot = grid.snapshot();
  if (open.book === undefined) throw new Error('an empty workbook cannot be saved yet');
  const left = beyondCells ? ['Changes of looks, rows, columns and sheets were not kept'] : [];
  return { bytes: writeWorkbook(open.book, { snapshot, spills: spillsOf(grid) }), left };
}

function spillsOf(grid: Grid): SpilledRange[] {
  const { reader, formulas } = grid;
  const unitId = grid.snapshot().id;
  return Object.entries(formulas.getArrayFormulaRange()[unitId] ?? {}).flatMap(([sheetId, rows]) =>
    Object.values(rows ?? {}).flatMap((columns) =>
      (Object.values(columns ?? {}) as CellRectangle[]).flatMap((range): SpilledRange[] => {
        const at = { unitId, sheetId, row: range.startRow, column: range.startColumn };
        if (reader.valueAt(at) === '#SPILL!') return [];
        return [{ sheet: reader.sheetName(unitId, sheetId), range, cells: reader.cellsIn(unitId, sheetId, range) }];
      }),
    ),
  );
}
