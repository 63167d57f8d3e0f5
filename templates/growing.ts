import { DEEPEST, orFault, spilledCells, spilledColumn } from './spilled.ts';

/** Words in place of a figure over a table that is longer than formulas read. */
const NO_TOTAL = '"no total"';

/** A table that has a row or more for each row of Units, as the formulas over it see it. */
export interface GrowingTable {
  /** its columns, from the first row under the header on */
  cells(name: string): string;
  /** a figure over it: its error where it is one, words where it is longer than formulas read, since no sum over a part is shown */
  figure(formula: string): string;
  /** place of one of the rows below those of the users; blank where the table is an error, so that nothing is drawn of it */
  place(formula: string): string;
  /** what stands beside the figures: why there are none, else what they are `without`; blank where all rows count */
  told(without: string): string;
}

/**
 * @param words column that says why a row has no answer: every row of the table has a cell from the first to that one
 * @param room formula of as many rows as the table can have, where that is known: the rest of the range is not read then
 */
export function growingTable(
  id: string,
  headerRow: number,
  words: string,
  { deepest = DEEPEST, room }: { readonly deepest?: number; readonly room?: string } = {},
): GrowingTable {
  const firstRow = headerRow + 1;
  const cells = (name: string): string => {
    const column = spilledColumn(id, name);
    const all = spilledCells(column, firstRow, deepest);
    return room === undefined ? all : `$${column}$${firstRow}:INDEX(${all},MIN(${room},${deepest - headerRow}))`;
  };
  const table = `$A$${headerRow}`;
  // one row tells, since below the table nothing stands; as a range, which may lie below the last row of the sheet
  const below = `$A$${deepest + 1}:$${spilledColumn(id, words)}$${deepest + 1}`;
  const goesOn = `COUNTA(${below})>0`;
  const rows = `ROWS(${spilledCells('A', firstRow, deepest)})`;
  return {
    cells,
    figure: (formula) => orFault(table, `IF(${goesOn},${NO_TOTAL},${formula})`),
    place: (formula) => `IF(ISERROR(${table}),"",IF(${goesOn},${rows}+1,${formula}))`,
    told: (without) =>
      `IF(ISERROR(${table}),"no totals: see the error of the table",IF(${goesOn},` +
      `"no totals of over "&${rows}&" rows: join equal units or split the project; see row "&ROW(${below}),${without}))`,
  };
}

/** "without 2 rows that could not be worked out: see Verdict"; blank for none. `count` gives how many. */
export function withoutRows(count: string, see: string): string {
  return `IF(${count}=0,"","without "&${count}&IF(${count}=1," row"," rows")&" that could not be worked out: ${see}")`;
}
