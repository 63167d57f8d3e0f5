import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

vi.setConfig({ testTimeout: 120_000 });

let tests: SheetTests;
let sheet: SheetPage;
beforeAll(async () => {
  tests = await startSheetTests();
  // wide enough for all that the toolbar has
  sheet = await tests.open({ width: 2400 });
});
afterAll(() => tests?.close());

const focus = (on: SheetPage = sheet) =>
  on.page.evaluate(() => {
    const at = document.activeElement;
    return at?.getAttribute('aria-label') ?? at?.tagName;
  });
const press = async (key: string) => {
  await sheet.page.keyboard.press(key);
  await sheet.page.waitForTimeout(100);
};
const list = (command: string) => sheet.page.locator(`[data-u-command="${command}"]`).first();

describe('the keys are for the cells again', () => {
  it.each([
    ['font', 'sheet.command.set-range-font-family'],
    ['size', 'sheet.command.set-range-fontsize'],
    ['text colour', 'sheet.command.set-range-text-color'],
    ['fill', 'sheet.command.set-background-color'],
    ['borders', 'sheet.command.set-border-basic'],
    ['alignment', 'sheet.command.set-horizontal-text-align'],
    ['wrapping', 'sheet.command.set-text-wrap'],
    ['rotation', 'sheet.command.set-text-rotation'],
    ['number format', 'sheet.operation.open.numfmt.panel'],
    ['functions', 'formula-ui.operation.insert-function.common'],
  ] as const)('after Esc from the list of %s', async (_name, command) => {
    await sheet.select('Notes!H5');
    const box = await list(command).boundingBox();
    if (box === null) throw new Error(`${command} is not in the toolbar`);
    // the arrow, where the rest of it acts at once
    await sheet.page.mouse.click(box.x + box.width - 10, box.y + box.height / 2);
    await sheet.page.locator('[data-radix-popper-content-wrapper]').first().waitFor();
    await press('Escape');
    await expect.poll(() => focus()).toBe('Cell');
    await press('ArrowDown');
    await sheet.page.keyboard.type('17');
    await press('Enter');
    expect(await sheet.values(['Notes!H5', 'Notes!H6'])).toEqual([null, 17]);
    await press('Control+z');
    await expect.poll(() => sheet.value('Notes!H6')).toBeNull();
  });

  it('after a tab is renamed: Ctrl+Z takes the name back', async () => {
    const tab = (name: string) => sheet.page.locator('[data-u-comp="slide-tab-item"]').getByText(name, { exact: true });
    await sheet.select('Notes!H5');
    await sheet.tab('Notes', 'Rename');
    await sheet.page.locator('[data-u-comp="slide-tab-item"] [contenteditable="true"]:focus').waitFor();
    await sheet.page.keyboard.type('Remarks');
    await press('Enter');
    await expect.poll(() => tab('Remarks').count()).toBe(1);
    expect(await focus()).toBe('Cell');
    await press('Control+z');
    await expect.poll(() => tab('Notes').count()).toBe(1);
  });

  it('after the question whether to delete a sheet', async () => {
    await sheet.select('Notes!H5');
    await sheet.tab('Notes', 'Delete');
    await sheet.page.getByRole('dialog').waitFor();
    expect(await sheet.page.getByRole('dialog').evaluate((one) => one.contains(document.activeElement))).toBe(true);
    await press('Escape');
    await expect.poll(() => focus()).toBe('Cell');
    await sheet.page.keyboard.type('18');
    await press('Enter');
    expect(await sheet.value('Notes!H5')).toBe(18);
    await press('Control+z');
  });

  it('after a sheet is copied and after one is hidden', async () => {
    await sheet.select('Notes!H5');
    await sheet.tab('Notes', 'Copy');
    await expect.poll(() => focus()).toBe('Cell');
    await sheet.select('Breaks!A1');
    await sheet.tab('Breaks', 'Hide');
    await expect.poll(() => focus()).toBe('Cell');
  });
});

describe('the grid takes no focus', () => {
  it('from the pane, whose text is read and marked with the mouse', async () => {
    await sheet.select('Notes!H5');
    await sheet.page.locator('#nw-pane').getByText('Local codes and licensed practice').first().click();
    await sheet.page.waitForTimeout(300);
    expect(await focus()).not.toBe('Cell');
    const field = sheet.page.getByLabel('Search functions');
    await sheet.page.getByRole('tab', { name: 'Functions' }).click();
    await field.click();
    await sheet.page.keyboard.type('bore');
    expect(await field.inputValue()).toBe('bore');
  });

  it('after a finger, which would get a keyboard on the screen', async () => {
    const phone = await tests.open({ width: 800, height: 800, touch: true });
    await phone.page.locator('[data-u-comp="headerbar"]').tap({ position: { x: 2, y: 2 } });
    await phone.page.evaluate(() => document.activeElement instanceof HTMLElement && document.activeElement.blur());
    await phone.page.waitForTimeout(400);
    expect(await focus(phone)).toBe('BODY');
    expect(phone.trouble).toEqual([]);
    await phone.close();
  });
});

it('has had no fault in all of this', () => {
  expect(sheet.trouble).toEqual([]);
});
