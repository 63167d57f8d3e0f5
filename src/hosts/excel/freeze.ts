import { type Block, parseBlock } from '../../workbook/address.ts';
import { callsOurs } from '../../workbook/prefixes.ts';
import { splitAddress } from './addresses.ts';
import { formulaCells, sheetsIn } from './formula-cells.ts';

/**
 * Replaces our formulas on the active sheet by the values that they show; returns how many formulas. A spilled table is
 * replaced as a whole: its cells are values of the formula at its corner and have none of their own.
 */
export async function freezeFormulas(context: Excel.RequestContext): Promise<number> {
  const [sheet] = await sheetsIn(context, 'sheet');
  if (sheet === undefined) return 0;
  const ours = (await formulaCells(context, sheet, 'all')).filter((cell) => callsOurs(cell.formula));
  const spills = ours.map((cell) => sheet.getCell(cell.row, cell.column).getSpillingToRangeOrNullObject());
  for (const spill of spills) spill.load('isNullObject,address');
  await context.sync();

  const filled: Block[] = [];
  let count = 0;
  for (const spill of spills) {
    if (spill.isNullObject) continue;
    const block = parseBlock(splitAddress(spill.address).cells);
    if (block !== undefined) filled.push(block);
    spill.copyFrom(spill, Excel.RangeCopyType.values);
    count += 1;
  }
  ours.forEach((cell, index) => {
    if (spills[index]?.isNullObject !== true || filled.some((block) => isIn(block, cell.row, cell.column))) return;
    const range = sheet.getCell(cell.row, cell.column);
    range.copyFrom(range, Excel.RangeCopyType.values);
    count += 1;
  });
  await context.sync();
  return count;
}

function isIn(block: Block, row: number, column: number): boolean {
  return row >= block.startRow && row <= block.endRow && column >= block.startColumn && column <= block.endColumn;
}
