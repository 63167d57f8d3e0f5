import type { Workbook } from '@univerjs/core';
import type { Injector, UniverModules } from './univer.ts';

/** The name of a sheet by the ids of its workbook and of itself. */
export type SheetNames = (unitId: string, sheetId: string) => string;

export function createSheetNames({ core }: UniverModules, injector: Injector): SheetNames {
  const instances = injector.get(core.IUniverInstanceService);
  return (unitId, sheetId) => instances.getUnit<Workbook>(unitId)?.getSheetBySheetId(sheetId)?.getName() ?? sheetId;
}
