import type { ModelSheet, WorkbookModel } from '../../workbook/model.ts';
import { splitAddress } from './addresses.ts';
import { applyFinish } from './apply-finish.ts';
import { addCharts } from './sheet-charts.ts';
import { applyFrame } from './sheet-frame.ts';
import { planSheet } from './sheet-plan.ts';
import { applyRules } from './sheet-rules.ts';

export interface AddedSheets {
  readonly added: readonly string[];
  readonly skipped: readonly string[];
}

/**
 * Adds the model's sheets to the open workbook. A sheet whose name is taken is left alone and named in `skipped`; so is a
 * defined name that exists. All sheets and names are there before the first formula is written, since formulas refer to
 * both.
 */
export async function addSheets(context: Excel.RequestContext, model: WorkbookModel): Promise<AddedSheets> {
  const { names, worksheets } = context.workbook;
  const present = model.sheets.map((sheet) => worksheets.getItemOrNullObject(sheet.name));
  const known = (model.names ?? []).map((entry) => names.getItemOrNullObject(entry.name));
  for (const entry of [...present, ...known]) entry.load('isNullObject');
  await context.sync();

  const fresh = model.sheets.filter((_, index) => present[index]?.isNullObject === true);
  const skipped = model.sheets.filter((_, index) => present[index]?.isNullObject !== true).map((sheet) => sheet.name);
  const targets = new Map(fresh.map((sheet) => [sheet.name, worksheets.add(sheet.name)]));
  await context.sync();
  (model.names ?? []).forEach((entry, index) => {
    const isThere = known[index]?.isNullObject !== true;
    if (!isThere && targets.has(splitAddress(entry.range).sheet)) {
      names.add(entry.name, `=${entry.range}`, entry.comment ?? '');
    }
  });
  await context.sync();

  for (const sheet of fresh) {
    const target = targets.get(sheet.name);
    if (target === undefined) continue;
    fill(context, target, sheet);
    await context.sync();
  }
  const [first] = fresh;
  if (first !== undefined) targets.get(first.name)?.activate();
  await context.sync();
  return { added: fresh.map((sheet) => sheet.name), skipped };
}

function fill(context: Excel.RequestContext, target: Excel.Worksheet, sheet: ModelSheet): void {
  context.application.suspendApiCalculationUntilNextSync();
  const { finishes, writes } = planSheet(sheet);
  for (const { columns, finish, range, rows } of finishes) applyFinish(target.getRange(range), finish, rows, columns);
  for (const { entries, range } of writes) target.getRange(range).formulas = entries.map((row) => [...row]);
  applyFrame(target, sheet);
  applyRules(target, sheet);
  addCharts(context, target, sheet);
  if (sheet.hidden === true) target.visibility = Excel.SheetVisibility.hidden;
}
