import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

describe('a selection that is dragged on the sheet in view', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open({ width: 2000 });
  });
  afterAll(() => tests?.close());

  const selected = () => sheet.page.getByRole('status', { name: 'Selected cell' }).textContent();
  const go = async (tab: string) => {
    await sheet.page.locator('footer').getByText(tab, { exact: true }).click();
    await expect.poll(selected, { timeout: 10_000 }).toMatch(new RegExp(`^${tab}!`));
  };
  /** A click that comes while the page still draws the sheet may fall beside the cell: then it comes again, too late for a double click. */
  const click = async (cell: string) => {
    const clicked = async () => {
      const { x, y, width, height } = await sheet.place(cell);
      await sheet.page.mouse.click(x + width / 2, y + height / 2);
      await sheet.page.waitForTimeout(500);
      return selected();
    };
    await expect.poll(clicked, { interval: 1_000, timeout: 15_000 }).toMatch(new RegExp(`!${cell}\\b`));
  };
  const drag = async (from: { readonly x: number; readonly y: number }, cell: string) => {
    const to = await sheet.place(cell);
    await sheet.page.mouse.move(from.x, from.y);
    await sheet.page.mouse.down();
    await sheet.page.mouse.move(to.x + to.width / 2, to.y + to.height / 2, { steps: 5 });
    await sheet.page.mouse.up();
  };
  /** The cell that is selected was clicked before the last one that was, which is on another sheet. */
  const comeBack = async (tab: string, cell: string) => {
    await go(tab);
    await click(cell);
    await go('Parts');
    await click('A10');
    await sheet.page.keyboard.type('B mine');
    await sheet.page.keyboard.press('Enter');
    await sheet.page.keyboard.press('Control+z');
    await go(tab);
  };
  const column = (tab: string, letter: string, first: number, last: number) =>
    sheet.values(Array.from({ length: last - first + 1 }, (_, at) => `${tab}!${letter}${first + at}`));

  it('fills the cells under the pointer, though the last click was on another sheet', async () => {
    const before = await column('Units', 'D', 9, 14);
    await comeBack('Units', 'D10');
    const { x, y, width, height } = await sheet.place('D10');
    await drag({ x: x + width, y: y + height }, 'D13');
    const [above, filled, , , , below] = before;
    await expect.poll(() => column('Units', 'D', 9, 14)).toEqual([above, filled, filled, filled, filled, below]);
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => column('Units', 'D', 9, 14)).toEqual(before);
  });

  it('moves by its edge to the cells under the pointer', async () => {
    await sheet.type('Conditions!E9', '41');
    await comeBack('Conditions', 'E9');
    const { x, y, height } = await sheet.place('E9');
    await drag({ x, y: y + height / 2 }, 'E12');
    await expect.poll(() => column('Conditions', 'E', 8, 14)).toEqual([null, null, null, null, 41, null, null]);
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
