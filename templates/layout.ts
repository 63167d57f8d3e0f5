import type { ModelCell, ModelPrint, ModelValue } from '../src/workbook/model.ts';

/** Where things stand on the sheets: the one place that other sheets and the defined names take addresses from. */
export interface TableSpot {
  readonly sheet: string;
  /** row of the header, from 1 */
  readonly headerRow: number;
  readonly columns: number;
  /** last row of the range, spare rows included */
  readonly lastRow: number;
}

export function letter(column: number): string {
  return column < 26
    ? String.fromCharCode(65 + column)
    : letter(Math.floor(column / 26) - 1) + String.fromCharCode(65 + (column % 26));
}

function quoted(sheet: string): string {
  return sheet.includes(' ') ? `'${sheet}'` : sheet;
}

/** "Units!$A$4:$H$40" */
export function rangeOf({ sheet, headerRow, columns, lastRow }: TableSpot): string {
  return `${quoted(sheet)}!$A$${headerRow}:$${letter(columns - 1)}$${lastRow}`;
}

/** One column of a table without its header: "Units!$D$5:$D$40". */
export function columnOf(spot: TableSpot, column: number): string {
  const name = letter(column);
  return `${quoted(spot.sheet)}!$${name}$${spot.headerRow + 1}:$${name}$${spot.lastRow}`;
}

/**
 * A sheet on lying A4, as wide as the paper.
 *
 * @param headerRow row, from 1, that each page repeats
 */
export function printed(more: Omit<ModelPrint, 'repeatRows'> & { readonly headerRow?: number } = {}): ModelPrint {
  const { headerRow, ...rest } = more;
  const repeated = headerRow === undefined ? {} : { repeatRows: `${headerRow}:${headerRow}` };
  return { paper: 'a4', landscape: true, fitWidth: true, ...repeated, ...rest };
}

/** Last row that is looked at for rows that stand below a table. */
const DEEPEST = 1_000;

/**
 * Says that something stands below a table whose rows count only down to its last one; blank when all is well. Counted
 * from the header, which nobody deletes: the reference and the defined name of the table grow by the same rows.
 * @param otherwise formula of what the cell says when all is well
 */
export function rowsBelow(name: string, { headerRow, columns }: TableSpot, otherwise = '""'): ModelCell {
  const all = `$A$${headerRow}:$${letter(columns - 1)}$${DEEPEST}`;
  const last = `ROW($A$${headerRow})+ROWS(${name})-1`;
  return {
    formula: `=IF(COUNTA(${all})>COUNTA(${name}),"Rows below row "&${last}&" do not count: insert rows above it",${otherwise})`,
    look: 'formula',
  };
}

/** Formula of the last line of CHECK about a table, with its row on the sheet; blank where no fault and no note is found. */
export function lastRemark(name: string, kind: string, { headerRow }: TableSpot): string {
  const [row, words] = [1, 3].map((column) => `INDEX(found,ROWS(found),${column})`);
  return `LET(found,NARROWS.CHECK(${name},"${kind}"),IF(${row}="","","Row "&(${row}+ROW($A$${headerRow})-1)&": "&${words}))`;
}

/** Blank input cells under a table, so that rows can be added without touching the defined name. */
export function spareRows(columns: number, rows: number): (ModelCell | ModelValue)[][] {
  return Array.from({ length: rows }, () => Array.from({ length: columns }, () => null));
}
