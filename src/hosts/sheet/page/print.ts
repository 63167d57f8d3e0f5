import type { IStyleData, Worksheet } from '@univerjs/core';
import { type Cell, isBlank } from '../../../tables/cells.ts';
import type { Block } from '../../../workbook/address.ts';
import { NO_EXTRAS, type PrintSetup } from '../../../workbook/extras.ts';
import { usedBlock } from '../sheet-cells.ts';
import type { Grid } from './grid.ts';
import { dress, fillCell } from './print-cells.ts';
import { type PageColumns, pagesOf, printedAreas } from './print-pages.ts';

/** Rows above this number are left out, with a line that says so: nobody prints more. */
const MOST_ROWS = 3_000;
const WRAP = 3;

/**
 * Puts the sheet in view on paper whenever the page is printed, by our button or the browser's own command, and takes it off
 * the page afterwards: what was printed before is out of date.
 *
 * @returns what prints, and says what there is to say about it
 */
export function createPrinter(grid: Grid): () => string {
  /** what the button has made already */
  let made: HTMLElement | undefined;
  const clear = () => document.querySelector('.nw-print')?.remove();
  addEventListener('beforeprint', () => {
    clear();
    document.body.append(made ?? paperOrWords(grid));
  });
  addEventListener('afterprint', clear);
  return () => {
    const paper = paperOf(grid);
    if (typeof paper === 'string') return paper;
    made = paper;
    try {
      window.print();
    } finally {
      made = undefined;
    }
    return `Printing ${grid.api.getActiveWorkbook()?.getActiveSheet().getSheetName()}`;
  };
}

/** The browser's command prints whatever there is: better the reason than a blank page. */
function paperOrWords(grid: Grid): HTMLElement {
  const paper = paperOf(grid);
  if (typeof paper !== 'string') return paper;
  const words = document.createElement('p');
  words.className = 'nw-print';
  words.textContent = paper;
  return words;
}

/**
 * The print area of the sheet in view, or all that it shows, as a table of its own that only the printer sees, with the header
 * rows repeated on each page below, the columns that tell the rows on each beside, and the page breaks of the file. Words
 * where there is nothing to print.
 */
function paperOf(grid: Grid): HTMLElement | string {
  const sheet = grid.api.getActiveWorkbook()?.getActiveSheet();
  if (sheet === undefined) return 'No sheet is open';
  const sheetId = sheet.getSheetId();
  const { print } = grid.extras.get(sheetId) ?? NO_EXTRAS;
  const used = usedBlock(grid, sheetId);
  if (used === undefined) return 'The sheet is empty: nothing to print';
  const areas = printedAreas(grid, sheet.getSheet(), print, used);
  if (areas.length === 0) return 'Nothing stands in the print area of the sheet: nothing to print';
  const paper = document.createElement('div');
  paper.className = `nw-print ${print.landscape ? 'nw-landscape' : 'nw-portrait'}`;
  for (const [area, columns] of pagesOf(grid, sheet.getSheet(), areas, print)) {
    const page = document.createElement('div');
    page.append(...tables(grid, sheet.getSheet(), area, print, columns));
    paper.append(page);
  }
  return paper;
}

/**
 * What stands above the repeated rows, and from there on a table that repeats them. Further pages beside the first have the
 * title above and the rows that hold something in their own columns: labels would stand there without their figures.
 */
function tables(
  grid: Grid,
  sheet: Worksheet,
  area: Block,
  { repeat, breaks }: PrintSetup,
  { columns, repeated, scale }: PageColumns,
): HTMLElement[] {
  const last = Math.min(area.endRow, area.startRow + MOST_ROWS - 1);
  const widths = columns.map((column) => sheet.getColumnWidth(column));
  const total = widths.reduce((sum, width) => sum + width, 0);

  const [unitId, sheetId] = [sheet.getUnitId(), sheet.getSheetId()];
  const cellAt = (row: number, column: number): Cell => grid.reader.cellAt({ unitId, sheetId, row, column });

  const table = (head: readonly number[], body: readonly number[]): HTMLElement[] => {
    if (head.length + body.length === 0) return [];
    const element = document.createElement('table');
    element.style.width = `${total * scale}px`;
    const group = document.createElement('colgroup');
    for (const width of widths) {
      const column = document.createElement('col');
      column.style.width = `${width * scale}px`;
      group.append(column);
    }
    element.append(group);
    if (head.length > 0) element.createTHead().append(...head.map((row) => line(row, 'th')));
    element.createTBody().append(...body.map((row) => line(row, 'td')));
    return [element];
  };

  function line(row: number, tag: 'td' | 'th'): HTMLTableRowElement {
    const element = document.createElement('tr');
    if (tag === 'td' && row > area.startRow && breaks.includes(row)) element.style.breakBefore = 'page';
    const at = (column: number) => cellAt(row, column);
    const style = (column: number): IStyleData => sheet.getComposedCellStyle(row, column);
    for (let index = 0; index < columns.length; index++) {
      const column = columns[index] ?? 0;
      const cell = at(column);
      const look = style(column);
      const box = document.createElement(tag);
      dress(box, look, cell, scale);
      const merged = sheet.getMergedCell(row, column);
      // Text that begins at the left runs on over blank cells beside it, as on the screen.
      if (merged?.startRow === row && merged.startColumn === column) {
        while ((columns[index + 1] ?? Number.POSITIVE_INFINITY) <= merged.endColumn)
          [index, box.colSpan] = [index + 1, box.colSpan + 1];
      } else if (typeof cell === 'string' && look.tb !== WRAP && box.style.textAlign === 'left') {
        while (index + 1 < columns.length && isBlank(at(columns[index + 1] ?? 0)) && !style(columns[index + 1] ?? 0).bg)
          [index, box.colSpan] = [index + 1, box.colSpan + 1];
      }
      const first = index + 1 - box.colSpan;
      const width = widths.slice(first, index + 1).reduce((sum, one) => sum + one, 0);
      fillCell(box, cell, look, width);
      element.append(box);
    }
    return element;
  }

  const rows = (from: number, to: number) =>
    Array.from({ length: Math.max(0, to - from + 1) }, (_, at) => from + at).filter((row) => sheet.getRowVisible(row));
  const own = columns.filter((column) => !repeated.has(column));
  const hasOwn = (row: number): boolean =>
    row === area.startRow || repeated.size === 0 || own.some((column) => !isBlank(cellAt(row, column)));
  const out =
    repeat === undefined || repeat.first < area.startRow || repeat.last >= last
      ? table([], rows(area.startRow, last))
      : [
          ...table([], rows(area.startRow, repeat.first - 1).filter(hasOwn)),
          ...table(rows(repeat.first, repeat.last), rows(repeat.last + 1, last)),
        ];
  if (last < area.endRow) {
    const note = document.createElement('p');
    note.textContent = `Only the first ${MOST_ROWS} rows are printed, of ${area.endRow - area.startRow + 1}.`;
    out.push(note);
  }
  return out;
}
