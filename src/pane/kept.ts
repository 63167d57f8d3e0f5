import { type Cell, type CellRange, isBlank } from '../tables/cells.ts';

/**
 * The sheet on which a workbook keeps the formulas that were frozen to values: one row a formula, as text, so that the
 * workbook itself has what is needed to put them back.
 */
export const KEPT_SHEET = 'Formulas kept';
export const KEPT_HEADER = ['Sheet', 'Cell', 'Fills', 'Formula'] as const;

export interface KeptFormula {
  readonly sheet: string;
  /** corner, e.g. B4 */
  readonly cell: string;
  /** all that it fills, e.g. B4:D9 */
  readonly fills: string;
  /** as typed, with its = */
  readonly formula: string;
}

/** Reads the rows below the header; rows that are not whole are passed over. */
export function readKept(cells: CellRange): readonly KeptFormula[] {
  return cells.slice(1).flatMap((row) => {
    const [sheet = '', cell = '', fills = '', formula = ''] = row.slice(0, KEPT_HEADER.length).map(plainText);
    return sheet === '' || cell === '' || !formula.startsWith('=')
      ? []
      : [{ sheet, cell, fills: fills || cell, formula }];
  });
}

/** Rows for the sheet, header first. A formula of the same cell takes the place of the one kept before. */
export function keptRows(before: readonly KeptFormula[], added: readonly KeptFormula[]): readonly string[][] {
  const place = ({ sheet, cell }: KeptFormula) => `${sheet}!${cell}`.toLowerCase();
  const fresh = new Set(added.map(place));
  return [
    [...KEPT_HEADER],
    ...[...before.filter((kept) => !fresh.has(place(kept))), ...added].map(({ sheet, cell, fills, formula }) => [
      sheet,
      cell,
      fills,
      formula,
    ]),
  ];
}

function plainText(cell: Cell): string {
  return isBlank(cell) ? '' : String(cell).replace(/^'/, '').trim();
}
