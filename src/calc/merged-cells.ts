import type { CellRectangle, SheetRectangle } from './seams.ts';
import type { Injector, UniverModules } from './univer.ts';

export interface MergedCells {
  /** whether there are merged cells in a range, or across its edge */
  within(unitId: string, sheetId: string, range: CellRectangle): boolean;
}

/** What merges cells and takes them apart, by undoing as well. */
const CHANGES = ['sheet.mutation.add-worksheet-merge', 'sheet.mutation.remove-worksheet-merge'];

interface Change {
  readonly params: { readonly unitId: string; readonly subUnitId: string; readonly ranges: readonly CellRectangle[] };
}

export const meet = (a: CellRectangle, b: CellRectangle): boolean =>
  a.startRow <= b.endRow && b.startRow <= a.endRow && a.startColumn <= b.endColumn && b.startColumn <= a.endColumn;

/**
 * Where cells are merged: a result that fills several cells has no room there, as in the spreadsheet programs that open the
 * same file. The engine knows nothing of merged cells, and filled those that cannot be seen. What wants to fill cells that
 * are merged or taken apart is worked out again.
 */
export function watchMergedCells({ core, engine }: UniverModules, injector: Injector): MergedCells {
  const instances = injector.get(core.IUniverInstanceService);
  const model = injector.get(engine.FormulaDataModel);
  const dirty = injector.get(engine.IActiveDirtyManagerService);

  function wantedIn({ params: { unitId, subUnitId: sheetId, ranges } }: Change): SheetRectangle[] {
    const wanted = Object.values(model.getArrayFormulaRange()[unitId]?.[sheetId] ?? {});
    return wanted
      .flatMap((columns) => Object.values(columns ?? {}) as (CellRectangle | null)[])
      .flatMap((range) => {
        if (range === null || !ranges.some((merged) => meet(merged, range))) return [];
        const { startRow, startColumn } = range;
        return [{ unitId, sheetId, range: { startRow, startColumn, endRow: startRow, endColumn: startColumn } }];
      });
  }
  for (const commandId of CHANGES) {
    const getDirtyData = (change: unknown) => ({ dirtyRanges: wantedIn(change as Change) });
    dirty.register(commandId, { commandId, getDirtyData });
  }

  return {
    within: (unitId, sheetId, range) =>
      instances
        .getUnit<InstanceType<typeof core.Workbook>>(unitId, core.UniverInstanceType.UNIVER_SHEET)
        ?.getSheetBySheetId(sheetId)
        ?.getMergeData()
        .some((merged) => meet(merged, range)) ?? false,
  };
}
