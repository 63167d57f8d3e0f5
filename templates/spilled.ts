import type { CellFunction } from '../src/functions/define.ts';
import { functions } from '../src/functions/index.ts';
import type { ModelCell, ModelValue } from '../src/workbook/model.ts';
import { letter, spareRows } from './layout.ts';

/** Columns of the tables that functions spill, taken from their declarations so that no position is typed twice. */
function columnsOf(id: string): readonly string[] {
  const found: CellFunction | undefined = functions.find((one) => one.id === id);
  if (found?.result.kind !== 'table' || found.result.columns === undefined)
    throw new Error(`${id} declares no columns to refer to`);
  return found.result.columns.map(({ name }) => name);
}

/** How many columns the function spills. */
export function widthOf(id: string): number {
  return columnsOf(id).length;
}

/** Position of a column in the table that the function spills. */
export function columnIndex(id: string, name: string): number {
  const index = columnsOf(id).indexOf(name);
  if (index < 0) throw new Error(`${id} spills no column called ${name}`);
  return index;
}

/** Letter of a column of the table that the function spills from column A on. */
export function spilledColumn(id: string, name: string): string {
  return letter(columnIndex(id, name));
}

/**
 * Last row that formulas read of a table that spills: it grows with people's own rows, further than its looks go. Every row is
 * read at each change, so no further than projects go.
 */
export const DEEPEST = 1_000;

/** A column of a table that spills, from its first row under the header on: "$B$11:$B$1000". */
export function spilledCells(column: string, firstRow: number, deepest = DEEPEST): string {
  return `$${column}$${firstRow}:$${column}$${deepest}`;
}

/** A formula over a table that spills; where the table is an error, that error, since a sum over nothing would be 0. */
export function orFault(table: string, formula: string): string {
  return `IF(ISERROR(${table}),${table},${formula})`;
}

/** Looks of the columns of a spilled table: a number format for each that `formats` names, hours and the like for the rest. */
export function spilledLooks(id: string, formats: Readonly<Record<string, string>>, usual = '#,##0.0') {
  return columnsOf(id).map((name) => ({ look: 'formula' as const, format: formats[name] ?? usual }));
}

/**
 * Place of the last of the cells that hold a text. The rows that functions put below those of the users, such as Total,
 * are found from the end, since a user's row may have the same name. By functions that every spreadsheet program has.
 */
export function lastPlace(text: string, column: string, firstRow: number): string {
  const cells = spilledCells(column, firstRow);
  const ofSeveral = `SUMPRODUCT(MAX((${cells}="${text}")*(ROW(${cells})-ROW($${column}$${firstRow - 1}))))`;
  // nearly always there is one, which is found in a third of the time
  return `IF(COUNTIF(${cells},"${text}")=1,MATCH("${text}",${cells},0),${ofSeveral})`;
}

/** Cells as a chart draws them: nothing where a row has no answer. */
export const drawnNumbers = (found: string): string => `IF(ISNUMBER(${found}),${found},"")`;

/**
 * What a chart draws of a table that spills, beside it: the first rows of some of its columns, one formula a column, and blanks from
 * the row on that functions put below those of the users. A curve's points go on with its last one in place of blanks: programs
 * count the points of a curve where one of them is no number.
 *
 * @param at place of the first column of what is drawn
 * @param room how many rows the chart has room for
 * @param end cell with the place of the first row that is not drawn
 * @param shown what each column shows of a range of the table
 * @param curve whether the rows are points of a curve
 */
export function drawnRows(
  at: number,
  firstRow: number,
  room: number,
  end: string,
  shown: readonly (readonly [column: string, shows: (cells: string) => string])[],
  curve = false,
): (ModelCell | ModelValue)[][] {
  const lastRow = firstRow + room - 1;
  const cellsOf = (column: string): string => spilledCells(column, firstRow, lastRow);
  const place = `ROW(${cellsOf('A')})-ROW($A$${firstRow - 1})`;
  const formulas = shown.map(([column, shows], index): ModelCell => {
    const own = letter(at + index);
    const after = curve ? shows(`INDEX(${spilledCells(column, firstRow)},${end}-1)`) : '""';
    return {
      formula: `=IF(ISNUMBER(${end}),IF(${place}<${end},${shows(cellsOf(column))},${after}),"")`,
      spills: `${own}${firstRow}:${own}${lastRow}`,
    };
  });
  return [formulas, ...spareRows(shown.length, room - 1)];
}
