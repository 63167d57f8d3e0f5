import { afterAll, beforeAll, expect, it, vi } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

vi.setConfig({ testTimeout: 120_000 });

let tests: SheetTests;
let sheet: SheetPage;
beforeAll(async () => {
  tests = await startSheetTests();
  sheet = await tests.open({ width: 1600 });
  await sheet.select('Notes!A1');
});
afterAll(() => tests?.close());

/** The words of the page outside of the pane, whose cautions have words of protection of their own. */
const words = () =>
  sheet.page.evaluate(() =>
    [...document.body.children].map((part) => (part.id === 'nw-pane' ? '' : part.textContent)).join('\n'),
  );
/** Words of protection, in the library's own language for it. */
const PROTECTION = /protect|permission/i;

/** Where a cell or the head of its row or column is: heads are left of A and above row 1. */
const placeOf = async (kind: 'cell' | 'row' | 'column') => {
  const { x, y, width, height } = await sheet.place(kind === 'row' ? 'A3' : 'C1');
  if (kind === 'row') return { x: x - 20, y: y + height / 2 };
  return { x: x + width / 2, y: kind === 'column' ? y - 10 : y + height / 2 };
};

it.each([
  ['cell', 'Freeze'],
  ['row', 'Delete Selected Row'],
  ['column', 'Delete Selected Column'],
] as const)('offers no protection in the menu of a %s, since the file would have none', async (kind, known) => {
  const { x, y } = await placeOf(kind);
  await sheet.page.mouse.click(x, y);
  await sheet.page.mouse.click(x, y, { button: 'right' });
  await sheet.page.getByText(known, { exact: true }).last().waitFor();
  expect(await words()).not.toMatch(PROTECTION);
  await sheet.page.keyboard.press('Escape');
  await sheet.page.waitForTimeout(300);
});

it('offers none in the menu of a tab', async () => {
  await sheet.page.getByText('Notes', { exact: true }).last().click({ button: 'right' });
  await sheet.page.getByText('Rename', { exact: true }).waitFor();
  expect(await words()).not.toMatch(PROTECTION);
  await sheet.page.keyboard.press('Escape');
});

it('offers none in the toolbar, nor among what that puts behind its More', async () => {
  const commands = await sheet.page.evaluate(() =>
    [...document.querySelectorAll('[data-u-command]')].map((one) => one.getAttribute('data-u-command') ?? ''),
  );
  expect(commands).toContain('sheet.command.set-range-bold');
  expect(commands.filter((command) => PROTECTION.test(command))).toEqual([]);
});

it('has had no fault in all of this', () => {
  expect(sheet.trouble).toEqual([]);
});
