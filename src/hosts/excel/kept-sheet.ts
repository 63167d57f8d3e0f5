import { KEPT_SHEET, type KeptFormula, keptRows, readKept } from '../../pane/kept.ts';
import { blockName } from '../../workbook/address.ts';

/** The formulas that a workbook keeps; none without the sheet. */
export async function readKeptSheet(context: Excel.RequestContext): Promise<readonly KeptFormula[]> {
  const sheet = context.workbook.worksheets.getItemOrNullObject(KEPT_SHEET);
  sheet.load('isNullObject');
  await context.sync();
  if (sheet.isNullObject) return [];
  const used = sheet.getUsedRangeOrNullObject(true);
  used.load('isNullObject,values');
  await context.sync();
  return used.isNullObject ? [] : readKept(used.values);
}

/** Writes the sheet anew; without a formula left it goes. */
export async function writeKeptSheet(context: Excel.RequestContext, kept: readonly KeptFormula[]): Promise<void> {
  const { worksheets } = context.workbook;
  const old = worksheets.getItemOrNullObject(KEPT_SHEET);
  old.load('isNullObject');
  await context.sync();
  const rows = keptRows([], kept);
  if (rows.length <= 1) {
    if (!old.isNullObject) old.delete();
    await context.sync();
    return;
  }
  const sheet = old.isNullObject ? worksheets.add(KEPT_SHEET) : old;
  if (!old.isNullObject) sheet.getRange().clear();
  const whole = { startRow: 0, startColumn: 0, endRow: rows.length - 1, endColumn: (rows[0]?.length ?? 1) - 1 };
  // The mark keeps text that begins with = from being a formula.
  sheet.getRange(blockName(whole)).formulas = rows.map((row) => row.map((text) => (text === '' ? '' : `'${text}`)));
  await context.sync();
}
