import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

describe('a sheet on paper', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open();
    // the printer's own window would wait for somebody
    await sheet.page.evaluate(() => {
      window.print = () => document.documentElement.setAttribute('data-printed', 'yes');
    });
  });
  afterAll(() => tests?.close());

  /** Asks for the sheet of a cell on paper and shows the page as the printer gets it. */
  async function print(cell: string): Promise<void> {
    await sheet.page.evaluate(() => document.documentElement.removeAttribute('data-printed'));
    await sheet.select(cell);
    await sheet.page.getByRole('button', { name: 'Print', exact: true }).click();
    await sheet.page.waitForSelector('html[data-printed]');
    await sheet.page.emulateMedia({ media: 'print' });
  }

  it('prints the sheet in view as a table with repeated header rows, and nothing else of the page', async () => {
    await print('Parts!A5');
    expect(await sheet.page.locator('.nw-bar').isVisible()).toBe(false);
    expect(await sheet.page.locator('.nw-print thead').textContent()).toMatch(/Rig.*Part.*Kind.*Bore/);
    expect(await sheet.page.locator('.nw-print tbody tr').count()).toBeGreaterThan(60);
    expect((await sheet.page.pdf({ preferCSSPageSize: true })).length).toBeGreaterThan(10_000);
    await sheet.page.emulateMedia({ media: 'screen' });
    expect(await sheet.page.locator('.nw-print').isVisible()).toBe(false);
  });

  it('prints a wide sheet on pages side by side, none of it over the edge, and tells its rows on each', async () => {
    await print('Results!A1');
    const pages = sheet.page.locator('.nw-print > div');
    expect(await pages.count()).toBe(2);
    for (const page of await pages.all()) {
      expect(await page.locator('thead th').first().textContent()).toBe('Unit');
      const width = await page
        .locator('table')
        .last()
        .evaluate((table) => table.getBoundingClientRect().width);
      // between the margins of 1 cm of an A4 page that lies: 27.7 cm at 96 px an inch
      expect(width).toBeLessThanOrEqual((27.7 / 2.54) * 96 + 1);
    }
    const headers = (await pages.locator('thead th').allTextContents()).filter((text) => text !== '');
    expect(new Set(headers).size).toBe(16);
    // figures beside the labels above the table are on the first page alone, and so are the labels
    expect(await pages.nth(0).textContent()).toContain('Units in all');
    expect(await pages.nth(1).textContent()).not.toContain('Units in all');
    expect(await pages.nth(1).textContent()).toContain('Results: evacuation');
    await sheet.page.emulateMedia({ media: 'screen' });
  });

  it('lets text run on over blank cells where it begins at the left, and leaves what stands at the right beside its label', async () => {
    await print('Breaks!A1');
    const cell = (text: RegExp) => sheet.page.locator('.nw-print td, .nw-print th', { hasText: text }).first();
    expect(await cell(/^air$/).evaluate((box) => [box.style.textAlign, (box as HTMLTableCellElement).colSpan])).toEqual(
      ['right', 1],
    );
    const title = cell(/^Breaks: nitrogen/);
    expect(await title.evaluate((box) => (box as HTMLTableCellElement).colSpan)).toBeGreaterThan(1);
    await sheet.page.emulateMedia({ media: 'screen' });
  });

  it('begins a page where the file does, and repeats the head of the last table', async () => {
    await print('Curves!A1');
    const starts = await sheet.page
      .locator('.nw-print tr')
      .evaluateAll((rows) =>
        rows.flatMap((row) => ((row as HTMLElement).style.breakBefore === 'page' ? [row.textContent] : [])),
      );
    expect(starts).toEqual([expect.stringMatching(/^Pull-down of the dry system/), expect.stringMatching(/^Dry-out/)]);
    expect(await sheet.page.locator('.nw-print thead').textContent()).toMatch(/Time.*Water left/);
    expect(await sheet.page.locator('.nw-print').textContent()).not.toContain('Chart:');
    await sheet.page.emulateMedia({ media: 'screen' });
  });

  it('prints Labour on one page across, and what stands above a table beside the first page, too', async () => {
    await print('Labour!A1');
    expect(await sheet.page.locator('.nw-print > div').count()).toBe(1);
    await sheet.page.emulateMedia({ media: 'screen' });
    await print("'One rig'!A1");
    expect(await sheet.page.locator('.nw-print > div').last().textContent()).toContain('The pull-down to the target');
    await sheet.page.emulateMedia({ media: 'screen' });
  });

  it('prints a text over the columns of its merged cells', async () => {
    await print('Parts!A5');
    const note = sheet.page.locator('.nw-print td', { hasText: /^One row a part/ }).first();
    // over what a page of 1280 px shows: more than the rig and the part, less than all 14 columns
    const span = await note.evaluate((cell: HTMLTableCellElement) => cell.colSpan);
    expect(span).toBeGreaterThan(2);
    expect(span).toBeLessThan(14);
    await sheet.page.emulateMedia({ media: 'screen' });
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
