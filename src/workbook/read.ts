import type {
  ICellData,
  IObjectMatrixPrimitiveType,
  IRange,
  IStyleData,
  IWorkbookData,
  LocaleType,
} from '@univerjs/core';
import { dateToSerial, type Cell as FileCell, type CellValue as FileValue, type Workbook as FileWorkbook } from 'hucre';
import { readXlsx } from 'hucre/xlsx';
import { Fault } from '../faults/issue.ts';
import { type Block, parseBlock, type Spot } from './address.ts';
import { extrasOf, type SheetExtras } from './extras.ts';
import { filteredBlocks } from './filters.ts';
import { atMost, LIMITS, type Limits, unreadable } from './limits.ts';
import { measure } from './measure.ts';
import { NAMES_RESOURCE } from './names.ts';
import { withNewerValidations } from './newer-lists.ts';
import { type Parts, partText, readParts, storeParts } from './package.ts';
import { type Layout, layoutOf } from './parts.ts';
import { asTyped } from './prefixes.ts';
import { scopedNames, withMeanings } from './scoped-names.ts';
import { sheetFrame } from './sheet-frame.ts';
import { cellSheetsOnly } from './sheet-order.ts';
import { shifted } from './shift.ts';
import { sheetStyle } from './styles.ts';
import { tablePart, tablesOf } from './table-part.ts';
import { namedTables, withRanges } from './tables.ts';
import { tokens } from './tokens.ts';
import { zoomOf } from './zoom.ts';

/** A formula that fills a range: what the file says of it. Rows and columns count from 0. */
export interface FilledRange {
  readonly row: number;
  readonly column: number;
  /** the range that the file's stored values fill */
  readonly block: Block;
  /** spills as far as it needs; false for the older kind that is tied to its range */
  readonly dynamic: boolean;
  /** the values stored in the range beside its first cell: what it showed when the file was saved */
  readonly stored: readonly StoredSpot[];
}

export interface StoredSpot extends Spot {
  readonly cell: Pick<ICellData, 'v' | 't'>;
}

export interface BookSheet {
  /** the snapshot's id for it */
  readonly id: string;
  readonly name: string;
  /** part of the package with its cells */
  readonly part: string;
  readonly filled: readonly FilledRange[];
  /** cells whose formula the file writes down once for several */
  readonly shared: readonly Spot[];
  /** lists, charts and print set-up */
  readonly extras: SheetExtras;
}

/** A workbook in memory: what the sheet and the calculation work on, and the file it came from. */
export interface Book {
  /** formulas as people type them; cells that a formula fills hold nothing of their own */
  readonly snapshot: IWorkbookData;
  readonly sheets: readonly BookSheet[];
  readonly parts: Parts;
  readonly layout: Layout;
}

/** What a name that holds for the whole workbook has for its sheet. */
export const WHOLE_WORKBOOK = 'AllDefaultWorkbook';

/** Version of the snapshot's form. */
const SNAPSHOT_VERSION = '0.25.1';
const TEXT = 1;
const NUMBER = 2;
const BOOLEAN = 3;
/** Rows that every sheet has at least: room for a result of ten thousand units to spill into. */
export const LEAST_ROWS = 12_000;
/** Least width of a sheet, and room below and beside its cells: spills need rows to go to. */
const LEAST_COLUMNS = 30;
const SPARE_ROWS = 200;
const SPARE_COLUMNS = 26;
/** Rows to which a whole column is merged at least: each of its cells is remembered by itself. */
const MERGED_ROWS = 1000;
/** Order in which files count theme colours, as places in the theme's own order (light and dark change places). */
const THEME_ORDER = [1, 0, 3, 2, 4, 5, 6, 7, 8, 9, 10, 11];

/**
 * Reads a workbook.
 * @param bytes an .xlsx file, not trusted
 * @param limits bounds on what is taken in
 * @throws Fault `wrong` when the file is damaged or no workbook, `limit` when a bound is passed
 */
export async function readWorkbook(bytes: Uint8Array, limits: Limits = LIMITS): Promise<Book> {
  const parts = readParts(bytes, limits);
  const layout = layoutOf(parts);
  measure(parts, layout, limits);
  let file: FileWorkbook;
  try {
    file = await readXlsx(storeParts(cellSheetsOnly(parts, layout)), { readStyles: true });
  } catch (error) {
    if (error instanceof Fault) throw error;
    return unreadable(`a workbook with a fault in it (${error instanceof Error ? error.message : 'unknown'})`);
  }
  return bookOf(parts, layout, file, limits);
}

function bookOf(parts: Parts, layout: Layout, file: FileWorkbook, limits: Limits): Book {
  const date1904 = file.dateSystem === '1904';
  const looks = lookTable(THEME_ORDER.map((at) => file.themeColors?.[at] ?? '000000'));
  const headless = [...tablesOf({ parts, sheets: layout.sheets })].filter(([, { xml }]) => !tablePart(xml)?.header);
  const tables = namedTables(file.sheets, new Set(headless.map(([name]) => name)));
  const names = scopedNames(file.namedRanges ?? []);
  const sheets: BookSheet[] = [];
  const data: IWorkbookData['sheets'] = {};
  const order: string[] = [];
  let formulaCharacters = 0;
  let merged = 0;
  const takeFormula = (formula: string): void => {
    formulaCharacters += formula.length;
    atMost('Formulas of the workbook', formulaCharacters, limits.formulaCharacters, 'characters');
  };
  let used = 0;
  for (const sheet of file.sheets) used = Math.max(used, sheet.rows.length);
  const rowCount = Math.max(used + SPARE_ROWS, LEAST_ROWS);
  for (const sheet of file.sheets) {
    const known = layout.sheets.find((candidate) => candidate.name === sheet.name);
    if (known?.part === undefined) continue;
    const id = `sheet-${order.length + 1}`;
    const workedOut = (formula: string, row: number, column: number): string =>
      withMeanings(withRanges(formula, tables, { sheet: sheet.name, row, column }), names, sheet.name);
    const { cellData, filled, shared, columns } = cellsOf(
      sheet.rows,
      sheet.cells,
      looks.id,
      date1904,
      workedOut,
      takeFormula,
    );
    const frame = sheetFrame(sheet, filteredBlocks(parts, known.part));
    const columnCount = Math.max(columns + SPARE_COLUMNS, LEAST_COLUMNS);
    const mergeData = mergesWithin(frame.mergeData ?? [], Math.max(used + SPARE_ROWS, MERGED_ROWS), columnCount);
    for (const block of mergeData) {
      merged += (block.endRow - block.startRow + 1) * (block.endColumn - block.startColumn + 1);
      atMost('Merged cells in the workbook', merged, limits.merged, 'cells');
    }
    data[id] = {
      ...frame,
      mergeData,
      id,
      name: sheet.name,
      hidden: known.hidden ? 1 : 0,
      rowCount,
      columnCount,
      cellData,
      zoomRatio: zoomOf(partText(parts, known.part) ?? ''),
    };
    order.push(id);
    sheets.push({
      id,
      name: sheet.name,
      part: known.part,
      filled,
      shared,
      extras: extrasOf(withNewerValidations(sheet, partText(parts, known.part) ?? '')),
    });
  }
  if (order.length === 0) unreadable('a workbook without a sheet of cells');
  const base = file.defaultFont === undefined ? {} : sheetStyle({ font: { ...file.defaultFont } }, []);
  const snapshot: IWorkbookData = {
    id: 'workbook',
    name: '',
    appVersion: SNAPSHOT_VERSION,
    locale: 'enUS' as LocaleType,
    styles: looks.table,
    defaultStyle: base,
    sheetOrder: order,
    sheets: data,
    resources: [{ name: NAMES_RESOURCE, data: JSON.stringify(namesOf(file, sheets)) }],
  };
  return { snapshot, sheets, parts, layout };
}

/** Merged ranges as far as the sheet goes: a file may merge whole columns. */
function mergesWithin(merges: readonly IRange[], rowCount: number, columnCount: number): IRange[] {
  return merges
    .map((block) => ({
      ...block,
      endRow: Math.min(block.endRow, rowCount - 1),
      endColumn: Math.min(block.endColumn, columnCount - 1),
    }))
    .filter((block) => block.endRow >= block.startRow && block.endColumn >= block.startColumn);
}

/** Gives each look one id, however many cells wear it. */
function lookTable(theme: readonly string[]) {
  const table: Record<string, IStyleData> = {};
  const ids = new Map<string, string>();
  const id = (cell: FileCell | undefined): string | undefined => {
    if (cell?.style === undefined) return undefined;
    const key = JSON.stringify(cell.style);
    const known = ids.get(key);
    if (known !== undefined) return known === '' ? undefined : known;
    const style = sheetStyle(cell.style, theme);
    // what the page does not show, such as a cell that a locked sheet leaves open, is kept with the cell
    const fresh = Object.keys(cell.style).length === 0 ? '' : `look-${ids.size + 1}`;
    ids.set(key, fresh);
    if (fresh === '') return undefined;
    table[fresh] = style;
    return fresh;
  };
  return { table, id };
}

function cellsOf(
  rows: readonly (readonly FileValue[])[],
  details: ReadonlyMap<string, FileCell> | undefined,
  lookId: (cell: FileCell | undefined) => string | undefined,
  date1904: boolean,
  workedOut: (formula: string, row: number, column: number) => string,
  takeFormula: (formula: string) => void,
) {
  const filled: FilledRange[] = [];
  const shared: Spot[] = [];
  const masters = new Map<number, { row: number; column: number; formula: string }>();
  const cellData: IObjectMatrixPrimitiveType<ICellData> = {};
  let columns = 0;
  rows.forEach((values, row) => {
    if (values.length > columns) columns = values.length;
    values.forEach((value, column) => {
      const detail = details?.get(`${row},${column}`);
      const cell = plain(value, date1904);
      const look = lookId(detail);
      if (look !== undefined) cell.s = look;
      const given = detail === undefined ? undefined : formulaOf(detail, row, column, masters);
      // The calculation has no other workbooks: such a cell keeps the value that the file has for it.
      const formula = given === undefined || leadsOutside(given) ? undefined : workedOut(given, row, column);
      if (detail !== undefined && formula !== undefined) {
        takeFormula(formula);
        cell.f = formula;
        if (detail.formulaType === 'shared') shared.push({ row, column });
        const block = fills(detail, row, column);
        if (block !== undefined)
          filled.push({ row, column, block, dynamic: detail.formulaDynamic === true, stored: [] });
      }
      if (Object.keys(cell).length === 0) return;
      const line = cellData[row] ?? {};
      line[column] = cell;
      cellData[row] = line;
    });
  });
  const used = { endRow: rows.length - 1, endColumn: columns - 1 };
  const within = filled.map((range): FilledRange => {
    const clippedRange = { ...range, block: clipped(range.block, used) };
    return { ...clippedRange, stored: clearFilled(cellData, clippedRange) };
  });
  return { cellData, filled: within, shared, columns };
}

function plain(value: FileValue | undefined, date1904: boolean): ICellData {
  if (value === null || value === undefined) return {};
  if (value instanceof Date) return { v: dateToSerial(value, date1904), t: NUMBER };
  if (typeof value === 'boolean') return { v: value ? 1 : 0, t: BOOLEAN };
  // Digits that no number can hold, and the word Infinity, are no amount.
  if (typeof value === 'number' && !Number.isFinite(value)) return { v: '#NUM!', t: TEXT };
  return { v: value, t: typeof value === 'number' ? NUMBER : TEXT };
}

function formulaOf(
  cell: FileCell,
  row: number,
  column: number,
  masters: Map<number, { row: number; column: number; formula: string }>,
): string | undefined {
  if (cell.formula === undefined) return undefined;
  const index = cell.formulaSharedIndex;
  if (cell.formula !== '') {
    const formula = asTyped(cell.formula);
    if (cell.formulaType === 'shared' && index !== undefined) masters.set(index, { row, column, formula });
    return formula;
  }
  const master = index === undefined ? undefined : masters.get(index);
  return master === undefined ? undefined : shifted(master.formula, row - master.row, column - master.column);
}

/** True for a formula that refers to another workbook: `[1]Sheet!A1`, `'[1]Pipe runs'!A1`. */
function leadsOutside(formula: string): boolean {
  if (!formula.includes('[')) return false;
  return tokens(formula).some(
    ({ kind, text }, index, list) =>
      (kind === 'sheet' && /\[\d+\]/.test(text)) ||
      (kind === 'bracket' && /^\[\d+\]$/.test(text) && list[index - 1]?.kind !== 'name'),
  );
}

function fills(cell: FileCell, row: number, column: number): Block | undefined {
  if (cell.formulaType !== 'array' && cell.formulaDynamic !== true) return undefined;
  const one = { startRow: row, startColumn: column, endRow: row, endColumn: column };
  return (cell.formulaRef === undefined ? undefined : parseBlock(cell.formulaRef)) ?? one;
}

/** A file may name more than it holds: whole columns, say. */
function clipped(block: Block, used: { readonly endRow: number; readonly endColumn: number }): Block {
  return {
    ...block,
    endRow: Math.max(Math.min(block.endRow, used.endRow), block.startRow),
    endColumn: Math.max(Math.min(block.endColumn, used.endColumn), block.startColumn),
  };
}

/**
 * Takes the stored values out of the cells that a formula fills, and gives them back: they are its result, not entries of
 * their own.
 */
function clearFilled(
  cellData: IObjectMatrixPrimitiveType<ICellData>,
  { row, column, block }: FilledRange,
): StoredSpot[] {
  const stored: StoredSpot[] = [];
  for (const key of Object.keys(cellData)) {
    const at = Number(key);
    if (at < block.startRow || at > block.endRow) continue;
    const line = cellData[at];
    for (const place of Object.keys(line ?? {})) {
      const across = Number(place);
      if (across < block.startColumn || across > block.endColumn || (at === row && across === column)) continue;
      const cell = line?.[across];
      if (line === undefined || cell === undefined || cell.f !== undefined) continue;
      const { v, t } = cell;
      if (v !== undefined && v !== null)
        stored.push({ row: at, column: across, cell: t === undefined ? { v } : { v, t } });
      if (cell.s === undefined || cell.s === null) delete line[across];
      else line[across] = { s: cell.s };
    }
    if (line !== undefined && Object.keys(line).length === 0) delete cellData[at];
  }
  return stored;
}

function namesOf(file: FileWorkbook, sheets: readonly BookSheet[]) {
  const names: Record<string, unknown> = {};
  (file.namedRanges ?? []).forEach((given, index) => {
    const id = `name-${index + 1}`;
    const sheet = given.scope === undefined ? undefined : sheets.find(({ name }) => name === given.scope);
    names[id] = {
      id,
      name: given.name,
      formulaOrRefString: asTyped(given.range).slice(1),
      localSheetId: sheet?.id ?? WHOLE_WORKBOOK,
      ...(given.comment === undefined ? {} : { comment: given.comment }),
    };
  });
  return names;
}
