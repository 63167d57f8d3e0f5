import type { Injector } from '@univerjs/core';
import { IActiveDirtyManagerService } from '@univerjs/engine-formula';
import { type ISetWorksheetNameMutationParams, SetWorksheetNameMutation } from '@univerjs/sheets';

/**
 * Works out anew what stands on a sheet that gets another name: faults of tables are told with the addresses of their cells,
 * and so with the name, though no formula of the sheet names it. Formulas that do are written anew by the library.
 */
export function retellRenamedSheets(injector: Injector): void {
  injector.get(IActiveDirtyManagerService).register(SetWorksheetNameMutation.id, {
    commandId: SetWorksheetNameMutation.id,
    getDirtyData({ params }) {
      const { unitId, subUnitId, name } = params as ISetWorksheetNameMutationParams;
      return { dirtyNameMap: { [unitId]: { [subUnitId]: name } } };
    },
  });
}
