import { wordsFor } from '../../calc/words.ts';
import type { CellFault } from '../../pane/host.ts';
import { callsOurs } from '../../workbook/prefixes.ts';
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

function faultOf({ address, formula, value }: FormulaCell): CellFault {
  const code = String(value);
  const said = callsOurs(formula) ? recall(address) : undefined;
  // Words of an earlier calculation do not explain today's error.
  return { address, formula, code, message: said?.code === code ? said.message : wordsFor(code) };
}
