import type { CellBlock } from '../../pane/host.ts';
import type { Cell } from '../../tables/cells.ts';
import { splitAddress } from './addresses.ts';

/** An error shows as its code. */
const ERROR = /^#(?:[A-Z/0]+[!?]|N\/A|GETTING_DATA)$/;

/** The cells that a defined name or an address stands for; undefined where the workbook has neither. */
export async function blockNamed(context: Excel.RequestContext, reference: string): Promise<CellBlock | undefined> {
  const { workbook } = context;
  if (!reference.includes('!')) {
    const name = workbook.names.getItemOrNullObject(reference);
    name.load('isNullObject');
    await context.sync();
    if (name.isNullObject) return undefined;
    return blockOf(context, name.getRangeOrNullObject());
  }
  const { sheet, cells } = splitAddress(reference);
  const worksheet = workbook.worksheets.getItemOrNullObject(sheet);
  worksheet.load('isNullObject');
  await context.sync();
  if (worksheet.isNullObject) return undefined;
  return blockOf(context, worksheet.getRange(cells));
}

/** What the filled cells of the selected row show. */
export function selectedRow(context: Excel.RequestContext): Promise<CellBlock | undefined> {
  return blockOf(context, context.workbook.getActiveCell().getEntireRow());
}

/** Only the filled part is carried over: whole rows and columns are long. */
async function blockOf(context: Excel.RequestContext, range: Excel.Range): Promise<CellBlock | undefined> {
  range.load('isNullObject');
  await context.sync();
  if (range.isNullObject) return undefined;
  const used = range.getUsedRangeOrNullObject(true);
  used.load('isNullObject,values,rowIndex,columnIndex');
  used.worksheet.load('name');
  await context.sync();
  if (used.isNullObject) return undefined;
  return {
    sheet: used.worksheet.name,
    row: used.rowIndex,
    column: used.columnIndex,
    cells: used.values.map((line: readonly unknown[]) => line.map(cellOf)),
  };
}

/** A value as Excel hands it to the pane, as a cell of ours. */
export function cellOf(value: unknown): Cell {
  if (typeof value === 'string') return ERROR.test(value) ? { error: value } : value;
  return typeof value === 'number' || typeof value === 'boolean' ? value : null;
}
