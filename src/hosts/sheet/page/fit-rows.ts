import type { ICellData, IStyleData, IWorkbookData, IWorksheetData, Nullable } from '@univerjs/core';
import { WrapStrategy } from '@univerjs/core';
import { isBlank } from '../../../tables/cells.ts';

const PIXELS_PER_POINT = 4 / 3;
/** Height of a line in its own size, and the room above and below the lines of a cell. */
const LINE = 1.25;
const PADDING = 4;
const DEFAULT_SIZE = 11;
const DEFAULT_FAMILY = 'sans-serif';
/** Room at both sides of a cell's text. */
const SIDES = 6;

/**
 * Gives rows for which the file names no height the height that their text needs, as spreadsheet programs do on opening:
 * large type and wrapped text would be cut otherwise. Changes the snapshot.
 */
export function fitRows(snapshot: IWorkbookData): void {
  const pen = document.createElement('canvas').getContext('2d');
  if (pen === null) return;
  for (const sheet of Object.values(snapshot.sheets)) fitSheet(sheet, snapshot, pen);
}

function fitSheet(sheet: Partial<IWorksheetData>, snapshot: IWorkbookData, pen: CanvasRenderingContext2D): void {
  const least = sheet.defaultRowHeight ?? 0;
  const rows = sheet.rowData ?? {};
  const merged = new Set((sheet.mergeData ?? []).map(({ startRow, startColumn }) => `${startRow},${startColumn}`));
  for (const [row, cells] of Object.entries(sheet.cellData ?? {}) as [string, Record<string, Nullable<ICellData>>][]) {
    const at = Number(row);
    if (rows[at]?.h !== undefined) continue;
    let needed = least;
    let spills = false;
    for (const [column, cell] of Object.entries(cells)) {
      if (cell?.f) spills = true;
      // What a formula will spill into wrapped cells is not known yet: headers mostly take two lines.
      else if (spills && cell && isBlank(cell.v)) needed = Math.max(needed, blankHeight(styleOf(cell, snapshot)));
      if (isBlank(cell?.v) || merged.has(`${row},${column}`)) continue;
      const style = styleOf(cell ?? {}, snapshot);
      const width = (sheet.columnData?.[Number(column)]?.w ?? sheet.defaultColumnWidth ?? 0) - SIDES;
      needed = Math.max(needed, height(String(cell?.v), style, width, pen));
    }
    if (needed > least) rows[at] = { ...rows[at], h: Math.ceil(needed), ia: 0 };
  }
  sheet.rowData = rows;
}

/** Room for two lines in a blank cell that wraps its text. */
function blankHeight(style: IStyleData): number {
  return style.tb === WrapStrategy.WRAP ? 2 * (style.fs ?? DEFAULT_SIZE) * PIXELS_PER_POINT * LINE + PADDING : 0;
}

function styleOf(cell: ICellData, snapshot: IWorkbookData): IStyleData {
  return (typeof cell.s === 'string' ? snapshot.styles[cell.s] : cell.s) ?? {};
}

function height(text: string, style: IStyleData, width: number, pen: CanvasRenderingContext2D): number {
  const pixels = (style.fs ?? DEFAULT_SIZE) * PIXELS_PER_POINT;
  const wraps = style.tb === WrapStrategy.WRAP && width > 0;
  if (wraps) pen.font = `${style.bl ? 'bold ' : ''}${pixels}px ${style.ff ?? DEFAULT_FAMILY}`;
  return (wraps ? lines(text, width, pen) : 1) * pixels * LINE + PADDING;
}

/** How many lines `text` breaks into between words. */
function lines(text: string, width: number, pen: CanvasRenderingContext2D): number {
  let count = 0;
  for (const paragraph of text.split('\n')) {
    let line = '';
    count += 1;
    for (const word of paragraph.split(' ')) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (line !== '' && pen.measureText(longer).width > width) {
        count += 1;
        line = word;
      } else line = longer;
    }
  }
  return count;
}
