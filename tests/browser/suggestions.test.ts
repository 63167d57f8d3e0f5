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

describe('a function that is typed', () => {
  /** The suggestions under the word that is typed. */
  const list = () => sheet.page.locator('ul[data-u-comp="sheets-formula-editor"] li');
  /** What the edit bar shows of a cell: its formula. */
  const formula = (cell: string) =>
    sheet.page.evaluate(
      (at) => (window as unknown as { narrows: { formula(at: string): string } }).narrows.formula(at),
      cell,
    );

  /** Types the begin of an entry, waits until the list stands open, types on and ends the entry at once. */
  async function overtake(cell: string, begin: string, rest: string, delay: number, key: string): Promise<void> {
    await sheet.select(cell);
    await sheet.page.keyboard.type(begin, { delay });
    await list().first().waitFor();
    await sheet.page.keyboard.type(rest, { delay });
    await sheet.page.keyboard.press(key);
  }

  const whole = '=NARROWS.REGIME(1,1)';
  const begins = ['=NARROWS.', '=NARROWS.RE', '=NARROWS.REGIME'];
  it.each([0, 10, 25, 50])('stays as it was typed when the list has not followed, %i ms a key', async (delay) => {
    for (const [row, begin] of begins.entries()) {
      const cell = `Notes!J${row + 1}`;
      await overtake(cell, begin, whole.slice(begin.length), delay, row === 1 ? 'Tab' : 'Enter');
      await expect.poll(() => formula(cell), { message: `from ${begin}` }).toBe(whole);
      await sheet.select(cell);
      await sheet.page.keyboard.press('Delete');
    }
  });

  it.each([0, 25, 80])('stays as it was typed, %i ms a key without a pause', async (delay) => {
    for (let row = 1; row <= 3; row++) {
      await sheet.select(`Notes!K${row}`);
      await sheet.page.keyboard.type(whole, { delay });
      await sheet.page.keyboard.press(row % 2 === 0 ? 'Enter' : 'Tab');
      await expect.poll(() => formula(`Notes!K${row}`)).toBe(whole);
      await sheet.select(`Notes!K${row}`);
      await sheet.page.keyboard.press('Delete');
    }
  });

  it.each(['Enter', 'Tab'])('is taken from the list by %s where the list is of the word at the cursor', async (key) => {
    await sheet.select('Notes!L1');
    await sheet.page.keyboard.type('=NARROWS.REGI');
    await list().filter({ hasText: 'NARROWS.REGIME' }).first().waitFor();
    await sheet.page.keyboard.press(key);
    // the library sets the cursor behind the bracket a moment later
    await sheet.page.waitForTimeout(150);
    await sheet.page.keyboard.type('1,1)');
    await sheet.page.keyboard.press('Enter');
    await expect.poll(() => formula('Notes!L1')).toBe('=NARROWS.REGIME(1,1)');
    await sheet.type('Notes!L1', '1');
  });
});

it('has had no fault in all of this', () => {
  expect(sheet.trouble).toEqual([]);
});
