import { afterEach, describe, expect, it } from 'vitest';
import { excelSeparators } from '../../src/hosts/excel/separators.ts';
import { localFormula, PLAIN_SEPARATORS } from '../../src/pane/separators.ts';
import { emptyWorkbook, installMock, type MockWorkbook } from './mock-workbook.ts';

const FORMULA = '=F({1.5,2},3)';
let remove = () => {};
afterEach(() => {
  remove();
  Reflect.deleteProperty(globalThis, 'Office');
});

/** An Excel that writes numbers so, and whether it can say how. */
function excel(writes: Partial<MockWorkbook['writes']>, says = true): void {
  const book = emptyWorkbook();
  Object.assign(book.writes, writes);
  remove = installMock(book);
  const isSetSupported = (set: string, version: string) => says && set === 'ExcelApi' && Number(version) <= 1.12;
  Object.assign(globalThis, { Office: { context: { requirements: { isSetSupported } } } });
}

describe('the separators of Excel', () => {
  it('are those of the system, in English Office on a German machine too', async () => {
    excel({ systemDecimal: ',', culture: 'de-DE' });
    expect(localFormula(FORMULA, await excelSeparators('en-US'))).toBe('=F({1,5.2};3)');
  });

  it('are plain in German Office on a machine that writes 1.5', async () => {
    excel({ systemDecimal: '.', culture: 'en-GB' });
    expect(await excelSeparators('de-DE')).toEqual(PLAIN_SEPARATORS);
  });

  it('are those that a person has set in Excel instead of the system’s', async () => {
    excel({ system: false, decimal: ',', systemDecimal: '.', culture: 'en-US' });
    expect((await excelSeparators('en-US')).argument).toBe(';');
    remove();
    excel({ system: false, decimal: '.', systemDecimal: ',', culture: 'de-DE' });
    expect(await excelSeparators('de-DE')).toEqual(PLAIN_SEPARATORS);
  });

  it('go by the language where Excel cannot say', async () => {
    excel({ systemDecimal: '.', culture: 'en-US' }, false);
    expect((await excelSeparators('de-DE')).argument).toBe(';');
    Object.assign(globalThis, { Excel: { run: () => Promise.reject(new Error('a cell is being edited')) } });
    expect((await excelSeparators('fr-FR')).decimal).toBe(',');
  });
});
