import type { ICellData, IWorkbookData, IWorksheetData } from '@univerjs/core';
import {
  type Cell,
  type ColumnDef,
  cloneChart,
  type NamedRange,
  type RowDef,
  type Sheet,
  type WriteSheet,
} from 'hucre';
import { readXlsx, writeXlsx } from 'hucre/xlsx';
import { fileStyle } from './file-styles.ts';
import { BASE_FONT } from './looks.ts';
import { storeParts } from './package.ts';
import { asStored } from './prefixes.ts';
import { type Book, readWorkbook } from './read.ts';
import type { Results } from './results.ts';
import { CHARACTER_PIXELS, POINT_PIXELS } from './sheet-frame.ts';
import { writeWorkbook } from './write.ts';

/** The day that a saved workbook says it was made on: no clock shows in the bytes. */
const MADE = new Date(Date.UTC(2000, 0, 1));
const BOOLEAN = 3;
const NAMES_RESOURCE = 'SHEET_DEFINED_NAME_PLUGIN';

/**
 * A workbook with everything that was changed in the sheet: looks, widths, rows, columns and sheets as well as cells. It
 * is written anew; from the file that it came from it takes over validations, conditional looks, charts, comments, links
 * and the print set-up of the sheets that are still there, at the places that they had. When only cells were changed,
 * `writeWorkbook` is the better choice: it keeps all of the file.
 * @param book the file that the workbook came from, if any
 * @param results the workbook as it stands in the sheet, with its values and spilled ranges
 */
export async function saveWorkbook(book: Book | undefined, results: Results): Promise<Uint8Array> {
  const { snapshot } = results;
  const file = book === undefined ? undefined : await readXlsx(storeParts(book.parts), { readStyles: true });
  const before = new Map<string, Sheet>();
  for (const sheet of book?.sheets ?? []) {
    const found = file?.sheets.find(({ name }) => name === sheet.name);
    if (found !== undefined) before.set(sheet.id, found);
  }
  const ids = snapshot.sheetOrder.filter((id) => snapshot.sheets[id] !== undefined);
  const bytes = await writeXlsx({
    sheets: ids.map((id) => sheetOf(snapshot, snapshot.sheets[id] ?? {}, before.get(id))),
    namedRanges: namesOf(snapshot),
    defaultFont: file?.defaultFont ?? BASE_FONT,
    properties: { ...file?.properties, created: file?.properties?.created ?? MADE, modified: MADE },
  });
  // The values, and what spills, go in as they do into any workbook.
  const fresh = await readWorkbook(bytes);
  const sheets: IWorkbookData['sheets'] = {};
  ids.forEach((id, index) => {
    const sheet = snapshot.sheets[id];
    if (sheet !== undefined) sheets[`sheet-${index + 1}`] = sheet;
  });
  return writeWorkbook(fresh, { snapshot: { ...snapshot, sheets }, spills: results.spills });
}

function sheetOf(snapshot: IWorkbookData, sheet: Partial<IWorksheetData>, before: Sheet | undefined): WriteSheet {
  const cells = new Map<string, Partial<Cell>>();
  for (const [row, line] of Object.entries(sheet.cellData ?? {})) {
    for (const [column, held] of Object.entries(line ?? {}) as [string, ICellData | null][]) {
      const cell = held === null ? undefined : cellOf(snapshot, held);
      if (cell !== undefined) cells.set(`${row},${column}`, cell);
    }
  }
  for (const [key, { comment, hyperlink }] of before?.cells ?? []) {
    if (comment === undefined && hyperlink === undefined) continue;
    const cell = cells.get(key) ?? { value: null };
    if (comment !== undefined) cell.comment = comment;
    if (hyperlink !== undefined) cell.hyperlink = hyperlink;
    cells.set(key, cell);
  }
  const out: WriteSheet = { ...carried(before), name: sheet.name ?? 'Sheet', cells, ...frameOf(sheet) };
  return out;
}

function carried(before: Sheet | undefined): Partial<WriteSheet> {
  if (before === undefined) return {};
  const out: Partial<WriteSheet> = {};
  if (before.dataValidations !== undefined) out.dataValidations = before.dataValidations;
  if (before.conditionalRules !== undefined) out.conditionalRules = before.conditionalRules;
  if (before.pageSetup !== undefined) out.pageSetup = before.pageSetup;
  if (before.headerFooter !== undefined) out.headerFooter = before.headerFooter;
  if (before.images !== undefined) out.images = before.images;
  if (before.textBoxes !== undefined) out.textBoxes = before.textBoxes;
  const charts = (before.charts ?? []).flatMap((chart) => {
    if (chart.anchor === undefined) return [];
    const { from, to } = chart.anchor;
    try {
      return [cloneChart(chart, { anchor: to === undefined ? { from } : { from, to } })];
    } catch {
      // A kind of chart that cannot be written anew.
      return [];
    }
  });
  if (charts.length > 0) out.charts = charts;
  return out;
}

function frameOf(sheet: Partial<IWorksheetData>): Partial<WriteSheet> {
  const columns: ColumnDef[] = [];
  for (const [index, column] of Object.entries(sheet.columnData ?? {})) {
    const entry: ColumnDef = {};
    if (column?.w !== undefined) entry.width = column.w / CHARACTER_PIXELS;
    if (column?.hd === 1) entry.hidden = true;
    columns[Number(index)] = entry;
  }
  const rowDefs = new Map<number, RowDef>();
  for (const [index, row] of Object.entries(sheet.rowData ?? {})) {
    const entry: RowDef = {};
    // A height that fits itself to the text is left to the program that opens the file.
    if (row?.h !== undefined && row.ia !== 1) entry.height = row.h / POINT_PIXELS;
    if (row?.hd === 1) entry.hidden = true;
    if (Object.keys(entry).length > 0) rowDefs.set(Number(index), entry);
  }
  const tab = /^#([0-9a-f]{6})$/i.exec(sheet.tabColor ?? '')?.[1];
  const out: Partial<WriteSheet> = {
    columns: Array.from(columns, (column) => column ?? {}),
    rowDefs,
    merges: (sheet.mergeData ?? []).map((merge) => ({
      startRow: merge.startRow,
      startCol: merge.startColumn,
      endRow: merge.endRow,
      endCol: merge.endColumn,
    })),
    hidden: sheet.hidden === 1,
    view: { showGridLines: sheet.showGridlines !== 0, ...(tab === undefined ? {} : { tabColor: { rgb: tab } }) },
  };
  const { xSplit = 0, ySplit = 0 } = sheet.freeze ?? {};
  if (xSplit > 0 || ySplit > 0) out.freezePane = { rows: ySplit, columns: xSplit };
  return out;
}

function cellOf(snapshot: IWorkbookData, held: ICellData): Partial<Cell> | undefined {
  const look = typeof held.s === 'string' ? snapshot.styles[held.s] : held.s;
  const style = fileStyle(look);
  const cell: Partial<Cell> = { value: null };
  if (style !== undefined) cell.style = style;
  if (held.f !== undefined && held.f !== null && held.f !== '') cell.formula = asStored(held.f);
  else if (held.v !== undefined && held.v !== null) cell.value = held.t === BOOLEAN ? Boolean(held.v) : held.v;
  else if (style === undefined) return undefined;
  return cell;
}

function namesOf(snapshot: IWorkbookData): NamedRange[] {
  const data = snapshot.resources?.find(({ name }) => name === NAMES_RESOURCE)?.data;
  if (data === undefined || data === '') return [];
  return Object.values(JSON.parse(data) as Record<string, Record<string, string | undefined>>).flatMap((given) => {
    const { name, formulaOrRefString, localSheetId, comment } = given;
    if (name === undefined || formulaOrRefString === undefined || formulaOrRefString === '') return [];
    const scope = localSheetId === undefined ? undefined : snapshot.sheets[localSheetId]?.name;
    return [
      {
        name,
        range: asStored(formulaOrRefString),
        ...(scope === undefined ? {} : { scope }),
        ...(comment === undefined || comment === '' ? {} : { comment }),
      },
    ];
  });
}
