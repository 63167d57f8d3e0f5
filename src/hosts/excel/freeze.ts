import { frozenValue, type KeptFormula, keptRows, type Restored, readKept, whyLeft } from '../../pane/kept.ts';
import { type Block, parseBlock, spotName } from '../../workbook/address.ts';
import { asTyped, callsOurs } from '../../workbook/prefixes.ts';
import { splitAddress } from './addresses.ts';
import { cellOf } from './cell-blocks.ts';
import { type FormulaCell, formulaCells, sheetsIn } from './formula-cells.ts';
import { readKeptSheet, writeKeptSheet } from './kept-sheet.ts';

/**
 * Replaces our formulas on the active sheet by the values that they show; returns how many formulas. A spilled table is
 * replaced as a whole: its cells are values of the formula at its corner and have none of their own. The formulas are kept
 * on a sheet of their own.
 */
export async function freezeFormulas(context: Excel.RequestContext): Promise<number> {
  const [sheet] = await sheetsIn(context, 'sheet');
  if (sheet === undefined) return 0;
  const ours = (await formulaCells(context, sheet, 'all')).filter((cell) => callsOurs(cell.formula));
  const spills = ours.map((cell) => sheet.getCell(cell.row, cell.column).getSpillingToRangeOrNullObject());
  for (const spill of spills) spill.load('isNullObject,address,values');
  await context.sync();

  const filled: Block[] = [];
  const going: { readonly range: Excel.Range; readonly kept: KeptFormula }[] = [];
  ours.forEach((cell, index) => {
    const spill = spills[index];
    if (spill === undefined || spill.isNullObject) return;
    const { cells } = splitAddress(spill.address);
    const block = parseBlock(cells);
    if (block !== undefined) filled.push(block);
    going.push({ range: spill, kept: keptOf(cell, spill.values, cells) });
  });
  ours.forEach((cell, index) => {
    if (spills[index]?.isNullObject !== true || filled.some((block) => isIn(block, cell.row, cell.column))) return;
    going.push({ range: sheet.getCell(cell.row, cell.column), kept: keptOf(cell, [[cell.value]]) });
  });
  if (going.length === 0) return 0;
  // Kept before the first one goes: what fails half-way has lost nothing.
  const added = going.map(({ kept }) => kept);
  await writeKeptSheet(context, readKept(keptRows(await readKeptSheet(context), added)));
  for (const { range } of going) range.copyFrom(range, Excel.RangeCopyType.values);
  await context.sync();
  return going.length;
}

/**
 * Puts back the formulas that were kept of the active sheet, over the values that stood in for them. One whose cells hold
 * something else by now stays on the list, and they stay as they are: rows may have come or gone since, or entries.
 */
export async function restoreFormulas(context: Excel.RequestContext): Promise<Restored> {
  const [sheet] = await sheetsIn(context, 'sheet');
  if (sheet === undefined) return { count: 0, left: [] };
  const all = await readKeptSheet(context);
  const name = sheet.name.toLowerCase();
  const mine = all
    .filter((kept) => kept.sheet.toLowerCase() === name)
    .map((kept) => ({ kept, range: parseBlock(kept.fills) && sheet.getRange(kept.fills) }));
  for (const { range } of mine) range?.load('values,formulas');
  await context.sync();
  // All are compared before the first one comes back: what it fills is no change of the others.
  const compared = mine.map(({ kept, range }) => ({ kept, why: whyNot(kept, range) }));
  const back = compared.flatMap(({ kept, why }) => (why === undefined ? [kept] : []));
  for (const { cell, fills, formula } of back) {
    // A formula fills blank cells only.
    sheet.getRange(fills).clear(Excel.ClearApplyTo.contents);
    sheet.getRange(cell).formulas = [[formula]];
  }
  if (back.length > 0)
    await writeKeptSheet(
      context,
      all.filter((kept) => !back.includes(kept)),
    );
  const left = compared.flatMap(({ kept, why }) => (why === undefined ? [] : [{ cell: kept.cell, why }]));
  return { count: back.length, left };
}

function whyNot(kept: KeptFormula, range: Excel.Range | undefined): string | undefined {
  const now = range?.values.map((line: readonly unknown[]) => line.map(cellOf));
  const formulas: readonly (readonly unknown[])[] = range?.formulas ?? [];
  return whyLeft(kept, now, (down, across) => String(formulas[down]?.[across] ?? '').startsWith('='));
}

function keptOf(cell: FormulaCell, values: readonly (readonly unknown[])[], fills?: string): KeptFormula {
  const corner = spotName(cell.row, cell.column);
  return {
    sheet: cell.sheet,
    cell: corner,
    fills: fills ?? corner,
    formula: asTyped(cell.formula),
    values: values.map((line) => line.map((value) => frozenValue(cellOf(value)))),
  };
}

function isIn(block: Block, row: number, column: number): boolean {
  return row >= block.startRow && row <= block.endRow && column >= block.startColumn && column <= block.endColumn;
}
