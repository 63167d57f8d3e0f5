import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Inspect } from '../../src/hosts/sheet/page/inspect.ts';
import { blockName } from '../../src/workbook/address.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

type WithNarrows = Window & { readonly narrows: Inspect };

const DOWN = {
  C1: '=SUM(A1:A6)',
  C8: '=A1',
  C9: '=A5',
  C10: '=A6',
  C12: '=A2',
  C15: '=A3',
  C16: '=SUM(ends)',
};
const ACROSS = { A9: '=SUM(A1:F1)', A10: '=E1', A11: '=SUM(G3:H3)', A12: '=C1' };

describe('rows and columns that are dragged to another place', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'narrows-moves-'));
  let tests: SheetTests;
  let sheet: SheetPage;
  let asOpened: Awaited<ReturnType<typeof all>>;
  /** of pages that were opened before */
  const trouble: string[] = [];
  beforeAll(async () => {
    const tens = [1, 10, 100, 1_000, 10_000, 100_000];
    const down = Object.fromEntries(tens.map((value, at) => [`A${at + 1}`, value]));
    const across = Object.fromEntries(tens.map((value, at) => [`${'ABCDEF'[at]}1`, value]));
    const formulas = (of: object) => Object.fromEntries(Object.entries(of).map(([at, formula]) => [at, { formula }]));
    const file = await newWorkbook({
      title: 'Moves',
      sheets: [
        {
          name: 'Down',
          cells: { ...down, ...formulas(DOWN) },
          validations: [{ range: 'E1:E2', list: '=$A$4:$A$6' }],
        },
        { name: 'Across', cells: { ...across, G3: 2, H3: 3, ...formulas(ACROSS) } },
        { name: 'Elsewhere', cells: { A1: { formula: '=SUM(Down!A1:A6)' }, A2: { formula: '=Down!$A$5' } } },
      ],
      names: [{ name: 'ends', range: 'Down!$A$1:$A$6' }],
    });
    const book = path.join(folder, 'moves.xlsx');
    writeFileSync(book, file);
    tests = await startSheetTests(book);
    sheet = await tests.open();
    asOpened = await all();
  });
  // a case that fails leaves rows where it has moved them
  afterEach(async () => {
    if (isDeepStrictEqual(await all(), asOpened)) return;
    trouble.push(...sheet.trouble);
    await sheet.close();
    sheet = await tests.open();
  });
  afterAll(async () => {
    await tests?.close();
    rmSync(folder, { recursive: true });
  });

  const idle = () => sheet.page.evaluate(() => (window as unknown as WithNarrows).narrows.idle());
  const formulas = (name: string, cells: readonly string[]) =>
    sheet.page.evaluate(
      (all) => all.map((at) => (window as unknown as WithNarrows).narrows.formula(at)),
      cells.map((cell) => `${name}!${cell}`),
    );
  const all = async () => ({
    down: await formulas('Down', Object.keys(DOWN)),
    across: await formulas('Across', Object.keys(ACROSS)),
    elsewhere: await formulas('Elsewhere', ['A1', 'A2']),
    values: await sheet.values(
      [...Object.keys(DOWN), 'A1', 'A2', 'A3', 'A4', 'A5', 'A6'].map((cell) => `Down!${cell}`),
    ),
  });
  /** Drags the heads of rows, or of columns, to another one, by the cells beside them: up in front of it, down behind it. */
  async function drag(axis: 'rows' | 'columns', first: string, last: string, to: string): Promise<void> {
    const head = async (cell: string, deep: number): Promise<[number, number]> => {
      const { x, y, width, height } = await sheet.place(cell);
      return axis === 'rows' ? [x - 15, y + height * deep] : [x + width * deep, y - 10];
    };
    const { mouse } = sheet.page;
    await mouse.move(...(await head(first, 0.5)));
    await mouse.down();
    await mouse.move(...(await head(last, 0.5)), { steps: 4 });
    await mouse.up();
    await sheet.page.waitForTimeout(300);
    await mouse.move(...(await head(first, 0.5)));
    await sheet.page.waitForTimeout(200);
    await mouse.down();
    await sheet.page.waitForTimeout(200);
    await mouse.move(...(await head(to, 0.4)), { steps: 6 });
    await mouse.move(...(await head(to, 0.15)), { steps: 6 });
    await sheet.page.waitForTimeout(400);
    await mouse.up();
    await sheet.page.waitForTimeout(400);
    await idle();
  }
  const undo = async () => {
    await sheet.page.keyboard.press('Control+z');
    await sheet.page.waitForTimeout(300);
    await idle();
  };

  // what each row holds tells it from every other one: the sums name the rows that they read
  it.each([
    { rows: [2, 2], before: 6, order: [1, 3, 4, 5, 2, 6] },
    { rows: [2, 3], before: 6, order: [1, 4, 5, 2, 3, 6] },
    { rows: [2, 3], before: 5, order: [1, 4, 2, 3, 5, 6] },
    { rows: [5, 6], before: 2, order: [1, 5, 6, 2, 3, 4] },
    { rows: [5, 6], before: 3, order: [1, 2, 5, 6, 3, 4] },
    { rows: [1, 1], before: 6, order: [2, 3, 4, 5, 1, 6] },
  ])(
    'rows $rows in front of row $before: formulas and names read what they read before',
    async ({ rows: [first = 0, last = 0], before, order }) => {
      await sheet.select('Down!H1');
      const start = await all();
      await drag('rows', `A${first}`, `A${last}`, `A${before > last ? before - 1 : before}`);
      const at = (row: number) => order.indexOf(row) + 1;
      // the cells that came to other rows hold the formulas that stood there
      const where = (cell: string) => (cell === 'C1' ? `C${at(1)}` : cell);
      expect(await sheet.values([1, 2, 3, 4, 5, 6].map((row) => `Down!A${row}`))).toEqual(
        order.map((row) => 10 ** (row - 1)),
      );
      expect(await formulas('Down', Object.keys(DOWN).map(where))).toEqual([
        '=SUM(A1:A6)',
        `=A${at(1)}`,
        `=A${at(5)}`,
        `=A${at(6)}`,
        `=A${at(2)}`,
        `=A${at(3)}`,
        '=SUM(ends)',
      ]);
      expect(await sheet.values(Object.keys(DOWN).map((cell) => `Down!${where(cell)}`))).toEqual([
        111_111, 1, 10_000, 100_000, 10, 100, 111_111,
      ]);
      expect(await formulas('Elsewhere', ['A1', 'A2'])).toEqual(['=SUM(Down!A1:A6)', `=Down!$A$${at(5)}`]);
      expect(await sheet.values(['Elsewhere!A1', 'Elsewhere!A2'])).toEqual([111_111, 10_000]);
      await undo();
      expect(await all()).toEqual(start);
    },
  );

  it('columns B to D in front of column G, and the undoing of it', async () => {
    await sheet.select('Across!H5');
    const start = await all();
    await drag('columns', 'B1', 'D1', 'F1');
    expect(await sheet.values(['A', 'B', 'C', 'D', 'E', 'F', 'G'].map((letter) => `Across!${letter}1`))).toEqual([
      1,
      10_000,
      100_000,
      10,
      100,
      1_000,
      null,
    ]);
    expect(await formulas('Across', Object.keys(ACROSS))).toEqual(['=SUM(A1:F1)', '=B1', '=SUM(G3:H3)', '=E1']);
    expect(await sheet.values(Object.keys(ACROSS).map((cell) => `Across!${cell}`))).toEqual([111_111, 10_000, 5, 100]);
    await undo();
    expect(await all()).toEqual(start);
  });

  it('are in the saved file as they are in the page', async () => {
    await sheet.select('Down!H1');
    await drag('rows', 'A2', 'A3', 'A8');
    // out of the sum, and out of the name
    expect(await sheet.values(['Down!C1', 'Down!C16', 'Elsewhere!A1'])).toEqual([111_001, 111_001, 111_001]);
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const { snapshot, sheets } = await readWorkbook(readFileSync(await (await download).path()));
    const saved = Object.values(snapshot.sheets).find(({ name }) => name === 'Down')?.cellData;
    expect([1, 6, 9, 10, 12, 15].map((row) => saved?.[row - 1]?.[2]?.f)).toEqual([
      '=SUM(A1:A4)',
      '=A1',
      '=A3',
      '=A4',
      '=A7',
      '=A8',
    ]);
    const [list] = sheets.find(({ name }) => name === 'Down')?.extras.lists ?? [];
    expect(list?.blocks.map(blockName)).toEqual(['E1', 'E7']);
    expect(list?.from).toMatch(/^=?\$A\$2:\$A\$4$/);
    expect(JSON.stringify(snapshot.resources)).toContain('Down!$A$1:$A$4');
  });

  it('have had no fault in all of this', () => {
    expect([...trouble, ...sheet.trouble]).toEqual([]);
  });
});
