import { columnNumber, MOST_COLUMNS } from './address.ts';
import { atMost, type Limits, unreadable } from './limits.ts';
import { type Parts, partText } from './package.ts';
import type { Layout } from './parts.ts';
import { attributes, startTags } from './xml.ts';

/** Most columns that the width records of one sheet may name together; a reader writes each down. */
const MOST_WIDTHS = 4 * MOST_COLUMNS;

/**
 * Counts what a reader would have to lay out, before it does.
 * @throws Fault `limit` for too many sheets, cells, or a few cells that span too large a rectangle
 */
export function measure(parts: Parts, layout: Layout, limits: Limits): void {
  atMost('Sheets in the workbook', layout.sheets.length, limits.sheets, 'sheets');
  let cells = 0;
  for (const { name, part } of layout.sheets) {
    if (part === undefined) continue;
    const xml = partText(parts, part) ?? '';
    cells = cellsOf(xml, name, cells, limits);
    let widths = 0;
    for (const tag of startTags(xml, 'col')) {
      const given = attributes(tag);
      const last = Math.min(Number(given.get('max')), MOST_COLUMNS);
      widths += Math.max(last - Number(given.get('min')) + 1, 1) || 1;
      atMost(`Column widths on sheet ${name}`, widths, MOST_WIDTHS, 'columns');
    }
  }
}

/** Rows and cells of a sheet, as they open and close. */
const PIECE = /<(\/?)(?:\w+:)?(c|row)(?=[\s/>])[^>]*(>?)/g;

/** Goes through the rows and cells of a sheet; those that do not open and close in turn are refused. */
function cellsOf(xml: string, sheet: string, before: number, limits: Limits): number {
  let cells = before;
  let rectangle = 0;
  let widest = 0;
  let row = 0;
  /** how far the cells reach, down and across, from A1 */
  const reach = { rows: 0, columns: 0 };
  let open: '' | 'row' | 'c' = '';
  for (const [text, closes, name, end] of xml.matchAll(PIECE)) {
    const isRow = name === 'row';
    const around = isRow ? '' : 'row';
    const empty = text.endsWith('/>');
    if (end === '' || open !== (closes === '/' ? name : around)) {
      unreadable(`a workbook whose sheet ${sheet} has rows and cells that do not open and close in turn`);
    }
    if (closes === '/') {
      open = around;
      continue;
    }
    if (!empty) open = isRow ? 'row' : 'c';
    if (isRow) {
      rectangle += widest;
      widest = 0;
      row = Number(/\sr\s*=\s*["'](\d+)/.exec(text)?.[1] ?? row + 1);
      continue;
    }
    cells++;
    const [, letters, number] = /\sr\s*=\s*["']([A-Za-z]{1,3})(\d+)/.exec(text) ?? [];
    const column = letters === undefined ? widest + 1 : columnNumber(letters) + 1;
    if (column > widest) widest = column;
    atMost('Cells in the workbook', cells, limits.cells, 'cells');
    reach.rows = Math.max(reach.rows, Number(number ?? row));
    reach.columns = Math.max(reach.columns, column);
    atMost(`Rows times columns in use, sheet ${sheet}`, reach.rows * reach.columns, limits.spanned, 'cells');
    atMost(`Cells from the first column on, sheet ${sheet}`, rectangle + widest, limits.rectangle, 'cells');
  }
  if (open !== '') unreadable(`a workbook whose sheet ${sheet} ends in the middle of its cells`);
  return cells;
}
