import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Inspect } from '../../src/hosts/sheet/page/inspect.ts';
import { parseSpot } from '../../src/workbook/address.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

/** =SEQUENCE(3,2)/7 gives sevenths in G20:H22: 1 and 2, 3 and 4, 5 and 6. */
const SEVENTHS = '=SEQUENCE(3,2)/7';

describe('cells that a formula elsewhere fills, copied', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open({ width: 2000 });
    await sheet.type('Start!G20', SEVENTHS);
    await sheet.type('Start!I20', '70');
    await sheet.type('Start!I21', '80');
  });
  afterAll(() => tests?.close());

  const press = async (...keys: string[]) => {
    for (const key of keys) {
      await sheet.page.keyboard.press(key);
      await sheet.page.evaluate(() => (window as unknown as { narrows: Inspect }).narrows.idle());
    }
  };
  const copy = async (from: string, to: string, paste = 'Control+v') => {
    await sheet.select(from);
    await press('Control+c');
    await sheet.select(to);
    await press(paste);
  };
  const start = (...cells: string[]) => sheet.values(cells.map((cell) => `Start!${cell}`));
  const said = () => sheet.page.locator('.nw-status').textContent();
  const formula = (address: string) =>
    sheet.page.evaluate((at) => (window as unknown as { narrows: Inspect }).narrows.formula(at), address);
  const middle = async (cell: string) => {
    const { x, y, width, height } = await sheet.place(cell);
    return { x: x + width / 2, y: y + height / 2 };
  };
  const drag = async (from: { readonly x: number; readonly y: number }, cell: string) => {
    const to = await middle(cell);
    await sheet.page.mouse.move(from.x, from.y);
    await sheet.page.mouse.down();
    await sheet.page.mouse.move(to.x, to.y, { steps: 5 });
    await sheet.page.mouse.up();
  };
  async function saved() {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const { snapshot, sheets } = await readWorkbook(readFileSync(await (await download).path()));
    return (name: string, cell: string) => {
      const { row, column } = parseSpot(cell) ?? { row: -1, column: -1 };
      const id = sheets.find((one) => one.name === name)?.id ?? '';
      const held = snapshot.sheets[id]?.cellData?.[row]?.[column];
      const style = typeof held?.s === 'string' ? snapshot.styles[held.s] : held?.s;
      return { value: held?.v, formula: held?.f ?? undefined, format: style?.n?.pattern };
    };
  }

  it('arrive as their values, beside cells of their own, and go in one step back', async () => {
    await copy('Start!G21:I22', 'Start!G25');
    const there = () => start('G25', 'H25', 'I25', 'G26', 'H26', 'I26');
    await expect.poll(there).toEqual([3 / 7, 4 / 7, 80, 5 / 7, 6 / 7, null]);
    expect(await formula('Start!G25')).toBe(null);
    await press('Control+z');
    await expect.poll(there).toEqual([null, null, null, null, null, null]);
    await press('Control+y');
    await expect.poll(there).toEqual([3 / 7, 4 / 7, 80, 5 / 7, 6 / 7, null]);
    expect(await start('G20', 'G21', 'H22')).toEqual([1 / 7, 3 / 7, 6 / 7]);
  });

  it('arrive on another sheet with their looks, and stand in the file as values', async () => {
    const from = await sheet.values(['Results!A12', 'Results!D12']);
    await copy('Results!D12:F14', 'Notes!H20');
    await copy('Results!A12', 'Notes!H25');
    await expect.poll(() => sheet.values(['Notes!H25', 'Notes!H20'])).toEqual(from);
    const cell = await saved();
    const { format } = cell('Results', 'D12');
    expect(format).toMatch(/0/);
    expect(cell('Notes', 'H20')).toEqual({ value: from[1], formula: undefined, format });
    expect(cell('Notes', 'H25')).toMatchObject({ value: from[0], formula: undefined });
    expect(cell('Start', 'H26')).toMatchObject({ value: 6 / 7, formula: undefined });
  });

  it('come with their formula where that is copied, whole or with a part of what it fills', async () => {
    await copy('Start!G20:H22', 'Start!K20');
    await copy('Start!G20:H21', 'Start!N20');
    await expect.poll(() => start('K20', 'L22', 'N20', 'N21', 'O22')).toEqual([1 / 7, 6 / 7, 1 / 7, 3 / 7, 6 / 7]);
    expect([await formula('Start!K20'), await formula('Start!N20')]).toEqual([SEVENTHS, SEVENTHS]);
    expect([await formula('Start!L22'), await formula('Start!N21')]).toEqual([null, null]);
  });

  it('stay where they are when they are cut, and the bar says so', async () => {
    await sheet.select('Start!G21:H21');
    await press('Control+x');
    expect(await said()).toMatch(/^G21:H21 shows results of the formula in G20\b.*copied, not cut/);
    await sheet.select('Start!G28');
    await press('Control+v');
    await expect.poll(() => start('G28', 'H28')).toEqual([3 / 7, 4 / 7]);
    expect(await start('G20', 'G21', 'H21')).toEqual([1 / 7, 3 / 7, 4 / 7]);
  });

  it('go elsewhere when their formula is cut with them', async () => {
    await sheet.select('Start!K20:L22');
    await press('Control+x');
    await sheet.select('Start!K25');
    await press('Control+v');
    await expect.poll(() => start('K20', 'L22', 'K25', 'L27')).toEqual([null, null, 1 / 7, 6 / 7]);
  });

  it('fill the cell below, and the one beside', async () => {
    await sheet.select('Start!H22:H23');
    await press('Control+d');
    await expect.poll(() => start('H22', 'H23')).toEqual([6 / 7, 6 / 7]);
    await press('Control+z');
    await expect.poll(() => start('H22', 'H23')).toEqual([6 / 7, null]);
    await sheet.select('Start!H22:I22');
    await press('Control+r');
    await expect.poll(() => start('H22', 'I22')).toEqual([6 / 7, 6 / 7]);
    expect(await start('G20')).toEqual([1 / 7]);
  });

  it('are filled on by the handle of the selection, but not moved by its edge', async () => {
    // near the top: places are those of a sheet that is not scrolled
    await sheet.type('Conditions!E9', '=SEQUENCE(3)/7');
    const there = () => sheet.values(['E9', 'E10', 'E11', 'E12', 'E13'].map((cell) => `Conditions!${cell}`));
    await sheet.select('Conditions!E9');
    const { x, y, width, height } = await sheet.place('E11');
    await sheet.page.mouse.click(x + width / 2, y + height / 2);
    await sheet.page.waitForTimeout(500);
    await drag({ x, y: y + height / 2 }, 'E13');
    await expect.poll(said).toMatch(/^E11 shows results of the formula in E9\b.*nothing was moved/);
    expect(await there()).toEqual([1 / 7, 2 / 7, 3 / 7, null, null]);
    await drag({ x: x + width, y: y + height }, 'E13');
    await expect.poll(there).toEqual([1 / 7, 2 / 7, 3 / 7, 3 / 7, 3 / 7]);
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});

describe('cells that are pasted without looks', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open({ width: 1600 });
    // shown as 0.7
    await sheet.type('Units!E10', '=2/3');
  });
  afterAll(() => tests?.close());

  const copied = async () => {
    await sheet.select('Units!E10');
    await sheet.page.keyboard.press('Control+c');
    await sheet.page.waitForTimeout(300);
  };
  const pasted = async (cell: string) => {
    await sheet.select(cell);
    await sheet.page.keyboard.press('Control+Shift+V');
  };
  const mayRead = () => sheet.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);

  it('give their values, not what they show of them', async () => {
    await copied();
    await pasted('Notes!H2');
    await expect.poll(() => sheet.value('Notes!H2')).toBe(2 / 3);
  });

  it('are told from the same text of another program by whether the person was away, where the page may not look', async () => {
    await sheet.page.evaluate(() => {
      navigator.clipboard.read = () => Promise.reject(new DOMException('Read permission denied.', 'NotAllowedError'));
    });
    await copied();
    await pasted('Notes!H3');
    await expect.poll(() => sheet.value('Notes!H3')).toBe(2 / 3);
    await sheet.page.evaluate(() => dispatchEvent(new Event('blur')));
    await pasted('Notes!H4');
    await expect.poll(() => sheet.value('Notes!H4')).toBe(0.7);
    await sheet.page.evaluate(() => Reflect.deleteProperty(navigator.clipboard, 'read'));
  });

  it('are known again when the person comes back from another program without a copy', async () => {
    await mayRead();
    await copied();
    await sheet.page.evaluate(() => dispatchEvent(new Event('blur')));
    await pasted('Notes!H7');
    await expect.poll(() => sheet.value('Notes!H7')).toBe(2 / 3);
  });

  it('leave text of other programs as it is, the same text too', async () => {
    await mayRead();
    await copied();
    for (const [cell, text, value] of [
      ['Notes!H5', '0.7', 0.7],
      ['Notes!H6', '0.70', 0.7],
    ] as const) {
      await sheet.page.evaluate((given) => navigator.clipboard.writeText(given), text);
      await pasted(cell);
      await expect.poll(() => sheet.value(cell)).toBe(value);
    }
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
