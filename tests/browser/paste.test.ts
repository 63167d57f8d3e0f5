import { readFileSync } from 'node:fs';
import type { IStyleData } from '@univerjs/core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/workbook/read.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

type Looks = Record<string, IStyleData>;

describe('text of another spreadsheet that is pasted into a table', () => {
  let tests: SheetTests;
  let sheet: SheetPage;
  let asBuilt: Looks;
  beforeAll(async () => {
    tests = await startSheetTests();
    sheet = await tests.open({ width: 1600 });
    await sheet.page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    asBuilt = await looksIn(readFileSync('templates/narrows-template.xlsx'), CELLS);
  });
  afterAll(() => tests?.close());

  /** Text, a whole number, one with a decimal, and the row below: of the look of inputs, and of three number formats. */
  const CELLS = ['C10', 'D10', 'E10', 'C11', 'D11', 'E11'];
  const TABLE = 'R-32\t12\t8.25\nR-410A\t7\t50%\n';

  async function looksIn(file: Uint8Array, cells: readonly string[], name = 'Units'): Promise<Looks> {
    const { snapshot, sheets } = await readWorkbook(file);
    const id = sheets.find((one) => one.name === name)?.id ?? '';
    const held = snapshot.sheets[id]?.cellData ?? {};
    return Object.fromEntries(
      cells.map((cell) => {
        const column = cell.charCodeAt(0) - 'A'.charCodeAt(0);
        const style = held[Number(cell.slice(1)) - 1]?.[column]?.s;
        return [cell, (typeof style === 'string' ? snapshot.styles[style] : style) ?? {}];
      }),
    );
  }
  async function saved(cells: readonly string[] = CELLS, name = 'Units'): Promise<Looks> {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    return looksIn(readFileSync(await (await download).path()), cells, name);
  }
  async function copied(kinds: Record<string, string>): Promise<void> {
    await sheet.page.evaluate(async (given) => {
      const items = Object.entries(given).map(([type, text]) => [type, new Blob([text], { type })] as const);
      await navigator.clipboard.write([new ClipboardItem(Object.fromEntries(items))]);
    }, kinds);
  }
  async function paste(address: string, kinds: Record<string, string>): Promise<void> {
    await copied(kinds);
    await sheet.select(address);
    await sheet.page.keyboard.press('Control+v');
  }
  async function undo(): Promise<void> {
    // saving took the keys away from the grid
    await sheet.select('Units!C10');
    await sheet.page.keyboard.press('Control+z');
  }
  const values = () => sheet.values(CELLS.map((cell) => `Units!${cell}`));
  const PASTED = ['R-32', 12, 8.25, 'R-410A', 7, 0.5];

  it('begins with cells that look like inputs', () => {
    for (const cell of CELLS)
      expect(asBuilt[cell], cell).toMatchObject({ bg: { rgb: expect.stringMatching(/fff8dc/i) } });
    expect(CELLS.map((cell) => asBuilt[cell]?.n?.pattern)).toEqual([undefined, '0', '0.0', undefined, '0', '0.0']);
  });

  it('takes the looks and the number formats of the cells, and gives the values back when it is undone', async () => {
    const before = await values();
    await paste('Units!C10', { 'text/plain': TABLE });
    await expect.poll(values).toEqual(PASTED);
    expect(await saved()).toEqual(asBuilt);
    await undo();
    await expect.poll(values).toEqual(before);
    expect(await saved()).toEqual(asBuilt);
  });

  it('does so too where a table of HTML without looks stands beside the text', async () => {
    const rows = ['<tr><td>R-32</td><td>12</td><td>8.25</td></tr>', '<tr><td>R-410A</td><td>7</td><td>50%</td></tr>'];
    await paste('Units!C10', { 'text/plain': TABLE, 'text/html': `<table border="1">${rows.join('')}</table>` });
    await expect.poll(values).toEqual(PASTED);
    expect(await saved()).toEqual(asBuilt);
    await undo();
  });

  it('does so too from the menu of a cell', async () => {
    await copied({ 'text/plain': TABLE });
    await sheet.select('Units!C10');
    const { x, y } = await sheet.place('C10');
    await sheet.page.mouse.click(x + 20, y + 8, { button: 'right' });
    await sheet.page.getByText('Paste', { exact: true }).last().click();
    await expect.poll(values).toEqual(PASTED);
    expect(await saved()).toEqual(asBuilt);
    await undo();
  });

  it('brings its looks along where HTML gives it some', async () => {
    const cell = '<td style="background-color:#00ff00">41</td>';
    await paste('Units!D10', { 'text/plain': '41\n', 'text/html': `<table><tr>${cell}</tr></table>` });
    await expect.poll(() => sheet.value('Units!D10')).toBe(41);
    expect((await saved()).D10).toMatchObject({ bg: { rgb: expect.stringMatching(/00ff00|0, ?255, ?0/i) } });
    await undo();
    await expect.poll(() => sheet.value('Units!D10')).toBe(10);
  });

  it('leaves the number format of a cell where it is a single text', async () => {
    await paste('Units!E10', { 'text/plain': '25%' });
    await expect.poll(() => sheet.value('Units!E10')).toBe(0.25);
    expect((await saved()).E10).toEqual(asBuilt.E10);
    await undo();
    await expect.poll(() => sheet.value('Units!E10')).toBe(null);
  });

  it('gives cells without a number format that of the text, as when it is typed', async () => {
    await paste('Notes!H3', { 'text/plain': '25%\t3\n' });
    await expect.poll(() => sheet.values(['Notes!H3', 'Notes!I3'])).toEqual([0.25, 3]);
    const { H3, I3 } = await saved(['H3', 'I3'], 'Notes');
    expect([H3?.n?.pattern, I3?.n?.pattern]).toEqual(['0%', undefined]);
  });

  it('takes the place of formulas, and formulas in it take the place of values', async () => {
    await sheet.type('Notes!H5', '=1+1');
    await paste('Notes!H5', { 'text/plain': '7\t=H5*2\n' });
    await expect.poll(() => sheet.values(['Notes!H5', 'Notes!I5'])).toEqual([7, 14]);
    await sheet.type('Notes!H5', '8');
    expect(await sheet.value('Notes!I5')).toBe(16);
  });

  it('has had no fault in all of this', () => {
    expect(sheet.trouble).toEqual([]);
  });
});
