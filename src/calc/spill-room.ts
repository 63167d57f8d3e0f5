import { type MergedCells, meet } from './merged-cells.ts';
import type {
  CellRectangle,
  CurrentConfigSeam,
  Matrix,
  RowsOf,
  RuntimeSeam,
  SheetRectangle,
  StoredCell,
} from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

interface RuntimeInside extends RuntimeSeam {
  _isInOtherArrayFormulaRange(
    unitId: string,
    sheetId: string,
    formulaRow: number,
    formulaColumn: number,
    row: number,
    column: number,
  ): boolean;
}

interface ConfigInside extends CurrentConfigSeam {
  getUnitData(): Record<string, Record<string, { readonly cellData: Matrix<StoredCell> } | undefined> | undefined>;
}

/** What a formula wants to fill, and whether it does. */
interface Spill {
  readonly row: number;
  readonly column: number;
  readonly range: CellRectangle;
  readonly placed: boolean;
}

interface Asked {
  readonly unitId: string;
  readonly sheetId: string;
  readonly row: number;
  readonly column: number;
  readonly spills: readonly Spill[];
  readonly formulas: RowsOf<unknown> | undefined | null;
}

export interface SpillRoom {
  /** Cells of formulas that found no room when they were worked out, though no other result is in their way now. */
  waiting(): SheetRectangle[];
}

const NO_ROOM = '#SPILL!';

/**
 * Which results are in each other's way. The engine asks only what other formulas filled when the calculation began, so that of two
 * that cross, first worked out together, each wrote over the other; and it makes a new table of all spills for every cell it asks about.
 * Here the first one keeps its cells, the other is told that it has no room, and is worked out again when the room is free.
 */
export function installSpillRoom({ engine }: UniverModules, injector: Injector, merged: MergedCells): SpillRoom {
  const runtime = injector.get(engine.IFormulaRuntimeService) as unknown as RuntimeInside;
  const config = injector.get(engine.IFormulaCurrentConfigService) as unknown as ConfigInside;

  /** By the latest that is known of each: this run, or the one before. */
  function spillsOf(unitId: string, sheetId: string): Spill[] {
    const now = runtime.getUnitData()[unitId]?.[sheetId];
    const stored = config.getUnitData()[unitId]?.[sheetId]?.cellData;
    const formulas = config.getFormulaData()[unitId]?.[sheetId];
    const spills: Spill[] = [];
    const gather = (fresh: boolean): void => {
      const rows = (fresh ? runtime.getUnitArrayFormula() : config.getArrayFormulaRange())[unitId]?.[sheetId] ?? {};
      for (const [at, columns] of Object.entries(rows))
        for (const [across, range] of Object.entries(columns ?? {})) {
          const [row, column] = [Number(at), Number(across)];
          const held = now?.getValue(row, column);
          // what has been worked out in this run counts as it is now
          if (range === null || (held != null) !== fresh || !formulas?.[row]?.[column]) continue;
          const value = fresh ? held : stored?.getValue(row, column);
          spills.push({ row, column, range, placed: value?.v !== NO_ROOM });
        }
    };
    gather(true);
    gather(false);
    return spills;
  }

  /** the formula that was asked about last, and what is in the way of others but it; its cells are asked about one by one */
  let asked: Asked | undefined;
  const setCurrent = runtime.setCurrent.bind(runtime);
  runtime.setCurrent = (...args) => {
    asked = undefined;
    setCurrent(...args);
  };

  runtime._isInOtherArrayFormulaRange = (unitId, sheetId, formulaRow, formulaColumn, row, column) => {
    const same = asked?.unitId === unitId && asked.sheetId === sheetId;
    if (asked === undefined || !same || asked.row !== formulaRow || asked.column !== formulaColumn) {
      const others = spillsOf(unitId, sheetId).filter(
        (one) => one.placed && !(one.row === formulaRow && one.column === formulaColumn),
      );
      const formulas = config.getFormulaData()[unitId]?.[sheetId];
      asked = { unitId, sheetId, row: formulaRow, column: formulaColumn, spills: others, formulas };
    }
    // a formula that has never been worked out holds no value that would be in the way
    if (asked.formulas?.[row]?.[column]) return true;
    for (const { range } of asked.spills)
      if (row >= range.startRow && row <= range.endRow && column >= range.startColumn && column <= range.endColumn)
        return true;
    return false;
  };

  const hasData = runtime._checkIfArrayFormulaRangeHasData.bind(runtime);
  runtime._checkIfArrayFormulaRangeHasData = (unitId, sheetId, row, column, range) =>
    merged.within(unitId, sheetId, range) || hasData(unitId, sheetId, row, column, range);

  return {
    waiting() {
      const waiting: SheetRectangle[] = [];
      for (const [unitId, sheets] of Object.entries(config.getFormulaData()))
        for (const sheetId of Object.keys(sheets ?? {})) {
          const spills = spillsOf(unitId, sheetId);
          for (const { row, column, range, placed } of spills) {
            if (placed || spills.some((other) => other.placed && meet(other.range, range))) continue;
            if (merged.within(unitId, sheetId, range)) continue;
            const cell = { startRow: row, endRow: row, startColumn: column, endColumn: column };
            waiting.push({ unitId, sheetId, range: cell });
          }
        }
      return waiting;
    },
  };
}
