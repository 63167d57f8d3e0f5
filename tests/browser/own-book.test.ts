import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newWorkbook } from '../../src/workbook/build.ts';
import { partText } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

describe("a person's own workbook in the page", () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'narrows-own-'));
  const book = path.join(folder, 'own book.xlsx');
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    const cells = { A1: 'mine', A2: 2, A3: { formula: '=NARROWS.SERIES(A2,2)' } };
    const colours = { A12: 'red', A13: 'blue', A14: 'green' };
    const listed = { name: 'Listed', cells: colours, validations: [{ range: 'F2', list: '=$A$12:$A$14' }] };
    const wrong = {
      A1: 'Size',
      B1: 'Length (m)',
      A2: '3/8 in',
      B2: -3,
      A4: { formula: '=NARROWS.RUN.VOLUME(A1:B2)' },
      A5: { formula: '=NARROWS.WHY("RUN.VOLUME",A1:B2)' },
    };
    const model = { title: 'Own', sheets: [{ name: 'Parts', cells }, listed, { name: 'Wrong', cells: wrong }] };
    writeFileSync(book, await newWorkbook(model));
    tests = await startSheetTests(book);
    sheet = await tests.open();
  });
  afterAll(async () => {
    await tests?.close();
    rmSync(folder, { recursive: true });
  });

  it('is opened, worked out and named in the title', async () => {
    expect(await sheet.page.title()).toContain('own book.xlsx');
    expect(await sheet.values(['Parts!A1', 'Parts!A3'])).toEqual(['mine', 1]);
  });

  it('offers a list of the same sheet where rows have moved it', async () => {
    await sheet.menu('Listed!A8', 'Insert', /rows above/);
    await sheet.select('Listed!F2');
    const options = sheet.page.locator('.nw-pick option');
    await expect.poll(() => options.allTextContents()).toEqual(['(blank)', 'red', 'blue', 'green']);
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => options.allTextContents()).toEqual(['(blank)', 'red', 'blue', 'green']);
    expect(await sheet.value('Listed!A12')).toBe('red');
  });

  it('tells faults of its tables with the name that their sheet has by now', async () => {
    const foot = sheet.page.getByRole('status', { name: 'Selected cell' });
    const addresses = async (): Promise<(string | undefined)[]> => {
      const said = [await foot.textContent(), await sheet.value('A5')];
      return said.map((text) => /((?:Wrong|Mended)!B2): Length/.exec(String(text))?.[1]);
    };
    await sheet.select('Wrong!A4');
    await expect.poll(addresses).toEqual(['Wrong!B2', 'Wrong!B2']);
    await sheet.tab('Wrong', 'Rename');
    await sheet.page.waitForTimeout(300);
    await sheet.page.keyboard.press('Control+a');
    await sheet.page.keyboard.type('Mended');
    await sheet.page.keyboard.press('Enter');
    await expect.poll(addresses).toEqual(['Mended!B2', 'Mended!B2']);
    await sheet.select('Mended!A8');
    await sheet.page.keyboard.press('Control+z');
    await expect.poll(() => sheet.value('Wrong!B2')).toBe(-3);
    await sheet.select('Wrong!A4');
    await expect.poll(addresses).toEqual(['Wrong!B2', 'Wrong!B2']);
  });

  it("gets the template's sheets beside its own, which stay as they are", async () => {
    await sheet.page.locator('.nw-pane').getByRole('tab', { name: 'Workbook' }).click();
    await sheet.page.getByRole('button', { name: 'Add the template sheets' }).click();
    await sheet.page.getByText(/^Added: .*Units.*Already there and left alone: Parts\.$/).waitFor();
    expect(await sheet.value('Parts!A1')).toBe('mine');
    expect(await sheet.value('Conditions!A4')).toBe('Name');
    // The results read the table called Parts, which the template's own sheet of that name would have held.
    await expect.poll(() => sheet.value('Results!A10')).toEqual(expect.stringMatching(/^#|^Unit$/));
  });

  it('takes those sheets and their looks along when it is saved', async () => {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const file = path.join(folder, 'saved.xlsx');
    await (await download).saveAs(file);
    const { snapshot, parts, layout, sheets } = await readWorkbook(readFileSync(file));
    expect(partText(parts, layout.workbook)).toMatch(/name="Conditions"[^>]*>Conditions!\$A\$4:/);
    const names = snapshot.sheetOrder.map((id) => snapshot.sheets[id]?.name);
    expect(names[0]).toBe('Parts');
    expect(names).toContain('Conditions');
    const units = Object.values(snapshot.sheets).find(({ name }) => name === 'Units');
    const header = units?.cellData?.[3]?.[0];
    expect(header?.v).toBe('Unit');
    expect(typeof header?.s === 'string' ? snapshot.styles[header.s]?.bl : undefined).toBe(1);
    // with what they have beside their cells
    const template = await readWorkbook(readFileSync('templates/narrows-template.xlsx'));
    for (const name of ['Units', 'Results', 'Curves']) {
      const [now, was] = [sheets, template.sheets].map((all) => all.find((one) => one.name === name)?.extras);
      expect(now?.lists).toEqual(was?.lists);
      expect(now?.print).toEqual(was?.print);
      expect(now?.charts.map(({ title, series }) => [title, series])).toEqual(
        was?.charts.map(({ title, series }) => [title, series]),
      );
    }
    expect(sheet.trouble).toEqual([]);
  });
});
