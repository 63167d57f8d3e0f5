import { cellAddress } from './addresses.ts';

/** A cell with a formula, as Excel shows it. */
export interface FormulaCell {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  readonly address: string;
  readonly formula: string;
  readonly value: unknown;
}

/** Which sheets to look through. */
export async function sheetsIn(
  context: Excel.RequestContext,
  scope: 'sheet' | 'workbook',
): Promise<readonly Excel.Worksheet[]> {
  if (scope === 'sheet') {
    const sheet = context.workbook.worksheets.getActiveWorksheet();
    sheet.load('name');
    await context.sync();
    return [sheet];
  }
  const { worksheets } = context.workbook;
  worksheets.load('items/name');
  await context.sync();
  return worksheets.items;
}

/**
 * Cells of a sheet whose formulas end in a value of the wanted kind. Excel finds them; only they are carried over, so a
 * large sheet costs no more than its formulas.
 */
export async function formulaCells(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  kind: 'errors' | 'all',
): Promise<readonly FormulaCell[]> {
  const everywhere = sheet.getRange();
  const found =
    kind === 'errors'
      ? everywhere.getSpecialCellsOrNullObject(Excel.SpecialCellType.formulas, Excel.SpecialCellValueType.errors)
      : everywhere.getSpecialCellsOrNullObject(Excel.SpecialCellType.formulas);
  found.load('isNullObject');
  await context.sync();
  if (found.isNullObject) return [];
  found.areas.load('items/formulas,items/values,items/rowIndex,items/columnIndex');
  await context.sync();
  return found.areas.items.flatMap((area) => cellsOf(sheet.name, area));
}

type Area = Pick<Excel.Range, 'formulas' | 'values' | 'rowIndex' | 'columnIndex'>;

function cellsOf(sheet: string, area: Area): readonly FormulaCell[] {
  const cells: FormulaCell[] = [];
  area.formulas.forEach((line: readonly unknown[], down: number) => {
    line.forEach((formula, across) => {
      const [row, column] = [area.rowIndex + down, area.columnIndex + across];
      if (typeof formula !== 'string' || !formula.startsWith('=')) return;
      const value: unknown = area.values[down]?.[across];
      cells.push({ sheet, row, column, address: cellAddress(sheet, row, column), formula, value });
    });
  });
  return cells;
}
