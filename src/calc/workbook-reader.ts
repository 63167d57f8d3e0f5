import type { ICellData, Workbook } from '@univerjs/core';
import type { FormulaDataModel } from '@univerjs/engine-formula';
import type { Cell, CellRange } from '../tables/cells.ts';
import type { SheetReader } from './explain.ts';
import type { CellPlace } from './messages.ts';
import type { CellRectangle } from './seams.ts';
import type { UniverModules } from './univer.ts';

const errorCode = /^#(?:VALUE!|N\/A|NUM!|DIV\/0!|REF!|NAME\?|NULL!|SPILL!|CALC!|ERROR!|CYCLE!|GETTING_DATA)$/;

type Stored = Pick<ICellData, 'v' | 't' | 'f' | 'si'>;

export interface WorkbookReader extends SheetReader {
  cellAt(place: CellPlace): Cell;
  cellsIn(unitId: string, sheetId: string, range: CellRectangle): CellRange;
  /** every cell that shows something, spilled ones included */
  shownCells(): { readonly place: CellPlace; readonly cell: Cell }[];
}

/** What a workbook shows: values in cells, and over blank cells the values that formulas spill into them. */
export function createWorkbookReader(
  core: UniverModules['core'],
  workbook: () => Workbook,
  model: FormulaDataModel,
): WorkbookReader {
  const boolean = core.CellValueType.BOOLEAN;

  const storedAt = ({ sheetId, row, column }: CellPlace): Stored | null | undefined =>
    workbook().getSheetBySheetId(sheetId)?.getCellMatrix().getValue(row, column) as Stored | null | undefined;
  const spilledAt = ({ unitId, sheetId, row, column }: CellPlace): Stored | null | undefined =>
    model.getArrayFormulaCellData()[unitId]?.[sheetId]?.[row]?.[column] as Stored | null | undefined;

  const shownAt = (place: CellPlace): Stored | null | undefined => {
    const own = storedAt(place);
    return own?.v === undefined || own.v === null ? (spilledAt(place) ?? own) : own;
  };

  /** Errors are kept as text; text of a person's own that reads like one counts as one too, as in any spreadsheet. */
  const cellOf = (held: Stored | null | undefined): Cell => {
    const value = held?.v;
    if (value === null || value === undefined || value === '') return null;
    if (held?.t === boolean) return Boolean(value);
    return typeof value === 'string' && errorCode.test(value) ? { error: value } : value;
  };

  const cellAt = (place: CellPlace): Cell => cellOf(shownAt(place));

  return {
    valueAt: (place) => shownAt(place)?.v,
    formulaAt: (place) => {
      const own = storedAt(place);
      if (own?.f == null && own?.si == null) return undefined;
      return model.getFormulaStringByCell(place.row, place.column, place.sheetId, place.unitId) ?? own.f ?? undefined;
    },
    sheetName: (_, sheetId) => workbook().getSheetBySheetId(sheetId)?.getName() ?? sheetId,
    sheetId: (_, name) => workbook().getSheetBySheetName(name)?.getSheetId(),
    cellAt,
    cellsIn: (unitId, sheetId, range) =>
      Array.from({ length: range.endRow - range.startRow + 1 }, (_, row) =>
        Array.from({ length: range.endColumn - range.startColumn + 1 }, (_unused, column) =>
          cellAt({ unitId, sheetId, row: range.startRow + row, column: range.startColumn + column }),
        ),
      ),
    shownCells() {
      const unitId = workbook().getUnitId();
      const found: { place: CellPlace; cell: Cell }[] = [];
      for (const sheet of workbook().getSheets()) {
        const sheetId = sheet.getSheetId();
        const own = sheet.getCellMatrix();
        own.forValue((row, column, held) => {
          if (held?.v === null || held?.v === undefined) return;
          found.push({ place: { unitId, sheetId, row, column }, cell: cellOf(held) });
        });
        const spilled = model.getArrayFormulaCellData()[unitId]?.[sheetId] ?? {};
        for (const [row, columns] of Object.entries(spilled)) {
          for (const [column, held] of Object.entries((columns ?? {}) as Record<string, Stored>)) {
            const at = own.getValue(Number(row), Number(column))?.v;
            if (at !== null && at !== undefined) continue;
            found.push({ place: { unitId, sheetId, row: Number(row), column: Number(column) }, cell: cellOf(held) });
          }
        }
      }
      return found;
    },
  };
}
