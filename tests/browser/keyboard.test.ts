import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

vi.setConfig({ testTimeout: 180_000 });

let tests: SheetTests;
let sheet: SheetPage;
beforeAll(async () => {
  tests = await startSheetTests();
  sheet = await tests.open();
});
afterAll(() => tests?.close());

/** The innermost part of the page with a name, or the bar, that has the focus. */
const part = (on: SheetPage = sheet) =>
  on.page.evaluate(() => {
    const named = document.activeElement?.closest('header#nw-bar, #nw-grid, #nw-charts, #nw-pane, [role="region"]');
    return named?.getAttribute('aria-label') ?? named?.id ?? 'nothing';
  });
const press = async (key: string, on: SheetPage = sheet) => {
  await on.page.keyboard.press(key);
  await on.page.waitForTimeout(60);
};

describe('F6', () => {
  it('goes from the bar through the grid to the pane and round, and Shift+F6 back', async () => {
    await sheet.select('Results!B4');
    await sheet.page.waitForTimeout(200);
    const there: string[] = [];
    do {
      await press('F6');
      there.push(await part());
    } while (there.at(-1) !== 'Cells' && there.length < 10);
    expect(there).toEqual(['Charts', 'nw-pane', 'nw-bar', 'Toolbar of the grid', 'Formula bar', 'Cells']);
    const back: string[] = [];
    for (let i = 0; i < there.length; i++) {
      await press('Shift+F6');
      back.push(await part());
    }
    expect(back).toEqual([...there.slice(0, -1).reverse(), 'Cells']);
  });

  it('leaves a grid that was reached by Tab, which Tab itself does not leave', async () => {
    await sheet.page.getByRole('button', { name: 'Print' }).focus();
    for (let i = 0; i < 40 && (await part()) !== 'Cells'; i++) await press('Tab');
    expect(await part()).toBe('Cells');
    await press('Tab');
    expect(await part()).toBe('Cells');
    await press('Shift+F6');
    expect(await part()).toBe('Formula bar');
    await press('F6');
    expect(await part()).toBe('Cells');
    // the keys go to the cell again
    await sheet.type('Notes!H6', '12');
    expect(await sheet.value('Notes!H6')).toBe(12);
  });

  it('comes back to the fault in the list that the jump began at', async () => {
    await sheet.type('Notes!H4', '=NARROWS.TUBE.BORE("9/7 in")');
    await sheet.select('Notes!A1');
    await sheet.page.locator('.nw-pane').getByRole('tab', { name: 'Workbook' }).click();
    await sheet.page.getByRole('button', { name: 'Check this sheet' }).click();
    const fault = sheet.page.getByRole('button', { name: 'Notes!H4' });
    await fault.focus();
    await press('Enter');
    await expect.poll(() => part()).toBe('Cells');
    for (let i = 0; i < 6 && (await part()) !== 'nw-pane'; i++) await press('F6');
    expect(await sheet.page.evaluate(() => document.activeElement?.textContent)).toBe('Notes!H4');
    await sheet.type('Notes!H4', '1');
  });

  it('finishes what is being typed into a cell, and stays at the cell', async () => {
    for (const [text, held] of [
      ['half a sentence', 'half a sentence'],
      ['=20+3', 23],
    ] as const) {
      await sheet.begin('Notes!H8', text);
      await press('Shift+F6');
      expect(await part()).toBe('Formula bar');
      await expect.poll(() => sheet.value('Notes!H8')).toBe(held);
      await press('F6');
      expect(await part()).toBe('Cells');
      const selected = sheet.page.getByRole('status', { name: 'Selected cell' });
      await expect.poll(() => selected.textContent()).toContain('Notes!H8');
    }
    // the keys after that begin a new entry
    await sheet.page.keyboard.type('7');
    await sheet.finish();
    expect(await sheet.value('Notes!H8')).toBe(7);
  });

  it('is told of: in the bar, on the link over the page, and where the keys go', async () => {
    expect(await sheet.page.locator('#nw-bar').textContent()).toContain('F6');
    expect(await sheet.page.locator('.nw-skip').textContent()).toContain('F6');
    await sheet.select('Notes!A1');
    const told = await sheet.page.evaluate(() => {
      const at = document.activeElement;
      return [at?.getAttribute('aria-label'), at?.getAttribute('aria-description')];
    });
    expect(told[0]).toBe('Cell');
    expect(told[1]).toContain('F6');
  });

  it('shows the pane where a narrow window has room for one of the two', async () => {
    const narrow = await tests.open({ width: 320, height: 640 });
    await narrow.select('Notes!A1');
    for (let i = 0; i < 6 && (await part(narrow)) !== 'nw-pane'; i++) await press('F6', narrow);
    expect(await part(narrow)).toBe('nw-pane');
    expect(await narrow.page.getByRole('tab', { name: 'Cautions' }).isVisible()).toBe(true);
    await press('Shift+F6', narrow);
    expect(await part(narrow)).toBe('Cells');
    const wide = await narrow.page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide).toBeLessThanOrEqual(0);
    await narrow.close();
  });
});

describe('a step back', () => {
  const selected = () => sheet.page.getByRole('status', { name: 'Selected cell' }).textContent();

  it('goes to the cell before, and stays at the first one', async () => {
    await sheet.select('Notes!K3');
    await press('Shift+Tab');
    await expect.poll(selected).toContain('Notes!J3');
    await sheet.select('Notes!A1');
    await press('Shift+Tab');
    await expect.poll(selected).toContain('Notes!A1');
    await press('Shift+Enter');
    await expect.poll(selected).toContain('Notes!A1');
    await press('Tab');
    await expect.poll(selected).toContain('Notes!B1');
  });
});

it('has had no fault in all of this', () => {
  expect(sheet.trouble).toEqual([]);
});
