import { ICommandService, type Injector, IUniverInstanceService, type Workbook } from '@univerjs/core';
import {
  IDefinedNamesService,
  type ISetDefinedNameMutationParam,
  SetDefinedNameMutation,
} from '@univerjs/engine-formula';
import {
  type IRemoveSheetMutationParams,
  RemoveSheetCommand,
  RemoveSheetMutation,
  SetWorksheetActiveOperation,
  SheetInterceptorService,
} from '@univerjs/sheets';
import { formulaWithoutSheet } from '../../../workbook/moved-formula.ts';

/** After the library's own, which is of less use for names. */
const LAST = -1_000;

/** Sheets go with all that referred to them, and one undo brings everything back. */
export function removeSheetsWhole(injector: Injector): void {
  leaveRemovedSheets(injector);
  markNamesOfRemovedSheets(injector);
}

/**
 * Shows another sheet before the one in view is taken out. The library does so after it, and later than the formulas that
 * referred to the sheet are written anew: what draws them found no sheet in view and threw, the rest of the formulas and names
 * stayed as they were, and the step could not be undone.
 */
function leaveRemovedSheets(injector: Injector): void {
  const commands = injector.get(ICommandService);
  const books = injector.get(IUniverInstanceService);
  commands.beforeCommandExecuted(({ id, params }) => {
    if (id !== RemoveSheetMutation.id) return;
    const { unitId, subUnitId } = params as IRemoveSheetMutationParams;
    const book = books.getUnit<Workbook>(unitId);
    if (book?.getActiveSheet().getSheetId() !== subUnitId) return;
    const next = sheetBeside(book);
    // moves the view alone, which is no step to undo
    if (next !== undefined) commands.syncExecuteCommand(SetWorksheetActiveOperation.id, { unitId, subUnitId: next });
  });
}

/** The sheet that is shown instead of the one in view: the one before it that is not hidden, else the one behind it. */
function sheetBeside(book: Workbook): string | undefined {
  const sheets = book.getSheets();
  const at = book.getActiveSheetIndex();
  return [...sheets.slice(0, at).reverse(), ...sheets.slice(at + 1)]
    .find((sheet) => !sheet.isSheetHidden())
    ?.getSheetId();
}

/**
 * Puts #REF! into defined names where they refer to a sheet that is taken out. The library only knows names that begin with
 * the sheet, and then takes what they say of other sheets for gone as well.
 */
function markNamesOfRemovedSheets(injector: Injector): void {
  const books = injector.get(IUniverInstanceService);
  const names = injector.get(IDefinedNamesService);
  injector.get(SheetInterceptorService).interceptCommand({
    priority: LAST,
    getMutations({ id, params }) {
      const { unitId, subUnitId } = (params ?? {}) as Partial<IRemoveSheetMutationParams>;
      if (id !== RemoveSheetCommand.id || unitId === undefined || subUnitId === undefined)
        return { redos: [], undos: [] };
      const sheet = books.getUnit<Workbook>(unitId)?.getSheetBySheetId(subUnitId)?.getName() ?? '';
      const changed = Object.values(names.getDefinedNameMap(unitId) ?? {}).flatMap((name) => {
        const left = formulaWithoutSheet(name.formulaOrRefString, sheet);
        const set = (formulaOrRefString: string) => {
          const given: ISetDefinedNameMutationParam = { ...name, unitId, formulaOrRefString };
          return { id: SetDefinedNameMutation.id, params: given };
        };
        return left === name.formulaOrRefString ? [] : [{ redo: set(left), undo: set(name.formulaOrRefString) }];
      });
      return { redos: changed.map(({ redo }) => redo), undos: changed.map(({ undo }) => undo) };
    },
  });
}
