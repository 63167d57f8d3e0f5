import type { BySheet, CellRectangle, Matrix, RowsOf, StoredCell } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

type Cells = RowsOf<StoredCell>;

interface ModelSeam {
  readonly _arrayFormulaRange: Record<string, Record<string, RowsOf<CellRectangle> | undefined> | undefined>;
  readonly _arrayFormulaCellData: Record<string, Record<string, Cells | undefined> | undefined>;
  clearPreviousArrayFormulaCellData(cleared: BySheet<Matrix<unknown>>): void;
  mergeArrayFormulaCellData(fresh: BySheet<Matrix<StoredCell | null>>): void;
}

/**
 * Takes the spilled cells of a calculation over as the engine does, without copying those of all other results: the engine writes
 * all spilled cells of a sheet out as text and reads them in again, twice for each calculation.
 */
export function keepResultsInPlace({ engine }: UniverModules, injector: Injector): void {
  const model = injector.get(engine.FormulaDataModel) as unknown as ModelSeam;

  function removeAll(cells: Cells, { startRow, endRow, startColumn, endColumn }: CellRectangle): void {
    for (let row = startRow; row <= endRow; row++)
      for (let column = startColumn; column <= endColumn; column++) remove(cells, row, column);
  }

  model.clearPreviousArrayFormulaCellData = (cleared) => {
    for (const [unitId, sheets] of Object.entries(cleared))
      for (const [sheetId, anchors] of Object.entries(sheets ?? {})) {
        const ranges = model._arrayFormulaRange[unitId]?.[sheetId];
        if (ranges == null) continue;
        const unit = model._arrayFormulaCellData[unitId];
        const cells = unit?.[sheetId] ?? {};
        anchors?.forValue((row, column) => {
          const range = ranges[row]?.[column];
          if (range == null) return true;
          removeAll(cells, range);
          remove(ranges, row, column);
          return true;
        });
        if (unit) unit[sheetId] = cells;
      }
  };

  model.mergeArrayFormulaCellData = (fresh) => {
    for (const [unitId, sheets] of Object.entries(fresh)) {
      if (sheets == null) continue;
      model._arrayFormulaRange[unitId] ??= {};
      model._arrayFormulaCellData[unitId] ??= {};
      for (const [sheetId, found] of Object.entries(sheets)) {
        const ranges = model._arrayFormulaRange[unitId]?.[sheetId];
        const unit = model._arrayFormulaCellData[unitId];
        const cells = unit?.[sheetId] ?? {};
        // what a result held before goes first: the new one may be smaller
        found?.forValue((row, column) => {
          const range = ranges?.[row]?.[column];
          if (range != null) removeAll(cells, range);
          return true;
        });
        found?.forValue((row, column, cell) => {
          if (cell == null) remove(cells, row, column);
          else {
            cells[row] ??= {};
            (cells[row] as Record<number, StoredCell>)[column] = { ...cell };
          }
          return true;
        });
        if (unit) unit[sheetId] = cells;
      }
    }
  };
}

function remove<T>(rows: RowsOf<T>, row: number, column: number): void {
  const line = rows[row];
  if (line === undefined || !(column in line)) return;
  delete line[column];
  for (const _ in line) return;
  delete rows[row];
}
