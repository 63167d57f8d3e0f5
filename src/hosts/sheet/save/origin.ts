import type { Chart, Sheet as FileSheet, SheetChart } from 'hucre';
import { cloneChart } from 'hucre/ooxml';
import { openXlsx } from 'hucre/xlsx';
import { movedReference, type SheetEdit } from '../../../workbook/edits.ts';
import { withNewerValidations } from '../../../workbook/newer-lists.ts';
import { partText, storeParts } from '../../../workbook/package.ts';
import type { Book } from '../../../workbook/read.ts';
import { cellSheetsOnly } from '../../../workbook/sheet-order.ts';

/** Where a sheet comes from: what it has beside its cells is in that file. */
export interface Origin {
  readonly book: Book;
  /** the sheet's name in that file */
  readonly name: string;
  /** what was done to it, or to the sheet that it is a copy of, before it was there; its other name is the last of it */
  readonly edits: readonly SheetEdit[];
  /** how many of the edits of the open workbook were done by then */
  readonly since: number;
}

export type Origins = ReadonlyMap<string, Origin>;

/**
 * A copy of the sheet in the file that it comes from, without what a workbook can have but once (tables, pictures), and
 * its charts, brought along with the edits.
 */
export async function sheetOf(
  { book, name }: Origin,
  edits: readonly SheetEdit[],
): Promise<{ readonly before: FileSheet; readonly charts: SheetChart[] }> {
  const file = await openXlsx(storeParts(cellSheetsOnly(book.parts, book.layout)), { readStyles: true });
  const found = file.sheets.find((sheet) => sheet.name === name);
  if (found === undefined) return { before: { name, rows: [] }, charts: [] };
  const part = book.sheets.find((sheet) => sheet.name === name)?.part ?? '';
  const { cells, pageSetup, rowBreaks, colBreaks, dataValidations, conditionalRules } = withNewerValidations(
    found,
    partText(book.parts, part) ?? '',
  );
  const before: FileSheet = {
    name,
    rows: [],
    ...(cells === undefined ? {} : { cells }),
    ...(pageSetup === undefined ? {} : { pageSetup }),
    ...(rowBreaks === undefined ? {} : { rowBreaks }),
    ...(colBreaks === undefined ? {} : { colBreaks }),
    ...(dataValidations === undefined ? {} : { dataValidations }),
    ...(conditionalRules === undefined ? {} : { conditionalRules }),
  };
  return { before, charts: (found.charts ?? []).flatMap((chart) => chartOf(chart, edits)) };
}

function chartOf(chart: Chart, edits: readonly SheetEdit[]): SheetChart[] {
  const moved = (reference: string): string => movedReference(reference, edits);
  const series = (chart.series ?? []).map((line) => ({
    ...line,
    ...(line.valuesRef === undefined ? {} : { valuesRef: moved(line.valuesRef) }),
    ...(line.categoriesRef === undefined ? {} : { categoriesRef: moved(line.categoriesRef) }),
  }));
  const from = chart.anchor?.from;
  if (from === undefined || series.some(({ valuesRef }) => valuesRef === undefined)) return [];
  const to = chart.anchor?.to;
  try {
    return [cloneChart({ ...chart, series }, { anchor: { from, ...(to === undefined ? {} : { to }) } })];
  } catch {
    // a kind of chart that cannot be written
    return [];
  }
}
