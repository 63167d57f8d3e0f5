import type { IWorkbookData } from '@univerjs/core';
import type { CellRectangle } from '../../../calc/seams.ts';
import type { SheetEdit } from '../../../workbook/edits.ts';
import { type Book, readWorkbook } from '../../../workbook/read.ts';
import type { SpilledRange } from '../../../workbook/results.ts';
import { tableFormulas } from '../../../workbook/table-formulas.ts';
import { writeWorkbook } from '../../../workbook/write.ts';
import type { Grid } from '../page/grid.ts';
import type { OpenBook } from '../page/workbook.ts';
import { rebuild } from './rebuild.ts';

/**
 * The open workbook as a file, with the values of its formulas.
 *
 * @param beyondCells whether more than the content of cells was changed. If not, the file that was read gets new values and
 *   formulas and stays as it is otherwise, to the byte; if so, it is made anew.
 * @param edits what was done to rows, columns and names of sheets since the file was read
 */
export async function saveBook(
  grid: Grid,
  open: OpenBook,
  beyondCells: boolean,
  edits: readonly SheetEdit[],
): Promise<Uint8Array> {
  const snapshot = grid.snapshot();
  const spills = spillsOf(grid, snapshot.id);
  if (open.book !== undefined && !beyondCells) return writeWorkbook(open.book, { snapshot, spills });
  const book = await readWorkbook(await rebuild(open.book, snapshot, edits, grid.origins));
  const formulaText = open.book && tableFormulas(open.book, book, edits);
  return writeWorkbook(book, { snapshot: renumbered(snapshot, book), spills }, { formulaText });
}

/** The snapshot with its sheets under the ids that they have in `book`. */
export function renumbered(snapshot: IWorkbookData, book: Book): IWorkbookData {
  const sheets: IWorkbookData['sheets'] = {};
  for (const id of snapshot.sheetOrder) {
    const sheet = snapshot.sheets[id];
    const inFile = book.sheets.find(({ name }) => name === sheet?.name);
    if (sheet !== undefined && inFile !== undefined) sheets[inFile.id] = sheet;
  }
  return { ...snapshot, sheetOrder: Object.keys(sheets), sheets };
}

function spillsOf({ reader, formulas }: Grid, unitId: string): SpilledRange[] {
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
