import type { ModelNumberRule, ModelSheet, ModelValidation } from '../../workbook/model.ts';

/** Lengths that Excel takes for the words at a cell (general knowledge of the program, from memory). */
const MOST_TITLE = 32;
const MOST_MESSAGE = 255;

/** What may be typed into the sheet's input cells, with the words shown there. */
export function applyRules(target: Excel.Worksheet, sheet: ModelSheet): void {
  for (const rule of sheet.validations ?? []) {
    const source = typeof rule.list === 'string' ? rule.list : rule.list.join(',');
    set(target, rule, { list: { inCellDropDown: true, source } }, rule);
  }
  for (const rule of sheet.numberRules ?? []) {
    const decimal = numberRule(rule);
    if (decimal !== undefined) set(target, rule, { decimal }, {});
  }
}

function numberRule({ least, most }: ModelNumberRule): Excel.BasicDataValidation | undefined {
  if (least !== undefined && most !== undefined) {
    return { formula1: least, formula2: most, operator: Excel.DataValidationOperator.between };
  }
  if (least !== undefined) return { formula1: least, operator: Excel.DataValidationOperator.greaterThanOrEqualTo };
  if (most !== undefined) return { formula1: most, operator: Excel.DataValidationOperator.lessThanOrEqualTo };
  return undefined;
}

function set(
  target: Excel.Worksheet,
  words: Pick<ModelValidation, 'range' | 'title' | 'message'>,
  rule: Excel.DataValidationRule,
  { strict, free }: Pick<ModelValidation, 'strict' | 'free'>,
): void {
  const validation = target.getRange(words.range).dataValidation;
  validation.rule = rule;
  const title = (words.title ?? '').slice(0, MOST_TITLE);
  const message = (words.message ?? '').slice(0, MOST_MESSAGE);
  if (title === '' && message === '') return;
  validation.prompt = { showPrompt: true, title, message };
  const style = strict === true ? Excel.DataValidationAlertStyle.stop : Excel.DataValidationAlertStyle.warning;
  validation.errorAlert = { showAlert: free !== true, title, message, style };
}
