import type { ICellData, IStyleData, IWorkbookData, IWorksheetData } from '@univerjs/core';
import { keptNames } from '../../workbook/names.ts';
import { readWorkbook, WHOLE_WORKBOOK } from '../../workbook/read.ts';
import type { Grid } from './page/grid.ts';

export interface AddedSheets {
  readonly added: readonly string[];
  readonly skipped: readonly string[];
}

/**
 * Adds the sheets of a workbook to the open one. A sheet or a defined name that is there already is left alone.
 *
 * @param bytes the workbook to take sheets from, an .xlsx file
 * @param since how many edits of the open workbook are done
 */
export async function addSheets(grid: Grid, bytes: Uint8Array, since: number): Promise<AddedSheets> {
  const book = await readWorkbook(bytes);
  const { snapshot, sheets } = book;
  const open = grid.api.getActiveWorkbook();
  if (open === null) throw new Error('no workbook is open');
  const active = open.getActiveSheet();
  const added: string[] = [];
  const skipped: string[] = [];
  const taken = new Set(open.getSheets().map((sheet) => sheet.getSheetName().toLowerCase()));
  const names = new Set(open.getDefinedNames().map((name) => name.getName().toLowerCase()));
  for (const { name, formulaOrRefString, comment = '' } of keptNames(snapshot)) {
    if (names.has(name.toLowerCase())) continue;
    // Not by the facade's builder: it refuses a name that a sheet has too, which workbooks may well have.
    const id = `template-name-${name}`;
    const localSheetId = WHOLE_WORKBOOK;
    open.insertDefinedNameBuilder({ unitId: open.getId(), id, name, formulaOrRefString, comment, localSheetId });
  }
  for (const id of snapshot.sheetOrder) {
    const sheet = snapshot.sheets[id];
    if (sheet?.name === undefined) continue;
    if (taken.has(sheet.name.toLowerCase())) {
      skipped.push(sheet.name);
      continue;
    }
    const made = open.insertSheet(sheet.name, { sheet: withOwnStyles(sheet, snapshot.styles) });
    const extras = sheets.find((candidate) => candidate.id === id)?.extras;
    if (extras !== undefined) grid.extras.set(made.getSheetId(), extras);
    grid.origins.set(made.getSheetId(), { book, name: sheet.name, edits: [], since });
    added.push(sheet.name);
  }
  open.setActiveSheet(active);
  return { added, skipped };
}

/** The sheet with each style written into its cells: style names of two workbooks may stand for different looks. */
function withOwnStyles(sheet: Partial<IWorksheetData>, styles: IWorkbookData['styles']): Partial<IWorksheetData> {
  const own = (style: string | IStyleData | null | undefined) =>
    typeof style === 'string' ? (styles[style] ?? null) : (style ?? null);
  const { id: _, ...copy } = structuredClone(sheet);
  for (const row of Object.values(copy.cellData ?? {})) {
    for (const cell of Object.values(row) as ICellData[]) {
      if (cell.s !== undefined) cell.s = own(cell.s);
    }
  }
  for (const line of [...Object.values(copy.rowData ?? {}), ...Object.values(copy.columnData ?? {})]) {
    if (line?.s !== undefined) line.s = own(line.s);
  }
  if (copy.defaultStyle !== undefined) copy.defaultStyle = own(copy.defaultStyle);
  return copy;
}
