import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newWorkbook } from '../../src/workbook/build.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { narrows } from './run.ts';

let folder = '';
const inFolder = (...names: string[]): string => join(folder, ...names);
const bookOf = (formula: string): Promise<Uint8Array> =>
  newWorkbook({ title: 'One', sheets: [{ name: 'One', cells: { A1: { formula } } }] });

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'narrows-many-'));
  mkdirSync(inFolder('other'));
  for (let i = 1; i <= 4; i++)
    writeFileSync(inFolder(`book${i}.xlsx`), await bookOf(`=NARROWS.CONVERT(${i},"in","mm")`));
  writeFileSync(inFolder('other', 'book1.xlsx'), await bookOf('=1'));
  writeFileSync(inFolder('faulty.xlsx'), await bookOf('=NARROWS.TUBE.BORE("9/7 in")'));
  writeFileSync(inFolder('broken.xlsx'), 'no workbook');
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('several workbooks in one call', () => {
  it('are each filled into a copy of their name', async () => {
    const books = [1, 2, 3, 4].map((i) => inFolder(`book${i}.xlsx`));
    const before = books.map((book) => readFileSync(book));
    const { status, err } = await narrows(['fill', ...books, '--out', inFolder('out')]);
    expect({ status, err }).toEqual({ status: 0, err: '' });
    for (let i = 1; i <= 4; i++) {
      const { snapshot } = await readWorkbook(readFileSync(inFolder('out', `book${i}.xlsx`)));
      const [sheet] = Object.values(snapshot.sheets);
      // one inch is 25.4 mm by definition
      expect(sheet?.cellData?.[0]?.[0]?.v).toBeCloseTo(25.4 * i, 12);
    }
    expect(books.map((book) => readFileSync(book))).toEqual(before);
  });

  it('are done although one cannot be read, which is told, and one ends in an error, which is told by its name', async () => {
    const { status, err } = await narrows([
      'fill',
      ...['broken', 'faulty', 'book2'].map((name) => inFolder(`${name}.xlsx`)),
      '--out',
      inFolder('mixed'),
    ]);
    expect(status).toBe(2);
    expect(err).toContain('cannot read');
    expect(err).toContain(`${inFolder('faulty.xlsx')}: One!A1 #`);
    expect(existsSync(inFolder('mixed', 'book2.xlsx'))).toBe(true);
    expect(existsSync(inFolder('mixed', 'faulty.xlsx'))).toBe(true);
    expect(existsSync(inFolder('mixed', 'broken.xlsx'))).toBe(false);
  });

  it('are .xlsx files, whatever they were read from, with the text of links that formulas give', async () => {
    writeFileSync(inFolder('plan.xltx'), await bookOf('=HYPERLINK("#One!B2","go")'));
    const { status } = await narrows(['fill', inFolder('plan.xltx'), '--out', inFolder('kinds')]);
    expect(status).toBe(0);
    const { snapshot } = await readWorkbook(readFileSync(inFolder('kinds', 'plan.xlsx')));
    expect(Object.values(snapshot.sheets)[0]?.cellData?.[0]?.[0]?.v).toBe('go');
  });

  it.each([
    [
      'two of one name',
      () => [inFolder('book1.xlsx'), inFolder('other', 'book1.xlsx'), '--out', inFolder('o')],
      'one name',
    ],
    [
      'one name for all copies',
      () => [inFolder('book1.xlsx'), inFolder('book2.xlsx'), '-o', inFolder('o.xlsx')],
      '--out',
    ],
    ['no place for the copies', () => [inFolder('book1.xlsx')], '--out'],
    [
      'the folder they stand in',
      () => [inFolder('book1.xlsx'), inFolder('book2.xlsx'), '--out', folder],
      'never changed',
    ],
  ] as const)('are refused for %s', async (_, args, words) => {
    const before = readFileSync(inFolder('book1.xlsx'));
    const { status, err } = await narrows(['fill', ...args()]);
    expect(status).toBe(2);
    expect(err).toContain(words);
    expect(readFileSync(inFolder('book1.xlsx'))).toEqual(before);
  });
});
