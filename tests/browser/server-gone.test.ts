import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/workbook/read.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

describe('a page whose server is gone', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'narrows-gone-'));
  let tests: SheetTests;
  beforeAll(async () => {
    tests = await startSheetTests();
  });
  afterAll(async () => {
    await tests?.close();
    rmSync(folder, { recursive: true });
  });

  const status = ({ page }: SheetPage) => page.locator('.nw-status').textContent();

  async function save({ page }: SheetPage, name: string): Promise<string> {
    const download = page.waitForEvent('download', { timeout: 30_000 });
    await page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const file = path.join(folder, name);
    await (await download).saveAs(file);
    return file;
  }

  async function cellOf(file: string, sheetName: string, row: number, column: number): Promise<unknown> {
    const { snapshot } = await readWorkbook(readFileSync(file));
    const sheet = Object.values(snapshot.sheets).find(({ name }) => name === sheetName);
    return sheet?.cellData?.[row]?.[column]?.v;
  }

  it('saves what is changed, and says what to do where something must be fetched', async () => {
    const sheet = await tests.open();
    const { page } = sheet;
    await expect.poll(() => page.locator('.nw-working').isVisible(), { timeout: 60_000 }).toBe(false);
    await page.waitForLoadState('networkidle');
    await page.context().setOffline(true);
    await sheet.type('Notes!H6', 'typed without a server');
    const file = await save(sheet, 'gone.xlsx');
    expect(await cellOf(file, 'Notes', 5, 7)).toBe('typed without a server');
    await expect.poll(() => status(sheet)).toMatch(/^Saved/);

    const toDo = /the program that serves this page no longer runs\. Start it again \(npm start\)/;
    await page.getByRole('button', { name: 'New from template' }).click();
    await expect.poll(() => status(sheet), { timeout: 15_000 }).toMatch(toDo);
    await page.getByRole('tab', { name: 'Workbook' }).click();
    await page.getByRole('button', { name: 'Add the template sheets' }).click();
    await expect.poll(() => page.locator('.nw-outcome').allTextContents()).toContainEqual(expect.stringMatching(toDo));
    expect(await sheet.value('Notes!H6')).toBe('typed without a server');
    await sheet.close();
  }, 120_000);

  it('says that saving failed where the code for it never came, and saves once it can be fetched', async () => {
    const sheet = await tests.open();
    const { page } = sheet;
    // A page that was never idle: its scripts are those of the start.
    const began = new Set(await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name)));
    const late: string[] = [];
    await page.addInitScript(() => {
      window.requestIdleCallback = () => 0;
    });
    await page.reload();
    await page.waitForSelector('html[data-ready]');
    await page.waitForSelector('canvas');
    await page.waitForTimeout(1_500);
    const scripts = new Set(
      await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name)),
    );
    for (const name of began) if (!scripts.has(name)) late.push(name);
    // what saving takes comes after the start, and comes by itself
    expect(late.length).toBeGreaterThan(0);
    await page.context().setOffline(true);
    await sheet.type('Notes!H6', 'typed without a server');
    await page.getByRole('button', { name: 'Save as .xlsx' }).click();
    await expect
      .poll(() => status(sheet), { timeout: 15_000 })
      .toMatch(/^Saving failed: .*start it again \(npm start\)/);
    await page.context().setOffline(false);
    const file = await save(sheet, 'again.xlsx');
    expect(await cellOf(file, 'Notes', 5, 7)).toBe('typed without a server');
    await sheet.close();
  }, 120_000);
});
