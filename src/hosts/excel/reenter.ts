import { asTyped, callsOurs } from '../../workbook/prefixes.ts';
import { formulaCells, sheetsIn } from './formula-cells.ts';

const NAME_ERROR = '#NAME?';

/** Enters our formulas again that were calculated before the functions were there; returns how many. */
export async function reenterFormulas(context: Excel.RequestContext): Promise<number> {
  let count = 0;
  for (const sheet of await sheetsIn(context, 'workbook')) {
    for (const cell of await formulaCells(context, sheet, 'errors')) {
      if (cell.value !== NAME_ERROR || !callsOurs(cell.formula)) continue;
      sheet.getCell(cell.row, cell.column).formulas = [[asTyped(cell.formula)]];
      count += 1;
    }
  }
  await context.sync();
  return count;
}
