import { wordsFor } from '../../calc/words.ts';
import type { CellFault } from '../../pane/host.ts';
import { isCellError } from '../../tables/cells.ts';
import { callsOurs } from '../../workbook/prefixes.ts';
import { cellAddress, splitAddress } from './addresses.ts';
import { cellOf } from './cell-blocks.ts';
import { type FormulaCell, formulaCells, sheetsIn } from './formula-cells.ts';
import { recall } from './messages.ts';

/** Every formula that ends in an error, with the words that its functions had for it, or plain words for the code. */
export async function findFaults(
  context: Excel.RequestContext,
  scope: 'sheet' | 'workbook',
): Promise<readonly CellFault[]> {
  const faults: CellFault[] = [];
  for (const sheet of await sheetsIn(context, scope)) {
    for (const cell of await formulaCells(context, sheet, 'errors')) faults.push(faultOf(cell));
  }
  return faults;
}

/** What is wrong in one cell, if it shows an error. */
export async function faultIn(context: Excel.RequestContext, address: string): Promise<CellFault | undefined> {
  const { sheet, cells } = splitAddress(address);
  const range = context.workbook.worksheets.getItem(sheet).getRange(cells);
  range.load('formulas,values,rowIndex,columnIndex');
  await context.sync();
  const value: unknown = range.values[0]?.[0];
  if (!isCellError(cellOf(value))) return undefined;
  const held = String(range.formulas[0]?.[0] ?? '');
  const [row, column] = [range.rowIndex, range.columnIndex];
  // an error that was typed in has no formula
  const formula = held.startsWith('=') ? held : '';
  return faultOf({ sheet, row, column, address: cellAddress(sheet, row, column), formula, value });
}

function faultOf({ address, formula, value }: FormulaCell): CellFault {
  const code = String(value);
  const said = callsOurs(formula) ? recall(address) : undefined;
  // Words of an earlier calculation do not explain today's error.
  return { address, formula, code, message: said?.code === code ? said.message : wordsFor(code) };
}
