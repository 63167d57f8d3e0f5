import type { IWorksheetData } from '@univerjs/core';
import type { Sheet as FileSheet } from 'hucre';
import type { Block } from './address.ts';
import { colour } from './styles.ts';

/** Pixels of one character of the usual font, by which files count widths; and of one point, by which they count heights. */
export const CHARACTER_PIXELS = 7;
export const POINT_PIXELS = 4 / 3;
/** px of a column that no file says anything of */
export const DEFAULT_WIDTH = 64;
const DEFAULT_HEIGHT = 20;

interface RowEntry {
  h?: number;
  hd?: 0 | 1;
  ia?: 0 | 1;
  custom?: { filtered: true };
}

/**
 * What surrounds the cells of a sheet: widths, heights, merged cells, frozen panes, grid lines, tab colour.
 * @param filtered where filters hide rows
 */
export function sheetFrame(sheet: FileSheet, filtered: readonly Block[]): Partial<IWorksheetData> {
  const columnData: Record<number, { w?: number; hd?: 0 | 1 }> = {};
  (sheet.columns ?? []).forEach((column, index) => {
    if (column === undefined) return;
    const entry: { w?: number; hd?: 0 | 1 } = {};
    if (column.width !== undefined) entry.w = Math.round(column.width * CHARACTER_PIXELS);
    if (column.hidden === true) entry.hd = 1;
    if (entry.w !== undefined || entry.hd !== undefined) columnData[index] = entry;
  });
  const rowData: Record<number, RowEntry> = {};
  for (const [index, row] of sheet.rowDefs ?? []) {
    const entry: RowEntry = {};
    if (row.height !== undefined) Object.assign(entry, { h: Math.round(row.height * POINT_PIXELS), ia: 0 });
    if (row.hidden === true) {
      entry.hd = 1;
      if (filtered.some(({ startRow, endRow }) => index >= startRow && index <= endRow))
        entry.custom = { filtered: true };
    }
    if (entry.h !== undefined || entry.hd !== undefined) rowData[index] = entry;
  }
  const rows = sheet.freezePane?.rows ?? 0;
  const columns = sheet.freezePane?.columns ?? 0;
  return {
    columnData,
    rowData,
    mergeData: (sheet.merges ?? []).map((merge) => ({
      startRow: merge.startRow,
      endRow: merge.endRow,
      startColumn: merge.startCol,
      endColumn: merge.endCol,
    })),
    freeze: {
      xSplit: columns,
      ySplit: rows,
      startRow: rows > 0 ? rows : -1,
      startColumn: columns > 0 ? columns : -1,
    },
    showGridlines: sheet.view?.showGridLines === false ? 0 : 1,
    rightToLeft: sheet.view?.rightToLeft === true ? 1 : 0,
    tabColor: colour(sheet.view?.tabColor, [])?.rgb ?? '',
    defaultColumnWidth: DEFAULT_WIDTH,
    defaultRowHeight: DEFAULT_HEIGHT,
  };
}
