import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

/** How files with a password begin, by [MS-CFB], section 2.2. */
const COMPOUND_FILE = Buffer.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0]);
const XLSX = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet';

describe('what the bar says', () => {
  let tests: SheetTests;
  beforeAll(async () => {
    tests = await startSheetTests();
  });
  afterAll(() => tests?.close());

  /** Whether a text is in the window as a whole, every line of it within the bar. */
  const isInFull = ({ page }: SheetPage): Promise<boolean> =>
    page.locator('.nw-status').evaluate((status) => {
      const text = document.createRange();
      text.selectNodeContents(status);
      const bar = status.closest('.nw-bar')?.getBoundingClientRect();
      const box = status.getBoundingClientRect();
      return [...text.getClientRects()].every(
        ({ top, bottom, left, right }) =>
          // a line of letters may be a little higher than the room between lines
          [box, bar].every((around) => around && top > around.top - 2 && bottom < around.bottom + 2) &&
          left >= 0 &&
          right <= innerWidth,
      );
    });

  it.each([1280, 800, 390])(
    'is there in full when it is long, in a window of %i px',
    async (width) => {
      const sheet = await tests.open({ width });
      const { page } = sheet;
      const bar = () => page.locator('.nw-bar').evaluate((one) => one.getBoundingClientRect().height);
      const before = await bar();
      await page.getByLabel('Workbook to open').setInputFiles({
        name: 'figures of the second building with a long name.xlsx',
        mimeType: XLSX,
        buffer: COMPOUND_FILE,
      });
      const status = page.locator('.nw-status');
      await expect.poll(() => status.textContent(), { timeout: 15_000 }).toMatch(/failed: .* without a password\.$/);
      expect(await isInFull(sheet)).toBe(true);
      // on a row of its own, not in a column of short lines beside the buttons
      expect(await status.evaluate((one) => one.getBoundingClientRect().width)).toBeGreaterThan(0.9 * width);
      // the sheet keeps most of the window
      expect((await bar()) - before).toBeLessThan(150);
      // and has the room again when it is over
      await page.getByRole('button', { name: 'Sheet as .csv' }).click();
      await expect.poll(() => status.textContent(), { timeout: 15_000 }).toMatch(/^Wrote /);
      if (width === 1280) expect(await bar()).toBe(before);
      await sheet.close();
    },
    60_000,
  );
});
