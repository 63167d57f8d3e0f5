import { columnLetters } from '../../workbook/address.ts';
import type { ModelSheet } from '../../workbook/model.ts';
import { pageSetup } from '../../workbook/page-setup.ts';

/** Points of one character of the usual font: 7 pixels at 96 pixels an inch. */
const CHARACTER_POINTS = 7 * 0.75;

/** Widths, heights, frozen panes, merged cells, lines, tab colour and printing of a sheet. */
export function applyFrame(target: Excel.Worksheet, sheet: ModelSheet): void {
  sheet.widths?.forEach((width, index) => {
    const letters = columnLetters(index);
    if (width !== undefined) target.getRange(`${letters}:${letters}`).format.columnWidth = width * CHARACTER_POINTS;
  });
  for (const [row, height] of Object.entries(sheet.heights ?? {})) {
    target.getRange(`${row}:${row}`).format.rowHeight = height;
  }
  for (const range of sheet.merges ?? []) target.getRange(range).merge();
  freeze(target, sheet.frozenRows ?? 0, sheet.frozenColumns ?? 0);
  if (sheet.gridLines === false) target.showGridlines = false;
  if (sheet.tabColour !== undefined) target.tabColor = `#${sheet.tabColour}`;
  print(target, sheet);
}

function freeze(target: Excel.Worksheet, rows: number, columns: number): void {
  if (rows > 0 && columns > 0) target.freezePanes.freezeAt(target.getRange(`A1:${columnLetters(columns - 1)}${rows}`));
  else if (rows > 0) target.freezePanes.freezeRows(rows);
  else if (columns > 0) target.freezePanes.freezeColumns(columns);
}

function print(target: Excel.Worksheet, sheet: ModelSheet): void {
  const { print } = sheet;
  if (print === undefined) return;
  const { fitToWidth, printTitlesColumn } = pageSetup(sheet);
  const layout = target.pageLayout;
  if (print.landscape !== undefined) {
    layout.orientation = print.landscape ? Excel.PageOrientation.landscape : Excel.PageOrientation.portrait;
  }
  if (print.paper !== undefined) layout.paperSize = print.paper === 'a4' ? Excel.PaperType.a4 : Excel.PaperType.letter;
  if (fitToWidth !== undefined) layout.zoom = { horizontalFitToPages: fitToWidth, verticalFitToPages: 0 };
  for (const column of print.columnsBefore ?? []) target.verticalPageBreaks.add(`${column}1`);
  if (print.repeatRows !== undefined) layout.setPrintTitleRows(print.repeatRows.replace(/\d+/g, '$$$&'));
  if (printTitlesColumn !== undefined) layout.setPrintTitleColumns(printTitlesColumn);
  if (print.area !== undefined) layout.setPrintArea(print.area);
}
