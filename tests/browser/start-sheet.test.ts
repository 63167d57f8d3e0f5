import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { PATHS } from '../../templates/sheets/start.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

describe('the sheet Start in a window of 1280 by 800 px', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open({ width: 1280, height: 800 });
  });
  afterAll(() => tests?.close());

  it('shows the ways of all users without scrolling', async () => {
    const cells = ['B', 'E'].flatMap((column) => Array.from({ length: 40 }, (_, row) => `${column}${row + 1}`));
    const texts = await sheet.values(cells.map((cell) => `Start!${cell}`));
    await expect.poll(() => sheet.page.locator('.nw-working').isVisible(), { timeout: 60_000 }).toBe(false);
    // the sheet's cells are drawn on the largest canvas
    const end = await sheet.page
      .locator('canvas')
      .evaluateAll((all) => Math.max(...all.map((canvas) => canvas.getBoundingClientRect().bottom)));
    expect(end).toBeLessThan(800);
    expect(end).toBeGreaterThan(700);
    for (const [who, steps] of PATHS)
      for (const words of [who, ...steps]) {
        const at = texts.indexOf(words);
        expect(at, words).toBeGreaterThanOrEqual(0);
        const { y, height } = await sheet.place(cells[at] ?? '');
        // above the scroll bar
        expect(y + height, words).toBeLessThan(end - 10);
      }
  }, 90_000);
});
