import type { BySheet, CellRectangle, Matrix, RowsOf, StoredCell } from './seams.ts';
import type { UniverModules } from './univer.ts';

type Cells = Pick<Matrix<StoredCell>, 'getValue'>;

/** What a reference of the engine looks its cells up in. */
interface CellsSeam {
  readonly _unitData?: BySheet<{ readonly cellData: Cells }>;
  readonly _runtimeData?: BySheet<Cells>;
  readonly _runtimeArrayFormulaCellData?: BySheet<Cells>;
  readonly _arrayFormulaCellData?: BySheet<Cells>;
  readonly _arrayFormulaRange?: BySheet<RowsOf<CellRectangle>>;
  readonly _runtimeArrayFormulaRange?: BySheet<RowsOf<CellRectangle>>;
  getUnitId(): string;
  getSheetId(): string;
  getRuntimeFeatureCellValue(row: number, column: number): StoredCell | undefined;
  getCellData(row: number, column: number): StoredCell | null | undefined;
}

const patched = new WeakSet<object>();

/** as cells say that they hold a text */
const TEXT = 1;
/**
 * An empty text that a formula gave. The engine takes it for a blank cell in the calculation that gives it, since no formula
 * stands beside the result yet, and for a text in later ones.
 */
const EMPTY_TEXT: StoredCell = Object.freeze({ v: '', t: TEXT, f: '=""' });
const withEmptyText = (cell: StoredCell): StoredCell => (cell.v === '' && cell.t === TEXT ? EMPTY_TEXT : cell);

/**
 * Reading a cell finds the same content with less work: the engine makes two tables of all spilled results for every cell that it
 * reads, though they are only asked where the cell held part of a result at the calculation before.
 */
export function readCellsQuickly({ engine }: UniverModules): void {
  const reference = engine.BaseReferenceObject.prototype as unknown as CellsSeam;
  if (patched.has(reference)) return;
  patched.add(reference);
  reference.getCellData = function (this: CellsSeam, row, column) {
    const unitId = this.getUnitId();
    const sheetId = this.getSheetId();
    const fresh =
      this._runtimeData?.[unitId]?.[sheetId]?.getValue(row, column) ||
      this._runtimeArrayFormulaCellData?.[unitId]?.[sheetId]?.getValue(row, column) ||
      this.getRuntimeFeatureCellValue(row, column);
    if (fresh) return withEmptyText(fresh);
    const spilled = this._arrayFormulaCellData?.[unitId]?.[sheetId]?.getValue(row, column);
    if (!spilled) return this._unitData?.[unitId]?.[sheetId]?.cellData.getValue(row, column);
    const before = this._arrayFormulaRange?.[unitId]?.[sheetId];
    const now = this._runtimeArrayFormulaRange?.[unitId]?.[sheetId];
    return now && isOverwritten(before ?? {}, now, row, column) ? null : withEmptyText(spilled);
  };
}

/** Whether a cell lies in a result of before whose formula has a new one in this calculation. */
function isOverwritten(
  before: RowsOf<CellRectangle>,
  now: RowsOf<CellRectangle>,
  row: number,
  column: number,
): boolean {
  for (const r in now) {
    const fresh = now[r];
    const old = before[r];
    if (!fresh || !old) continue;
    for (const c in fresh) {
      const range = old[c];
      if (!fresh[c] || !range) continue;
      const inRows = row >= range.startRow && row <= range.endRow;
      if (inRows && column >= range.startColumn && column <= range.endColumn) return true;
    }
  }
  return false;
}
