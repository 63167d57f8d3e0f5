import type { Injector, UniverModules } from './univer.ts';

/** What the reader of workbooks puts into such a row. */
interface FilteredMark {
  readonly filtered?: boolean;
}

/**
 * Tells the engine which rows a filter has hidden: SUBTOTAL leaves them out whatever its first argument. The reader of
 * workbooks marks them; one that is shown again counts again.
 */
export function tellFilteredRows({ core, engine }: UniverModules, injector: Injector): void {
  const instances = injector.get(core.IUniverInstanceService);
  injector.get(engine.ISheetRowFilteredService).register((unitId, sheetId, row) => {
    const book = instances.getUnit<InstanceType<typeof core.Workbook>>(unitId, core.UniverInstanceType.UNIVER_SHEET);
    const kept = book?.getSheetBySheetId(sheetId)?.getRowManager().getRowData()[row];
    return kept?.hd === core.BooleanNumber.TRUE && (kept.custom as FilteredMark | undefined)?.filtered === true;
  });
}
