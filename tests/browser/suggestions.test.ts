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
  /** What the edit bar shows of a cell: its formula. */
  const formula = (cell: string) =>
    sheet.page.evaluate(
      (at) => (window as unknown as { narrows: { formula(at: string): string } }).narrows.formula(at),
      cell,
    );

  it('stays as it was typed when Enter comes before the list has followed', async () => {
    await sheet.select('Notes!J1');
    await sheet.page.keyboard.type('=NARROWS.');
    await sheet.page.getByRole('listitem').filter({ hasText: 'NARROWS.' }).first().waitFor();
    await sheet.page.keyboard.type('REGIME(1,1)');
    await sheet.page.keyboard.press('Enter');
    await expect.poll(() => formula('Notes!J1')).toBe('=NARROWS.REGIME(1,1)');
  });

  it.each([0, 10, 25, 40, 60, 100])('stays as it was typed, %i ms a key, time after time', async (delay) => {
    for (let row = 1; row <= 5; row++) {
      await sheet.select(`Notes!K${row}`);
      await sheet.page.keyboard.type('=NARROWS.REGIME(1,1)', { delay });
      await sheet.page.keyboard.press(row % 2 === 0 ? 'Enter' : 'Tab');
      await expect.poll(() => formula(`Notes!K${row}`)).toBe('=NARROWS.REGIME(1,1)');
      await sheet.page.keyboard.press('Delete');
    }
  });

  it.each(['Enter', 'Tab'])('is taken from the list by %s where the list is of the word at the cursor', async (key) => {
    await sheet.select('Notes!L1');
    await sheet.page.keyboard.type('=NARROWS.REGI');
    await sheet.page.getByText('NARROWS.REGIME', { exact: true }).waitFor();
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
