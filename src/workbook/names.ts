import type { IWorkbookData } from '@univerjs/core';

/** The resource in which a workbook as read keeps its defined names. */
export const NAMES_RESOURCE = 'SHEET_DEFINED_NAME_PLUGIN';

/** A defined name: what it stands for, and the sheet that it holds for (all of them unless given). */
export interface KeptName {
  readonly name: string;
  readonly formulaOrRefString: string;
  readonly localSheetId?: string;
  readonly comment?: string;
}

/** The defined names of a workbook as read. */
export function keptNames({ resources }: IWorkbookData): readonly KeptName[] {
  const data = resources?.find(({ name }) => name === NAMES_RESOURCE)?.data;
  return Object.values(JSON.parse(data || '{}') as Record<string, KeptName>);
}
