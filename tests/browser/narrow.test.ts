import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/workbook/read.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

describe('the workbook to fill in on a narrow window', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests('templates/narrows-empty.xlsx');
    sheet = await tests.open({ width: 360, height: 740 });
  });
  afterAll(() => tests?.close());

  // 320 px of names and 84 of figures do not fit at full size; a sheet is fitted once, when it comes into view first, so that its blank
  // tables count as they will be filled
  it.each(['Results', 'Gear'])('shows %s as small as can be read, as the other sheets', async (name) => {
    await sheet.select(`${name}!A1`);
    await expect
      .poll(() =>
        sheet.page
          .getByText(/^\d+%$/u)
          .first()
          .textContent(),
      )
      .toBe('65%');
  });

  it('keeps the room of the tabs when several cells are selected, whose sum a wider window shows', async () => {
    const tabs = sheet.page.getByRole('tablist', { name: 'Sheet tabs' });
    const width = async () => (await tabs.boundingBox())?.width ?? 0;
    const count = sheet.page.getByText(/^Count:/);
    await sheet.select('Gear!A1');
    const before = await width();
    await sheet.select('Gear!A1:B8');
    await count.waitFor({ state: 'attached' });
    expect(await count.isVisible()).toBe(false);
    expect(await width()).toBe(before);
    await sheet.page.setViewportSize({ width: 800, height: 740 });
    await expect.poll(() => count.isVisible()).toBe(true);
    await sheet.page.setViewportSize({ width: 360, height: 740 });
  });

  it('is no zoom of the file', async () => {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const { snapshot } = await readWorkbook(readFileSync(await (await download).path()));
    expect(new Set(Object.values(snapshot.sheets).map(({ zoomRatio }) => zoomRatio))).toEqual(new Set([1]));
  });
});
