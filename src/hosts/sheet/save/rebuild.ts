import type { IStyleData, IWorkbookData } from '@univerjs/core';
import type { CellStyle, Sheet as FileSheet, NamedRange, WriteSheet } from 'hucre';
import { openXlsx, saveXlsx, writeXlsx } from 'hucre/xlsx';
import { keepsDrawing } from '../../../workbook/drawings.ts';
import {
  editsOf,
  GONE,
  movedBlocks,
  movedLines,
  movedRange,
  movedRanges,
  movedReference,
  type SheetEdit,
} from '../../../workbook/edits.ts';
import { type KeptSheet, keepRest } from '../../../workbook/keep.ts';
import { joinWidths, mendWritten, orderFonts } from '../../../workbook/mend.ts';
import { movedRuleFormula } from '../../../workbook/moved-formula.ts';
import { keptNames } from '../../../workbook/names.ts';
import { partText, readParts, storeParts } from '../../../workbook/package.ts';
import { asStored } from '../../../workbook/prefixes.ts';
import { keepPrintNames } from '../../../workbook/print-names.ts';
import { type Book, WHOLE_WORKBOOK } from '../../../workbook/read.ts';
import { dropUnrelated } from '../../../workbook/relate.ts';
import { cellSheetsOnly, moveChartReferences, orderSheets } from '../../../workbook/sheet-order.ts';
import { movedTable, tablesOf } from '../../../workbook/table-part.ts';
import { eachCell, fileSheet, type MadeSheet, type StyleOf } from './file-sheet.ts';
import { fileStyle } from './file-style.ts';
import { grouped } from './groups.ts';
import { type Origins, sheetOf } from './origin.ts';

/**
 * A file for a workbook whose sheets, rows, widths or looks are not those of the file it came from; its formulas are still
 * blank. What the sheet does not show (lists, print set-up, charts, comments, links) is carried over from that file and
 * brought along where rows, columns and cells were put in or taken out.
 *
 * @param book the file as read; absent for a workbook that never was one
 * @param now the workbook as it is
 * @param edits what was done to rows, columns, cells and names of sheets since the file was read
 * @param origins where sheets come from that the file does not have
 */
export async function rebuild(
  book: Book | undefined,
  now: IWorkbookData,
  edits: readonly SheetEdit[] = [],
  origins: Origins = new Map(),
): Promise<Uint8Array> {
  const bytes = book && storeParts(cellSheetsOnly(book.parts, book.layout));
  const file = bytes && (await openXlsx(bytes, { readStyles: true }));
  const styleOf = stylesFor(book, file?.sheets ?? [], now);
  const namedRanges = namesOf(now);
  const named = now.sheetOrder.map((id) => now.sheets[id]?.name ?? id);
  const made = new Map(now.sheetOrder.map((id, at) => [id, fileSheet(named[at] ?? id, now.sheets[id] ?? {}, styleOf)]));
  if (file === undefined) {
    const sheets = await withOrigins(made, edits, origins);
    const parts = readParts(await writeXlsx({ sheets, namedRanges }));
    mendWritten(parts);
    joinWidths(parts);
    orderFonts(parts);
    return storeParts(parts);
  }
  const idOf = new Map(book?.sheets.map(({ name, id }) => [name, id]));
  const kept: KeptSheet[] = [];
  const tables = book === undefined ? undefined : tablesOf(book);
  // The parts that hang on a sheet are found by its place: the file's sheets first, in their order, those taken out too.
  const sheets = file.sheets.map((before, at): FileSheet => {
    const id = idOf.get(before.name) ?? '';
    const sheet = made.get(id);
    if (sheet === undefined) return { ...withoutRest(before, ''), name: freeName(named) };
    made.delete(id);
    kept.push({ name: before.name, part: `xl/worksheets/sheet${at + 1}.xml`, cells: now.sheets[id]?.cellData ?? {} });
    const part = book?.sheets.find(({ name }) => name === before.name)?.part ?? '';
    return joined(withoutRest(before, partText(book?.parts ?? new Map(), part) ?? ''), sheet, edits, tables);
  });
  sheets.push(...((await withOrigins(made, edits, origins)) as unknown as FileSheet[]));
  const parts = readParts(await saveXlsx(Object.assign(file, { sheets, namedRanges })));
  const ofFile = (part: string): boolean => book?.parts.has(part) === true && part !== book.layout.workbook;
  mendWritten(parts, (part) => !ofFile(part));
  joinWidths(parts);
  if (book !== undefined) {
    keepPrintNames(parts, book.parts, edits);
    keepRest(parts, book, kept, edits);
  }
  orderFonts(parts);
  orderSheets(parts, named);
  // charts and pictures of sheets that were taken out would stay in the file unseen
  dropUnrelated(parts);
  moveChartReferences(parts, (reference) => movedReference(reference, edits), ofFile);
  return storeParts(parts);
}

/** Sheets that the file does not have; those of another file, or of another sheet, with what that one has beside its cells. */
async function withOrigins(
  made: ReadonlyMap<string, MadeSheet>,
  edits: readonly SheetEdit[],
  origins: Origins,
): Promise<WriteSheet[]> {
  const sheets: WriteSheet[] = [];
  for (const [id, now] of made) {
    const origin = origins.get(id);
    if (origin === undefined) sheets.push(now);
    else {
      const all = [...origin.edits, ...edits.slice(origin.since)];
      const { before, charts } = await sheetOf(origin, all);
      sheets.push({ ...joined(before, now, all), charts } as object as WriteSheet);
    }
  }
  return sheets;
}

/** The sheet without what is taken over from its part as it is; the very object, since the file keeps more beside it. */
function withoutRest(sheet: FileSheet, xml: string): FileSheet {
  delete sheet.conditionalRules;
  delete sheet.dataValidations;
  delete sheet.sparklines;
  if (!keepsDrawing(xml)) return sheet;
  delete sheet.images;
  delete sheet.textBoxes;
  delete sheet.backgroundImage;
  return sheet;
}

/** A name for a sheet that is written and then taken out. */
function freeName(taken: readonly string[]): string {
  let name = 'out';
  while (taken.some((other) => other.toLowerCase() === name)) name += '-';
  return name;
}

/** The sheet as it is now on top of what the file says of it; the very object, since the file keeps more beside it. */
function joined(
  before: FileSheet,
  now: FileSheet,
  all: readonly SheetEdit[],
  tables: ReturnType<typeof tablesOf> = new Map(),
): FileSheet {
  const edits = editsOf(all, before.name);
  if (now.freezePane === undefined) delete before.freezePane;
  const cells = new Map(now.cells);
  for (const [key, cell] of before.cells ?? []) {
    const { hyperlink, comment, richText } = cell;
    if (hyperlink === undefined && comment === undefined && richText === undefined) continue;
    const [row = 0, column = 0] = key.split(',').map(Number);
    const spot = movedBlocks({ startRow: row, endRow: row, startColumn: column, endColumn: column }, edits);
    if (spot === undefined) continue;
    const to = `${spot.startRow},${spot.startColumn}`;
    const value = now.rows[spot.startRow]?.[spot.startColumn] ?? null;
    cells.set(to, {
      ...(cells.get(to) ?? { value, type: value === null ? 'empty' : 'string' }),
      ...(hyperlink === undefined ? {} : { hyperlink: movedLink(hyperlink, all) }),
      ...(comment === undefined ? {} : { comment }),
      // letters of several looks hold for the text that they were given to
      ...(richText === undefined || value !== cell.value ? {} : { richText }),
    });
  }
  const moved = <T extends { range: string }>(rules: T[] | undefined): T[] | undefined =>
    rules?.map((rule) => ({ ...rule, range: movedRanges(rule.range, edits) })).filter((rule) => rule.range !== '');
  const formula = (text: string, range: string): string => movedRuleFormula(text, range, before.name, all);
  const printed = { ...before.pageSetup };
  for (const part of ['printArea', 'printTitlesRow', 'printTitlesColumn'] as const) {
    const range = printed[part];
    if (range === undefined) continue;
    const to = range.split(',').flatMap((one) => rangeLeft(one, edits) ?? []);
    if (to.length === 0) delete printed[part];
    else printed[part] = to.join(',');
  }
  const filtered = before.autoFilter && rangeLeft(before.autoFilter.range, edits);
  if (filtered === undefined) delete before.autoFilter;
  // the file names the rows and columns that a page ends with, and what follows is what begins one
  const ends = (breaks: readonly number[] | undefined, axis: 'row' | 'column'): number[] =>
    movedLines(
      (breaks ?? []).map((at) => at + 1),
      axis,
      edits,
    ).map((at) => at - 1);
  const follows = {
    pageSetup: before.pageSetup && printed,
    rowBreaks: ends(before.rowBreaks, 'row').filter((at) => at >= 0),
    colBreaks: ends(before.colBreaks, 'column').filter((at) => at >= 0),
    dataValidations: moved(
      before.dataValidations?.map((rule) => ({
        ...rule,
        ...(rule.formula1 === undefined ? {} : { formula1: formula(rule.formula1, rule.range) }),
        ...(rule.formula2 === undefined ? {} : { formula2: formula(rule.formula2, rule.range) }),
      })),
    ),
    conditionalRules: moved(
      before.conditionalRules?.map((rule) => ({
        ...rule,
        ...(rule.formula === undefined
          ? {}
          : { formula: [rule.formula].flat().map((text) => formula(text, rule.range)) }),
      })),
    ),
    autoFilter: filtered === undefined ? undefined : { ...before.autoFilter, range: filtered },
    tables: before.tables?.filter((table) => {
      const part = tables.get(table.displayName ?? table.name);
      return part !== undefined && movedTable(part.xml, edits) !== undefined;
    }),
    ...grouped(before, now, edits),
    // what is hidden so that only a program shows it again stays hidden so
    ...(before.veryHidden === true && now.hidden === true ? { hidden: false } : { veryHidden: false }),
  };
  const given = Object.entries(follows).filter(([, value]) => value !== undefined);
  const whole = Object.assign(before, now, { cells, ...Object.fromEntries(given) });
  // rows behind the last cell are written where there is a place for their cells
  for (const row of whole.rowDefs?.keys() ?? []) while (whole.rows.length <= row) whole.rows.push([]);
  return whole;
}

type Shifts = ReturnType<typeof editsOf>;

/** A range that is one whatever comes and goes in parts of it; undefined when it is gone. */
function rangeLeft(range: string, edits: Shifts): string | undefined {
  const to = movedRange(range, edits);
  return to === GONE ? undefined : to;
}

/** A link to a place of the workbook goes with the place. */
function movedLink<T extends { location?: string }>(link: T, edits: readonly SheetEdit[]): T {
  return link.location === undefined ? link : { ...link, location: movedReference(link.location, edits) };
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

function namesOf(now: IWorkbookData): NamedRange[] {
  // That of a filter belongs to the filter, which the file has; that of a sheet goes with the sheet.
  const shown = keptNames(now).filter(
    ({ name, localSheetId = WHOLE_WORKBOOK }) =>
      !/^_xlnm\._FilterDatabase$/i.test(name) &&
      (localSheetId === WHOLE_WORKBOOK || now.sheets[localSheetId] !== undefined),
  );
  return shown.map(({ name, formulaOrRefString, localSheetId, comment }) => {
    const scope = localSheetId === undefined ? undefined : now.sheets[localSheetId]?.name;
    return {
      name,
      range: asStored(formulaOrRefString),
      ...(scope === undefined ? {} : { scope }),
      ...(comment ? { comment } : {}),
    };
  });
}
