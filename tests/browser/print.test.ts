import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, standInForPrinter, startSheetTests } from './sheet-page.ts';

describe('a sheet on paper', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open();
    await standInForPrinter(sheet.page);
  });
  // one that fails leaves the buttons to those behind it
  afterEach(() => sheet.page.emulateMedia({ media: 'screen' }));
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
    const page = sheet.page.locator('.nw-print > div').first();
    expect(await page.locator('thead').textContent()).toMatch(/Rig.*Part.*Kind.*Bore/);
    expect(await page.locator('tbody tr').count()).toBeGreaterThan(60);
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

  it('begins a page where the file does, repeats the head of the last table, and prints both rigs of Curves', async () => {
    await print('Curves!A1');
    const starts = await sheet.page
      .locator('.nw-print tr')
      .evaluateAll((rows) =>
        rows.flatMap((row) => ((row as HTMLElement).style.breakBefore === 'page' ? [row.textContent] : [])),
      );
    const [first, second] = ['A core in, small hose', 'B core out, small hose'];
    expect(starts).toEqual([
      `Pull-down of the dry system: ${first}`,
      `Dry-out: ${first}`,
      // its pull-down begins a page as the first row of its area
      `Dry-out: ${second}`,
    ]);
    const areas = sheet.page.locator('.nw-print > div');
    expect(await areas.count()).toBe(2);
    expect(await areas.nth(1).locator('tr').first().textContent()).toBe(`Pull-down of the dry system: ${second}`);
    for (const head of await sheet.page.locator('.nw-print thead').allTextContents())
      expect(head).toMatch(/Time.*Water left/);
    expect(await sheet.page.locator('.nw-print').textContent()).not.toContain('Chart:');
    await sheet.page.emulateMedia({ media: 'screen' });
  });

  it.each([
    ['Labour', 'Other rig'],
    ['Units', 'Water (g)'],
    ['Results', 'Verdict'],
    ['Parts', 'Swap group'],
  ])('prints %s on two pages across in letters of 6.5 points or more, the second from %s on', async (name, from) => {
    await print(`${name}!A1`);
    const pages = sheet.page.locator('.nw-print > div');
    expect(await pages.count()).toBe(2);
    const heads = await pages.nth(1).locator('thead th').allTextContents();
    const [own = ''] = await pages.nth(0).locator('thead th').allTextContents();
    expect(heads[0]).toBe(own);
    // the parts are told by their rig, too
    expect(heads[name === 'Parts' ? 2 : 1]).toBe(from);
    const size = await pages
      .nth(1)
      .locator('tbody td')
      .last()
      .evaluate((cell: HTMLElement) => Number.parseFloat(cell.style.fontSize));
    expect(size * 0.75 * (name === 'Parts' ? 11 / 10 : 1)).toBeGreaterThanOrEqual(6.5);
    await sheet.page.emulateMedia({ media: 'screen' });
  });

  it('prints what stands above a table beside the first page, too', async () => {
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

  it('ends with the last row of its area that holds something, whatever stands below it beside the area', async () => {
    const rows = () => sheet.page.locator('.nw-print tr').count();
    await print('Gear!A1');
    const before = await rows();
    await sheet.page.emulateMedia({ media: 'screen' });
    await sheet.type('Gear!M300', '1');
    await print('Gear!A1');
    expect(await rows()).toBe(before);
    await sheet.page.emulateMedia({ media: 'screen' });
  });

  it("prints the sheet in view as it is now by the browser's own command, and leaves nothing on the page", async () => {
    const { page } = sheet;
    const paper = page.locator('.nw-print');
    const printed = () =>
      page.evaluate(() => {
        const seen: (string | null)[] = [];
        addEventListener(
          'beforeprint',
          () => seen.push(...[...document.querySelectorAll('.nw-print')].map((one) => one.textContent)),
          { once: true },
        );
        Object.assign(window, { seen });
      });
    /** What the browser has on paper, which it makes by its command for printing. */
    const onPaper = async (): Promise<string> => {
      await printed();
      await page.pdf({ preferCSSPageSize: true });
      const seen = await page.evaluate(() => (window as unknown as { seen: (string | null)[] }).seen);
      expect(seen.length).toBe(1);
      return seen[0] ?? '';
    };
    await print('Parts!A5');
    await page.evaluate(() => dispatchEvent(new Event('afterprint')));
    await page.emulateMedia({ media: 'screen' });
    expect(await paper.count()).toBe(0);

    await sheet.type('Start!E8', 'written before');
    expect(await onPaper()).toContain('written before');
    expect(await paper.count()).toBe(0);
    await sheet.type('Start!E8', 'written after');
    const now = await onPaper();
    expect(now).toContain('written after');
    expect(now).not.toContain('written before');
  });

  it('builds what the button prints once', async () => {
    const { page } = sheet;
    await sheet.select('Parts!A5');
    await page.evaluate(() => {
      const tables = { made: 0 };
      const make = document.createElement.bind(document);
      document.createElement = ((name: string) => {
        if (name === 'table') tables.made++;
        return make(name);
      }) as typeof document.createElement;
      Object.assign(window, { tables });
    });
    await print('Parts!A5');
    const there = await page.locator('.nw-print table').count();
    expect(there).toBeGreaterThan(0);
    expect(await page.evaluate(() => (window as unknown as { tables: { made: number } }).tables.made)).toBe(there);
    await page.emulateMedia({ media: 'screen' });
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
