import { type Separators, separatorsFor, separatorsOf } from '../../pane/separators.ts';

/**
 * How formulas are typed in this Excel: by its own decimal separator, which is the system's unless a person has set another
 * one. The language of Office says nothing of it: English Office runs on machines that write 1,5.
 *
 * @param language of the workbook, such as de-DE: what is left to go by where Excel does not say
 */
export async function excelSeparators(language: string | undefined): Promise<Separators> {
  if (!Office.context.requirements.isSetSupported('ExcelApi', '1.11')) return separatorsOf(language);
  try {
    return await Excel.run(async (context) => {
      const { application } = context;
      application.load('decimalSeparator,useSystemSeparators');
      application.cultureInfo.load('name');
      application.cultureInfo.numberFormat.load('numberDecimalSeparator');
      await context.sync();
      const { name, numberFormat } = application.cultureInfo;
      const decimal = application.useSystemSeparators
        ? numberFormat.numberDecimalSeparator
        : application.decimalSeparator;
      return separatorsFor(decimal, name);
    });
  } catch {
    return separatorsOf(language);
  }
}
