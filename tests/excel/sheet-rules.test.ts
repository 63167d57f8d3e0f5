import { afterAll, beforeAll, expect, it } from 'vitest';
import { applyRules } from '../../src/hosts/excel/sheet-rules.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import type { ModelSheet } from '../../src/workbook/model.ts';
import { partText, readParts } from '../../src/workbook/package.ts';
import { attributes, startTags } from '../../src/workbook/xml.ts';

const list = ['a', 'b'];
const sheet: ModelSheet = {
  name: 'Rules',
  validations: [
    { range: 'A1', list, title: 'plain', message: 'm' },
    { range: 'A2', list, title: 'strict', message: 'm', strict: true },
    { range: 'A3', list, title: 'free', message: 'm', free: true },
  ],
  numberRules: [{ range: 'A4', least: 0, title: 'number', message: 'm' }],
};

/** Values of the platform's enumerations are their names in small letters; those that the file writes are the same words. */
const styles = { stop: 'stop', warning: 'warning' };

beforeAll(() => {
  const names = new Proxy({}, { get: (_, key) => String(key) });
  Object.assign(globalThis, { Excel: { DataValidationAlertStyle: styles, DataValidationOperator: names } });
});
afterAll(() => {
  Reflect.deleteProperty(globalThis, 'Excel');
});

it('stops, warns or keeps quiet in Excel where the file of the same sheet does', async () => {
  const set = new Map<string, { errorAlert?: { showAlert: boolean; style: string } }>();
  const target = {
    getRange: (range: string) => {
      const dataValidation = {};
      set.set(range, dataValidation);
      return { dataValidation };
    },
  };
  applyRules(target as unknown as Excel.Worksheet, sheet);
  const parts = readParts(await newWorkbook({ title: 'Rules', sheets: [sheet] }));
  const xml = partText(parts, 'xl/worksheets/sheet1.xml') ?? '';
  const inFile = startTags(xml, 'dataValidation').map((tag) => {
    const given = attributes(tag);
    // ISO/IEC 29500-1 18.3.1.32: stop where no style is given, quiet where no error message is shown
    return [given.get('sqref'), given.get('showErrorMessage') === '1', given.get('errorStyle') ?? 'stop'];
  });
  const inExcel = [...set].map(([range, { errorAlert }]) => [range, errorAlert?.showAlert, errorAlert?.style]);
  expect(inExcel).toEqual(inFile);
  expect(inExcel).toEqual([
    ['A1', true, 'warning'],
    ['A2', true, 'stop'],
    ['A3', false, 'warning'],
    ['A4', true, 'warning'],
  ]);
});
