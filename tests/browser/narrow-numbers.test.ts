import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type CellStyle, type Cell as FileCell, writeXlsx } from 'hucre';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, standInForPrinter, startSheetTests } from './sheet-page.ts';

const NARROW = 4;
const WIDE = 40;
const SIGNS = /^#+$/;

/** What stands in the first column, narrow, and again in the second, wide. */
const ROWS: readonly { readonly value: string | number | boolean; readonly style?: CellStyle }[] = [
  { value: 122_807_342, style: { numFmt: '#,##0' } },
  { value: 12_345.678, style: { numFmt: '0.00E+00' } },
  { value: -1234.5, style: { numFmt: '_($* #,##0.00_);_($* (#,##0.00);_($* "-"??_);_(@_)' } },
  { value: 46_354, style: { numFmt: 'yyyy-mm-dd' } },
  { value: 0.75, style: { numFmt: 'hh:mm:ss' } },
  { value: 122_807_342, style: { numFmt: '#,##0', alignment: { wrapText: true } } },
  { value: 122_807_342, style: { numFmt: '#,##0', alignment: { horizontal: 'left' } } },
  { value: 'a text that is longer' },
  { value: true },
  { value: 7, style: { numFmt: '0', alignment: { indent: 3, horizontal: 'left' } } },
];
/** Rows of numbers, and the one whose indentation leaves no room. */
const NUMBERS = [0, 1, 2, 3, 4, 5, 6, 9];
const GENERAL = ROWS.length;
const MERGED = GENERAL + 1;

async function book(): Promise<Uint8Array> {
  const cells = new Map<string, FileCell>();
  const rows: (string | number | boolean | null)[][] = ROWS.map(({ value, style }, row) => {
    for (const column of [0, 1])
      if (style !== undefined) cells.set(`${row},${column}`, { value, type: 'number', style });
    return [value, value];
  });
  rows.push([123_456_789.25, 123_456_789.25]);
  // over both columns
  rows.push([122_807_342, null]);
  cells.set(`${MERGED},0`, { value: 122_807_342, type: 'number', style: { numFmt: '#,##0' } });
  const merges = [{ startRow: MERGED, endRow: MERGED, startCol: 0, endCol: 1 }];
  return writeXlsx({
    sheets: [{ name: 'Wide', rows, cells, merges, columns: [{ width: NARROW }, { width: WIDE }] }],
  });
}

describe('numbers that are wider than their cells', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'narrows-'));
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    const file = path.join(folder, 'wide.xlsx');
    writeFileSync(file, await book());
    tests = await startSheetTests(file);
    sheet = await tests.open();
    await sheet.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await standInForPrinter(sheet.page);
    await sheet.select('Wide!D20');
  });
  afterAll(async () => {
    await tests?.close();
    rmSync(folder, { recursive: true });
  });

  const drawn = (cell: string): Promise<string | null> =>
    sheet.page.evaluate(
      (at) => (window as unknown as { narrows: { drawn(address: string): string | null } }).narrows.drawn(at),
      cell,
    );
  const column = (name: string, rows: readonly number[]): Promise<(string | null)[]> =>
    Promise.all(rows.map((row) => drawn(`${name}${row + 1}`)));

  it('are hidden behind signs, whatever their format and alignment, and shown in full where there is room', async () => {
    for (const text of await column('A', NUMBERS)) expect(text).toMatch(SIGNS);
    // by hand from the values and formats; 46 354 days after the last day of 1899 but one is 28 November 2026
    const full = [
      '122,807,342',
      '1.23E+04',
      '$(1,234.50)',
      '2026-11-28',
      '18:00:00',
      '122,807,342',
      '122,807,342',
      '7',
    ];
    expect((await column('B', NUMBERS)).map((text) => text?.replaceAll(' ', ''))).toEqual(full);
    // texts and truth values are as they are
    expect(await column('A', [7, 8])).toEqual([null, null]);
  });

  it('have the width of merged cells, and are rounded where they have no format', async () => {
    expect(await drawn(`A${MERGED + 1}`)).toBe('122,807,342');
    expect(await drawn(`B${GENERAL + 1}`)).toBe('123456789.25');
    await sheet.type('Wide!C1', '=1/3');
    const third = String(await drawn('C1'));
    expect(third).toMatch(/^0\.33+$/);
    expect(third.length).toBeLessThan(12);
    expect(await sheet.value('Wide!C1')).toBe(1 / 3);
  });

  it('of a spilled result stay in their own cells', async () => {
    await sheet.type('Wide!D1', '=SEQUENCE(2,1,123456789.25)');
    for (const text of await column('D', [0, 1])) {
      expect(text?.length).toBeLessThan(10);
      expect(Number(text)).toBeGreaterThan(9e7);
    }
  });

  it('are told in full by the note beside the pointer and at the foot of the pane', async () => {
    const { x, y } = await sheet.place('A1');
    await sheet.page.mouse.move(x + 5, y + 5);
    await sheet.page.mouse.move(x + 8, y + 8);
    await expect.poll(() => sheet.page.locator('.nw-tip').textContent()).toBe('122,807,342');
    await sheet.select('Wide!A1');
    await expect.poll(() => sheet.page.getByLabel('Selected cell').textContent()).toContain('122,807,342: its column');
    await sheet.select('Wide!B1');
    await expect.poll(() => sheet.page.getByLabel('Selected cell').textContent()).not.toContain('122,807,342');
  });

  it('are copied as they are', async () => {
    await sheet.select('Wide!A1:A2');
    await sheet.page.keyboard.press('Control+c');
    await expect
      .poll(() => sheet.page.evaluate(() => navigator.clipboard.readText()))
      .toMatch(/^122,807,342\r?\n1\.23E\+04$/);
    expect(await sheet.values(['Wide!A1', 'Wide!A3'])).toEqual([122_807_342, -1234.5]);
  });

  it('are hidden on paper as well', async () => {
    await sheet.page.getByRole('button', { name: 'Print', exact: true }).click();
    await sheet.page.waitForSelector('html[data-printed]');
    const rows = sheet.page.locator('.nw-print tr');
    const texts = async (row: number) => (await rows.nth(row).locator('td, th').allTextContents()).slice(0, 2);
    for (const row of [0, 1, 3, 4]) expect((await texts(row))[0]).toMatch(SIGNS);
    expect((await texts(0))[1]).toBe('122,807,342');
    expect((await texts(3))[1]).toBe('2026-11-28');
    expect((await texts(7))[0]).toBe('a text that is longer');
    expect((await texts(MERGED))[0]).toBe('122,807,342');
  });

  it('are measured in full when a column is fitted to them', async () => {
    const { x, y, width } = await sheet.place('A1');
    // the edge of the column's head
    await sheet.page.mouse.dblclick(x + width, y - 10);
    await expect.poll(() => drawn('A1')).toBe('122,807,342');
    expect((await sheet.place('A1')).width).toBeGreaterThan(60);
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => drawn('A1')).toMatch(SIGNS);
    expect(sheet.trouble).toEqual([]);
  });
});
