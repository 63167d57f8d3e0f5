import type { ICellData } from '@univerjs/core';
import type { Block, Spot } from '../../../workbook/address.ts';
import type { Grid } from './grid.ts';

/** A cell that holds nothing of its own and shows a part of the result of a formula in another cell. */
export interface FilledCell extends Spot {
  readonly from: Spot;
  readonly value: Pick<ICellData, 'v' | 't'>;
}

/** By row and column: what the library keeps of results that fill more than the cell of their formula. */
type Rows<T> = Readonly<Record<string, Readonly<Record<string, T | null | undefined>> | null | undefined>>;

/** The cells of a block that formulas in other cells fill. */
export function filledCells({ api, formulas }: Grid, unitId: string, sheetId: string, block: Block): FilledCell[] {
  const own = api.getUniverSheet(unitId)?.getSheetBySheetId(sheetId)?.getSheet().getCellMatrix();
  const ranges = (formulas.getArrayFormulaRange()[unitId]?.[sheetId] ?? {}) as Rows<Block>;
  const values = (formulas.getArrayFormulaCellData()[unitId]?.[sheetId] ?? {}) as Rows<ICellData>;
  return blocksOf(ranges).flatMap(({ from, range }) => {
    // without room it fills nothing: what is there is of others
    if (own?.getValue(from.row, from.column)?.v === '#SPILL!') return [];
    return spotsOf(common(range, block)).flatMap(({ row, column }) => {
      const { v, t } = values[row]?.[column] ?? {};
      const isFirst = row === from.row && column === from.column;
      if (isFirst || v == null || v === '' || own?.getValue(row, column)?.v != null) return [];
      return [{ row, column, from, value: { v, t } }];
    });
  });
}

export const isWithin = ({ row, column }: Spot, { startRow, endRow, startColumn, endColumn }: Block): boolean =>
  row >= startRow && row <= endRow && column >= startColumn && column <= endColumn;

const blocksOf = (ranges: Rows<Block>): { readonly from: Spot; readonly range: Block }[] =>
  Object.entries(ranges).flatMap(([row, columns]) =>
    Object.entries(columns ?? {}).flatMap(([column, range]) =>
      range ? [{ from: { row: Number(row), column: Number(column) }, range }] : [],
    ),
  );

const common = (one: Block, other: Block): Block => ({
  startRow: Math.max(one.startRow, other.startRow),
  endRow: Math.min(one.endRow, other.endRow),
  startColumn: Math.max(one.startColumn, other.startColumn),
  endColumn: Math.min(one.endColumn, other.endColumn),
});

function spotsOf({ startRow, endRow, startColumn, endColumn }: Block): Spot[] {
  const spots: Spot[] = [];
  for (let row = startRow; row <= endRow; row++)
    for (let column = startColumn; column <= endColumn; column++) spots.push({ row, column });
  return spots;
}
