import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { rebuild } from '../../src/hosts/sheet/save/rebuild.ts';
import { renumbered } from '../../src/hosts/sheet/save/save-book.ts';
import type { SheetEdit } from '../../src/workbook/edits.ts';
import { partText, readParts, textPart, writeParts } from '../../src/workbook/package.ts';
import { type Book, readWorkbook } from '../../src/workbook/read.ts';
import { writeWorkbook } from '../../src/workbook/write.ts';
import { books } from '../../templates/books.ts';
import { faultsOfFile } from './validity.ts';

const read = (name: string) => readWorkbook(new Uint8Array(readFileSync(`templates/${name}.xlsx`)));
const saved = (book: Book, options = {}): Uint8Array =>
  writeWorkbook(book, { snapshot: book.snapshot, spills: [] }, options);
/** As the page saves it: the formulas of the file that is made anew are put in by the second step. */
const anew = async ({ snapshot, ...book }: Book, edits: readonly SheetEdit[] = []): Promise<Uint8Array> => {
  const made = await readWorkbook(await rebuild({ snapshot, ...book }, snapshot, edits));
  return writeWorkbook(made, { snapshot: renumbered(snapshot, made), spills: [] });
};

describe('the check of files', () => {
  it('finds a part of which two things are said, an entry out of order, and a look that is not there', async () => {
    const parts = () => readParts(new Uint8Array(readFileSync('templates/example-trainee.xlsx')));
    const spoiled = (part: string, change: (xml: string) => string) => {
      const all = parts();
      return writeParts(all.set(part, textPart(change(partText(all, part) ?? ''))));
    };
    const said = /<Override PartName="\/xl\/metadata\.xml"[^>]*>/;
    expect(await faultsOfFile(spoiled('[Content_Types].xml', (xml) => xml.replace(said, '$&$&')))).toEqual([
      expect.stringContaining('cannot be opened'),
    ]);
    const order = spoiled('xl/styles.xml', (xml) => xml.replace('<font>', '<font><name val="x"/><b/>'));
    expect(await faultsOfFile(order)).not.toEqual([]);
    const look = spoiled('xl/worksheets/sheet1.xml', (xml) => xml.replace(/(<c [^>]*s=")\d+/, '$19999'));
    expect(await faultsOfFile(look)).not.toEqual([]);
  });
});

describe.each(Object.keys(books))('%s as shipped', (name) => {
  it('has no fault', { timeout: 180_000 }, async () => {
    expect(await faultsOfFile(new Uint8Array(readFileSync(`templates/${name}.xlsx`)))).toEqual([]);
  });
});

describe('a workbook with arrays, charts, lists and a comment has no fault', () => {
  it('saved as it is, and with values in place of our formulas', async () => {
    const book = await read('example-estimator');
    expect(await faultsOfFile(saved(book))).toEqual([]);
    expect(await faultsOfFile(saved(book, { valuesOnly: true }))).toEqual([]);
  });

  it('made anew as it is, with its sheets turned round, with rows put in, and without its first sheet', async () => {
    const book = await read('example-estimator');
    expect(await faultsOfFile(await anew(book))).toEqual([]);
    const { sheetOrder, sheets } = book.snapshot;
    const [first = '', ...others] = sheetOrder;
    const turned = { ...book, snapshot: { ...book.snapshot, sheetOrder: [...sheetOrder].reverse() } };
    expect(await faultsOfFile(await anew(turned))).toEqual([]);
    const rows = Object.entries(sheets[first]?.cellData ?? {}).map(([row, cells]) => [Number(row) + 2, cells] as const);
    const moved = { ...sheets[first], cellData: Object.fromEntries(rows) };
    const lower = { ...book, snapshot: { ...book.snapshot, sheets: { ...sheets, [first]: moved } } };
    const edit: SheetEdit = { kind: 'insert', sheet: moved.name ?? '', axis: 'row', at: 0, count: 2 };
    expect(await faultsOfFile(await anew(lower, [edit]))).toEqual([]);
    expect(await faultsOfFile(await anew({ ...book, snapshot: { ...book.snapshot, sheetOrder: others } }))).toEqual([]);
  });

  it('made anew twice', async () => {
    const again = await readWorkbook(await anew(await read('example-estimator')));
    expect(await faultsOfFile(await anew(again))).toEqual([]);
  });
});
