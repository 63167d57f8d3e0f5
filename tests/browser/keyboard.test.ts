import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { readWorkbook } from '../../src/workbook/read.ts';
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

describe('keys and the bar', () => {
  const save = () => sheet.page.getByRole('button', { name: 'Save as .xlsx' });
  const saved = async (act: () => Promise<void>) => {
    const download = sheet.page.waitForEvent('download');
    await act();
    return readWorkbook(readFileSync(await (await download).path()));
  };
  const focus = () => sheet.page.evaluate(() => document.activeElement?.textContent);

  it('are for the cells after a click on a button', async () => {
    await sheet.type('Notes!H20', '1');
    await sheet.type('Notes!H20', '2');
    await saved(() => save().click());
    await expect.poll(() => part()).toBe('Cells');
    await press('Control+z');
    await expect.poll(() => sheet.value('Notes!H20')).toBe(1);
  });

  it('stay at a button that was pressed by a key, where Ctrl+Z and Ctrl+Y reach the cells as well', async () => {
    await save().focus();
    await saved(() => press('Enter'));
    await expect.poll(focus).toBe('Save as .xlsx');
    await press('Control+y');
    await expect.poll(() => sheet.value('Notes!H20')).toBe(2);
    await press('Control+z');
    await expect.poll(() => sheet.value('Notes!H20')).toBe(1);
    await press('Control+Shift+z');
    await expect.poll(() => sheet.value('Notes!H20')).toBe(2);
    expect(await focus()).toBe('Save as .xlsx');
  });

  it('undo what is typed into a field of the pane there, and not in the cells', async () => {
    await sheet.page.getByRole('tab', { name: 'Functions' }).click();
    const field = sheet.page.getByLabel('Search functions');
    await field.focus();
    await sheet.page.keyboard.type('bore');
    await press('Control+z');
    expect(await field.inputValue()).not.toBe('bore');
    expect(await sheet.value('Notes!H20')).toBe(2);
    await field.fill('');
  });

  it.each(['button', 'Control+s'])('save what is being typed into a cell, by %s', async (way) => {
    const held = way === 'button' ? 31 : 32;
    await sheet.begin('Notes!H21', String(held));
    const { snapshot } = await saved(() => (way === 'button' ? save().click() : press(way)));
    const notes = Object.values(snapshot.sheets).find(({ name }) => name === 'Notes');
    expect(notes?.cellData?.[20]?.[7]?.v).toBe(held);
    expect(await sheet.value('Notes!H21')).toBe(held);
  });

  it('save from the pane by Ctrl+S, and answer its question by Esc', async () => {
    await sheet.page.getByRole('tab', { name: 'Workbook' }).click();
    const ask = sheet.page.getByRole('button', { name: 'Freeze this sheet to values' });
    await ask.click();
    await expect.poll(focus).toBe('Keep the formulas');
    await press('Escape');
    await expect.poll(focus).toBe('Freeze this sheet to values');
    expect(await sheet.page.getByText('Freeze?').count()).toBe(0);
    await saved(() => press('Control+s'));
    await expect.poll(focus).toBe('Freeze this sheet to values');
  });
});

describe('the zoom at the foot', () => {
  const larger = async (from: string) => {
    const box = await sheet.page.getByText(from, { exact: true }).last().boundingBox();
    await sheet.page.mouse.click((box?.x ?? 0) - 25, (box?.y ?? 0) + 8);
    await sheet.page.waitForTimeout(300);
  };
  const zooms = async () => {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const { snapshot } = await readWorkbook(readFileSync(await (await download).path()));
    const all = Object.values(snapshot.sheets);
    return [all.find(({ name }) => name === 'Notes')?.zoomRatio, all.find(({ name }) => name === 'Start')?.zoomRatio];
  };

  it('is saved with its sheet, whether cells were changed or the file is made anew', async () => {
    await sheet.select('Notes!A1');
    await larger('100%');
    expect(await zooms()).toEqual([1.1, 1]);
    await sheet.select('Notes!H22');
    await press('Control+b');
    await larger('110%');
    expect(await zooms()).toEqual([1.2, 1]);
  });

  it('is that of the file when it is opened', async () => {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const file = await (await download).path();
    const mimeType = 'application/octet-stream';
    const book = { name: 'again.xlsx', mimeType, buffer: readFileSync(file) };
    await sheet.page.getByLabel('Workbook to open').setInputFiles(book);
    await sheet.page.getByText('Opened again.xlsx').waitFor();
    await sheet.select('Notes!A1');
    await sheet.page.getByText('120%', { exact: true }).last().waitFor();
    await sheet.select('Start!A1');
    await sheet.page.getByText('100%', { exact: true }).last().waitFor();
  });
});

it('has had no fault in all of this', () => {
  expect(sheet.trouble).toEqual([]);
});
