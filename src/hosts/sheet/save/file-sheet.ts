import type { ICellData, IStyleData, IWorksheetData, Nullable } from '@univerjs/core';
import type { CellStyle, CellValue, Cell as FileCell, Sheet as FileSheet, RowDef } from 'hucre';
import { CHARACTER_PIXELS, POINT_PIXELS } from '../../../workbook/sheet-frame.ts';
import { colourOf } from './file-style.ts';

const BOOLEAN = 3;

/** A sheet without what only a file that was read can hold. */
export type MadeSheet = Omit<FileSheet, 'charts' | 'pivotTables' | 'slicers' | 'timelines'>;
export type StyleOf = (look: string | IStyleData) => CellStyle | undefined;

/**
 * What a sheet is now, as a file has it: cells with their looks, widths, heights, merged cells, frozen panes. Formulas are
 * left blank: the writer of values puts them in, with what they spill.
 */
export function fileSheet(name: string, sheet: Partial<IWorksheetData>, styleOf: StyleOf): MadeSheet {
  const rows: CellValue[][] = [];
  const cells = new Map<string, FileCell>();
  eachCell(sheet, (row, column, cell) => {
    const value = cell.f || cell.si ? null : plainValue(cell);
    let line = rows[row];
    if (line === undefined) {
      line = [];
      rows[row] = line;
    }
    line[column] = value;
    const style = cell.s === null || cell.s === undefined ? undefined : styleOf(cell.s);
    if (style !== undefined) cells.set(`${row},${column}`, { value, type: typeOf(value), style });
  });
  return {
    name,
    // Rows and cells that nobody filled are holes so far; the writer wants all of them.
    rows: Array.from(rows, (line) => Array.from(line ?? [], (value) => value ?? null)),
    cells,
    ...frameOf(sheet),
  };
}

function frameOf(sheet: Partial<IWorksheetData>): Omit<FileSheet, 'name' | 'rows' | 'cells'> {
  const columns: { width?: number; hidden?: boolean }[] = [];
  for (const [index, column] of Object.entries(sheet.columnData ?? {})) {
    columns[Number(index)] = {
      ...(column?.w === undefined ? {} : { width: Math.round((column.w / CHARACTER_PIXELS) * 100) / 100 }),
      ...(column?.hd === 1 ? { hidden: true } : {}),
    };
  }
  const rowDefs = new Map<number, RowDef>();
  for (const [index, row] of Object.entries(sheet.rowData ?? {})) {
    const height = row?.ia === 1 ? (row.ah ?? row.h) : row?.h;
    const entry: RowDef = {
      ...(height === undefined ? {} : { height: Math.round((height / POINT_PIXELS) * 100) / 100 }),
      ...(row?.hd === 1 ? { hidden: true } : {}),
    };
    if (Object.keys(entry).length > 0) rowDefs.set(Number(index), entry);
  }
  const { xSplit = 0, ySplit = 0 } = sheet.freeze ?? {};
  const tabColor = colourOf({ rgb: sheet.tabColor ?? '' });
  return {
    columns: Array.from(columns, (column) => column ?? {}),
    rowDefs,
    merges: (sheet.mergeData ?? []).map((merge) => ({
      startRow: merge.startRow,
      endRow: merge.endRow,
      startCol: merge.startColumn,
      endCol: merge.endColumn,
    })),
    ...(xSplit > 0 || ySplit > 0 ? { freezePane: { rows: ySplit, columns: xSplit } } : {}),
    view: {
      showGridLines: sheet.showGridlines !== 0,
      ...(sheet.rightToLeft === 1 ? { rightToLeft: true } : {}),
      ...(tabColor === undefined ? {} : { tabColor }),
    },
    hidden: sheet.hidden === 1,
  };
}

export function eachCell(
  sheet: Partial<IWorksheetData>,
  visit: (row: number, column: number, cell: ICellData) => void,
): void {
  for (const [row, line] of Object.entries(sheet.cellData ?? {}) as [string, Record<string, Nullable<ICellData>>][]) {
    for (const [column, cell] of Object.entries(line ?? {})) if (cell) visit(Number(row), Number(column), cell);
  }
}

function plainValue(cell: ICellData): CellValue {
  if (cell.v === null || cell.v === undefined) return null;
  if (cell.t === BOOLEAN) return cell.v === 1 || cell.v === true || cell.v === '1' || cell.v === 'TRUE';
  return cell.v;
}

function typeOf(value: CellValue): FileCell['type'] {
  if (typeof value === 'number') return 'number';
  if (typeof value === 'boolean') return 'boolean';
  return typeof value === 'string' ? 'string' : 'empty';
}
