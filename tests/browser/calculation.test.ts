import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

/** A busy machine may end the calculation of the entry before while this one is awaited. */
const PATIENT = { timeout: 15_000 };
/** Inside diameter of 3/8 in tube, ASTM B280: 0.375 in less twice the wall of 0.032 in. */
const BORE_3_8_MM = (0.375 - 2 * 0.032) * 25.4;

describe('the page calculates what a person types', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open();
  });
  afterAll(() => tests?.close());

  it('opens with the template worked out, no fault in the page and nobody asked beyond this machine', async () => {
    expect(await sheet.value('Start!C12')).toBeGreaterThanOrEqual(120);
    expect(await sheet.value('Results!A10')).toBe('Unit');
    expect(await sheet.value('Results!A11')).toEqual(expect.any(String));
    expect(sheet.trouble).toEqual([]);
  });

  it('shows the results of the last time at once, before anything is worked out', async () => {
    const { page } = sheet;
    const again = await page.context().newPage();
    await again.goto(tests.server.address);
    await again.waitForSelector('html[data-ready]');
    const took = await again.evaluate(() => Math.round(performance.now()));
    const first = await again.evaluate(() => {
      const { narrows } = window as unknown as { narrows: { value(address: string): unknown } };
      return [narrows.value('Start!C12'), narrows.value('Results!A11'), narrows.value('Compare!F9')];
    });
    console.log(`the page is there with its results ${took} ms after it was asked for`);
    // 3 s on a machine of its own; a bound for any machine, since others work on it too.
    expect(took).toBeLessThan(20_000);
    expect(first).toEqual([expect.any(Number), expect.any(String), expect.any(Number)]);
    await again.close();
  });

  it('gives the bore of a tube by its size', async () => {
    await sheet.type('Notes!H1', '=NARROWS.TUBE.BORE("3/8 in")');
    expect(await sheet.value('Notes!H1')).toBeCloseTo(BORE_3_8_MM, 3);
  });

  it('works dependants out again when an input changes', async () => {
    await sheet.type('Notes!H3', '2');
    await sheet.type('Notes!H4', '=NARROWS.SERIES(H3,2)');
    await expect.poll(() => sheet.value('Notes!H4'), PATIENT).toBeCloseTo(1, 12);
    await sheet.type('Notes!H3', '6');
    await expect.poll(() => sheet.value('Notes!H4'), PATIENT).toBeCloseTo(1.5, 12);
  });

  it('spills a table, and A1# stands for all of it', async () => {
    await sheet.type('Notes!H6', '=SEQUENCE(3,2)');
    expect(await sheet.values(['Notes!H6', 'Notes!I6', 'Notes!H8', 'Notes!I8'])).toEqual([1, 2, 5, 6]);
    await sheet.type('Notes!K6', '=SUM(H6#)');
    expect(await sheet.value('Notes!K6')).toBe(21);
  });

  it('spills a table of ours with its headers', async () => {
    await sheet.type('Notes!H30', '=NARROWS.CAUTIONS("evacuation")');
    expect(await sheet.value('Notes!H30')).toEqual(expect.any(String));
    expect(await sheet.value('Notes!I31')).toEqual(expect.any(String));
  });

  it('says why when an input breaks: in the pane for the selected cell, and beside the pointer', async () => {
    await sheet.type('Notes!H10', '=NARROWS.TUBE.BORE("9/7 in")');
    expect(await sheet.value('Notes!H10')).toMatch(/^#/);
    await sheet.select('Notes!H10');
    const selected = sheet.page.getByRole('status', { name: 'Selected cell' });
    await expect.poll(() => selected.textContent()).toContain('9/7 in');
    const tip = sheet.page.getByRole('tooltip');
    // A sweep takes seconds where other work runs beside it.
    const sweep = { timeout: 40_000 };
    await expect
      .poll(async () => {
        const grid = await sheet.page.locator('.nw-grid').boundingBox();
        // Sweeps over the grid until the pointer meets the cell.
        for (let x = 60; x < (grid?.width ?? 0) - 30; x += 60) {
          for (let y = 140; y < 700; y += 18) {
            await sheet.page.mouse.move(x, y);
            if (await tip.isVisible()) return tip.textContent();
          }
        }
        return '';
      }, sweep)
      .toContain('9/7 in');
  });

  it('refuses a circular reference and names its cells', async () => {
    await sheet.type('Notes!H14', '=H15+1');
    await sheet.type('Notes!H15', '=H14+1');
    expect(await sheet.values(['Notes!H14', 'Notes!H15'])).toEqual(['#REF!', '#REF!']);
    await sheet.select('Notes!H14');
    const selected = sheet.page.getByRole('status', { name: 'Selected cell' });
    await expect.poll(() => selected.textContent()).toMatch(/circular.*Notes!H14.*Notes!H15/is);
    await sheet.type('Notes!H15', '4');
    expect(await sheet.value('Notes!H14')).toBe(5);
  });

  it('completes the name of a function and shows its arguments', async () => {
    await sheet.begin('Notes!H18', '=NARROWS.TUBE.B');
    await sheet.page.getByText('NARROWS.TUBE.BORE', { exact: true }).first().waitFor();
    for (const key of 'ORE(') await sheet.page.keyboard.type(key, { delay: 60 });
    await sheet.page.keyboard.type('1', { delay: 60 });
    await expect
      .poll(() => sheet.page.locator('body').textContent())
      .toMatch(/NARROWS\.TUBE\.BORE\(\s*size\s*,\s*\[?standard/);
    await sheet.page.keyboard.press('Escape');
    await sheet.page.keyboard.press('Escape');
  });

  it('places a spill of 10,000 × 12 cells in a time that nobody minds', async () => {
    await sheet.begin('Notes!P1', '=SEQUENCE(10000,12)');
    const took = await sheet.finish();
    expect(await sheet.values(['Notes!P1', 'Notes!AA10000'])).toEqual([1, 120_000]);
    console.log(`10,000 × 12 cells spilled on the sheet ${Math.round(took)} ms after Enter`);
    // 2 s on a machine of its own; a bound for any machine, since others work on it too.
    expect(took).toBeLessThan(10_000);
    await sheet.type('Notes!AC1', '=XLOOKUP(119989,P1:P10000,AA1:AA10000)');
    expect(await sheet.value('Notes!AC1')).toBe(120_000);
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
