import type { CellRectangle, CurrentConfigSeam, Matrix, RuntimeSeam, StoredCell } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

interface RuntimeInside extends RuntimeSeam {
  _checkIfArrayFormulaExceeded(rows: number, columns: number, range: CellRectangle): boolean;
}

interface MutableCell {
  v?: StoredCell['v'];
}

interface ConfigInside extends CurrentConfigSeam {
  getUnitData(): Record<string, Record<string, { readonly cellData: Matrix<MutableCell> } | undefined> | undefined>;
}

/**
 * Around a result without room the engine files the cells in its way anew, as they were before the calculation: a formula among
 * them that has been worked out would show its old value, and empty cells would become empty text. Here they are put back.
 */
export function keepCellsInTheWay({ engine }: UniverModules, injector: Injector): void {
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeInside;
  const config = injector.get(engine.IFormulaCurrentConfigService) as unknown as ConfigInside;

  /** What puts the cells in the way of the result at hand back as they are now. */
  const inTheWay: { putBack?: (() => void) | undefined } = {};
  function remember(range: CellRectangle): () => void {
    const { currentUnitId: unitId, currentSubUnitId: sheetId, currentRow, currentColumn } = runtime;
    const now = runtime.getUnitData()[unitId]?.[sheetId];
    const stored = config.getUnitData()[unitId]?.[sheetId]?.cellData;
    const held: (() => void)[] = [];
    for (let row = range.startRow; row <= range.endRow; row++)
      for (let column = range.startColumn; column <= range.endColumn; column++) {
        const cell = stored?.getValue(row, column);
        if (cell == null || (row === currentRow && column === currentColumn)) continue;
        const filed = now?.getValue(row, column);
        const { v } = cell;
        held.push(() => {
          if (v == null) cell.v = v;
          if (filed != null) now?.setValue(row, column, filed);
          else if (now?.getValue(row, column) != null) now.realDeleteValue(row, column);
        });
      }
    return () => {
      for (const one of held) one();
    };
  }
  const hasData = runtime._checkIfArrayFormulaRangeHasData.bind(runtime);
  runtime._checkIfArrayFormulaRangeHasData = (unitId, sheetId, row, column, range) => {
    const blocked = hasData(unitId, sheetId, row, column, range);
    inTheWay.putBack = blocked ? remember(range) : undefined;
    return blocked;
  };
  const exceeds = runtime._checkIfArrayFormulaExceeded.bind(runtime);
  runtime._checkIfArrayFormulaExceeded = (rows, columns, range) => {
    const blocked = exceeds(rows, columns, range);
    if (blocked) inTheWay.putBack ??= remember(range);
    return blocked;
  };
  const take = (): (() => void) | undefined => {
    const { putBack } = inTheWay;
    inTheWay.putBack = undefined;
    return putBack;
  };
  const file = runtime.setRuntimeData.bind(runtime);
  runtime.setRuntimeData = (value) => {
    take();
    file(value);
    take()?.();
  };
}
