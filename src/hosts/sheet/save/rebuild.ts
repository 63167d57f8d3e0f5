import type { IStyleData, IWorkbookData } from '@univerjs/core';
import type { CellStyle, Sheet as FileSheet, NamedRange, WriteSheet } from 'hucre';
import { openXlsx, saveXlsx, writeXlsx } from 'hucre/xlsx';
import { storeParts } from '../../../workbook/package.ts';
import type { Book } from '../../../workbook/read.ts';
import { eachCell, fileSheet, type StyleOf } from './file-sheet.ts';
import { fileStyle } from './file-style.ts';

/** The resource in which a workbook's defined names are kept. */
const NAMES_RESOURCE = 'SHEET_DEFINED_NAME_PLUGIN';

export interface Rebuilt {
  /** an .xlsx file whose formulas are still blank */
  readonly bytes: Uint8Array;
  /** what it does not carry, as sentences */
  readonly left: readonly string[];
}

/**
 * A file for a workbook whose sheets, rows, widths or looks are not those of the file it came from. What the sheet does not
 * show (validation lists, print set-up, charts) is carried over from that file where its sheets still stand in their order.
 *
 * @param book the file as read; absent for a workbook that never was one
 * @param now the workbook as it is
 */
export async function rebuild(book: Book | undefined, now: IWorkbookData): Promise<Rebuilt> {
  const file = book === undefined ? undefined : await openXlsx(storeParts(book.parts), { readStyles: true });
  const styleOf = stylesFor(book, file?.sheets ?? [], now);
  const keepsOrder = standsInOrder(book, now, file?.sheets ?? []);
  const filesSheets = new Map(file?.sheets.map((sheet) => [sheet.name, sheet]));
  const namedRanges = namesOf(now);
  const sheets = now.sheetOrder.map((id) => {
    const sheet = now.sheets[id] ?? {};
    const name = sheet.name ?? id;
    const before = filesSheets.get(nameInFile(book, id) ?? '');
    const made = fileSheet(name, sheet, styleOf);
    if (before === undefined) return made;
    if (made.freezePane === undefined) delete before.freezePane;
    return Object.assign(before, made);
  });
  if (file !== undefined && keepsOrder) {
    // The package keeps what it did not model beside this very object.
    return { bytes: await saveXlsx(Object.assign(file, { sheets, namedRanges })), left: [] };
  }
  const charts = file?.sheets.some((sheet) => (sheet.charts?.length ?? 0) > 0) ?? false;
  return {
    bytes: await writeXlsx({ sheets: sheets.map(writable), namedRanges }),
    left: charts ? ['Charts were left out, because sheets were moved or removed'] : [],
  };
}

const nameInFile = (book: Book | undefined, id: string): string | undefined =>
  book?.sheets.find((sheet) => sheet.id === id)?.name;

/** Whether the file's sheets are all there and come first, so that each keeps the parts that hang on its place. */
function standsInOrder(book: Book | undefined, now: IWorkbookData, sheets: readonly FileSheet[]): boolean {
  return sheets.every((sheet, index) => {
    const id = now.sheetOrder[index];
    return id !== undefined && nameInFile(book, id) === sheet.name;
  });
}

/** Without what only the file that was read can carry: charts, pictures and other parts beside the sheet. */
function writable(sheet: FileSheet): WriteSheet {
  const { name, rows, cells, columns, rowDefs, merges, freezePane, view, hidden } = sheet;
  const { dataValidations, conditionalRules, pageSetup, headerFooter } = sheet;
  const given = { columns, rowDefs, merges, freezePane, view, hidden, dataValidations, conditionalRules, pageSetup };
  const present = Object.entries({ ...given, cells, headerFooter }).filter(([, value]) => value !== undefined);
  return { name, rows, ...Object.fromEntries(present) };
}

/** Looks by their id in the sheet: those of the file as they are there, new ones as far as files know them. */
function stylesFor(book: Book | undefined, sheets: readonly FileSheet[], now: IWorkbookData): StyleOf {
  const known = new Map<string, CellStyle>();
  for (const { id, name } of book?.sheets ?? []) {
    const cells = sheets.find((sheet) => sheet.name === name)?.cells;
    const frame = book?.snapshot.sheets[id];
    if (cells === undefined || frame === undefined) continue;
    eachCell(frame, (row, column, cell) => {
      if (typeof cell.s !== 'string' || known.has(cell.s)) return;
      const style = cells.get(`${row},${column}`)?.style;
      if (style !== undefined) known.set(cell.s, style);
    });
  }
  const made = new Map<string | IStyleData, CellStyle | undefined>();
  return (look) => {
    if (typeof look === 'string') {
      const inFile = known.get(look);
      if (inFile !== undefined) return inFile;
    }
    if (!made.has(look)) {
      const given = typeof look === 'string' ? now.styles[look] : look;
      made.set(look, given ? fileStyle(given) : undefined);
    }
    return made.get(look);
  };
}

interface KeptName {
  readonly name: string;
  readonly formulaOrRefString: string;
  readonly localSheetId?: string;
  readonly comment?: string;
}

function namesOf(now: IWorkbookData): NamedRange[] {
  const data = now.resources?.find((resource) => resource.name === NAMES_RESOURCE)?.data;
  if (!data) return [];
  const kept: Record<string, KeptName> = JSON.parse(data);
  return Object.values(kept).map(({ name, formulaOrRefString, localSheetId, comment }) => {
    const scope = localSheetId === undefined ? undefined : now.sheets[localSheetId]?.name;
    return {
      name,
      range: formulaOrRefString.replace(/^=/, ''),
      ...(scope === undefined ? {} : { scope }),
      ...(comment ? { comment } : {}),
    };
  });
}
