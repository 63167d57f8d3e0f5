import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Inspect } from '../../src/hosts/sheet/page/inspect.ts';
import { keptNames } from '../../src/workbook/names.ts';
import { partText, readParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { bareFile } from '../workbook/bare.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

const number = (at: string, value: number) => `<c r="${at}"><v>${value}</v></c>`;
const formula = (at: string, text: string) => `<c r="${at}"><f>${text}</f><v>0</v></c>`;
const row = (at: number, ...cells: string[]) => `<row r="${at}">${cells.join('')}</row>`;

/** Formulas before and behind the sheet `To go` that refer to it, by themselves and through names. */
const BOOK = bareFile({
  sheets: [
    { name: 'First', rows: row(1, formula('A1', "SUM('To go'!A1:A2)"), formula('B1', 'SUM(Far)')) },
    { name: 'To go', rows: row(1, number('A1', 3), number('B1', 5)) + row(2, number('A2', 4)) },
    {
      name: 'Last',
      rows:
        row(1, formula('A1', "'To go'!A1*10"), formula('B1', 'Total')) +
        row(2, formula('A2', 'A1+1'), formula('B2', 'IFERROR(Mixed,0)+Near')) +
        row(3, number('A3', 6)),
      after: `<dataValidations count="1"><dataValidation type="list" sqref="D1"><formula1>'To go'!$A$1:$A$2</formula1></dataValidation></dataValidations>`,
    },
  ],
  names:
    '<definedName name="Far">\'To go\'!$A$1:$A$2</definedName>' +
    '<definedName name="Mixed">\'To go\'!$B$1+Last!$A$3</definedName>' +
    '<definedName name="Near">Last!$A$3</definedName>' +
    '<definedName name="Total">2*SUM(\'To go\'!$A:$A)</definedName>',
});
const CELLS = ['First!A1', 'First!B1', 'Last!A1', 'Last!A2', 'Last!B1', 'Last!B2'];
// by hand: 3+4, 3+4, 3*10, 30+1, 2*(3+4), (5+6)+6
const THERE = [7, 7, 30, 31, 14, 17];
// only what IFERROR catches is a number: 0+6
const GONE = ['#REF!', '#REF!', '#REF!', '#REF!', '#REF!', 6];
const FORMULAS = ["=SUM('To go'!A1:A2)", '=SUM(Far)', "='To go'!A1*10", '=A1+1', '=Total', '=IFERROR(Mixed,0)+Near'];

describe('a sheet that others refer to is deleted by its tab', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'narrows-removed-'));
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    const file = path.join(folder, 'refers.xlsx');
    writeFileSync(file, BOOK);
    tests = await startSheetTests(file);
    sheet = await tests.open();
    // a step before it, which the first undo leaves alone
    await sheet.type('Last!C1', '8');
    await sheet.select("'To go'!A1");
    await sheet.tab('To go', 'Delete');
    await sheet.page.waitForTimeout(500);
    await sheet.page.getByRole('button', { name: 'OK' }).last().click();
  });
  afterAll(async () => {
    await tests?.close();
    rmSync(folder, { recursive: true });
  });

  const tabs = async (): Promise<boolean> => (await sheet.page.getByText('To go', { exact: true }).count()) > 0;
  const formulas = (): Promise<(string | null)[]> =>
    sheet.page.evaluate((cells) => {
      const { narrows } = window as unknown as { narrows: Inspect };
      return cells.map((cell) => narrows.formula(cell));
    }, CELLS);
  const values = () => sheet.values(CELLS);
  let across = 300;
  async function press(keys: string): Promise<void> {
    // in another cell each time: two clicks into one begin to edit it
    across += 100;
    await sheet.page.mouse.click(across, 450);
    await sheet.page.keyboard.press(keys);
  }
  /** Saves; gives the names of the file, the sources of its lists, and the parts that speak of the sheet. */
  async function saved() {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const bytes = readFileSync(await (await download).path());
    const { snapshot, sheets } = await readWorkbook(bytes);
    const parts = readParts(bytes);
    return {
      names: Object.fromEntries(keptNames(snapshot).map(({ name, formulaOrRefString }) => [name, formulaOrRefString])),
      lists: sheets.flatMap(({ extras }) => extras.lists.map(({ from }) => from)),
      speaking: [...parts.keys()].filter((part) => partText(parts, part)?.includes('To go')),
    };
  }

  it('takes what referred to it for gone, on all sheets and through names', async () => {
    await expect.poll(values, { timeout: 10_000 }).toEqual(GONE);
    expect(await tabs()).toBe(false);
    expect(await formulas()).toEqual([
      '=SUM(#REF!)',
      '=SUM(Far)',
      '=#REF!*10',
      '=A1+1',
      '=Total',
      '=IFERROR(Mixed,0)+Near',
    ]);
  });

  it('is in no part of the file', async () => {
    expect(await saved()).toEqual({
      names: { Far: '#REF!', Mixed: '#REF!+Last!$A$3', Near: 'Last!$A$3', Total: '2*SUM(#REF!)' },
      lists: ['#REF!'],
      speaking: [],
    });
  });

  it('comes back with one undo, with all that referred to it', async () => {
    await press('Control+z');
    await expect.poll(values, { timeout: 10_000 }).toEqual(THERE);
    expect(await tabs()).toBe(true);
    expect(await formulas()).toEqual(FORMULAS);
    expect(await sheet.values(["'To go'!A1", "'To go'!A2", "'To go'!B1", 'Last!C1'])).toEqual([3, 4, 5, 8]);
    const { names, lists } = await saved();
    expect(lists).toEqual(["'To go'!$A$1:$A$2"]);
    expect(names).toEqual({
      Far: "'To go'!$A$1:$A$2",
      Mixed: "'To go'!$B$1+Last!$A$3",
      Near: 'Last!$A$3',
      Total: "2*SUM('To go'!$A:$A)",
    });
  });

  it('goes and comes again, and the step before it is undone after it', async () => {
    await press('Control+y');
    await expect.poll(values, { timeout: 10_000 }).toEqual(GONE);
    await press('Control+z');
    await expect.poll(values, { timeout: 10_000 }).toEqual(THERE);
    await press('Control+z');
    await expect.poll(() => sheet.value('Last!C1')).toBe(null);
    expect(await values()).toEqual(THERE);
    expect(sheet.trouble).toEqual([]);
  });
});
