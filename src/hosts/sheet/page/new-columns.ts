import { CellValueType, type ICellData } from '@univerjs/core';
import {
  type IInsertColCommandParams,
  InsertColCommand,
  type ISetRangeValuesMutationParams,
  SetRangeValuesMutation,
  SheetInterceptorService,
} from '@univerjs/sheets';
import type { Block } from '../../../workbook/address.ts';
import { editsOf, movedBlocks } from '../../../workbook/edits.ts';
import { partText } from '../../../workbook/package.ts';
import type { Book } from '../../../workbook/read.ts';
import { freeColumn, keepsFrame, tablePart, tableRelations } from '../../../workbook/table-part.ts';
import type { Edits } from './edits.ts';
import type { Grid } from './grid.ts';

/** After the library's own: the cells are there by then. */
const LAST = -1_000;

/**
 * Writes a name into the header of each column that is put into a table of the file, as spreadsheets do: the file has one
 * there, and formulas over the header count it. It is part of the step that puts the columns in, whose undo takes it out
 * with them.
 *
 * @param open the file of the workbook that is open
 */
export function nameNewColumns(grid: Grid, edits: Edits, open: () => Book | undefined): void {
  grid.injector.get(SheetInterceptorService).interceptCommand({
    priority: LAST,
    getMutations({ id, params }) {
      const none = { redos: [], undos: [] };
      const book = open();
      if (id !== InsertColCommand.id || book === undefined) return none;
      const { unitId, subUnitId, range } = params as IInsertColCommandParams;
      const cellValue: Record<number, Record<number, ICellData>> = {};
      for (const header of headersNow(book, subUnitId, edits)) {
        const { startRow: row, startColumn, endColumn } = header;
        if (range.startColumn <= startColumn || range.startColumn > endColumn) continue;
        const [texts = []] = grid.reader.cellsIn(unitId, subUnitId, header);
        const taken = new Set(texts.map((text) => String(text ?? '').toUpperCase()));
        const names: Record<number, ICellData> = {};
        for (let column = range.startColumn; column <= range.endColumn; column++)
          names[column] = { v: freeColumn(taken), t: CellValueType.STRING };
        cellValue[row] = { ...cellValue[row], ...names };
      }
      if (Object.keys(cellValue).length === 0) return none;
      const put: ISetRangeValuesMutationParams = { unitId, subUnitId, cellValue };
      return { redos: [{ id: SetRangeValuesMutation.id, params: put }], undos: [] };
    },
  });
}

/** Where the header rows of the tables of a sheet are by now; tables that the file would not keep have none. */
function headersNow(book: Book, sheetId: string, edits: Edits): Block[] {
  const sheet = book.sheets.find(({ id }) => id === sheetId);
  if (sheet === undefined) return [];
  const own = editsOf(edits.done, sheet.name);
  return tableRelations(book.parts, sheet.part).flatMap(({ target }) => {
    const table = tablePart(partText(book.parts, target) ?? '');
    if (table === undefined || !table.header || !keepsFrame(table, own)) return [];
    return movedBlocks({ ...table.block, endRow: table.block.startRow }, own) ?? [];
  });
}
