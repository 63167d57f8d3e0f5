import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { packBook, unpackBook } from '../../src/workbook/packed.ts';
import { readWorkbook } from '../../src/workbook/read.ts';

const TEMPLATES = readdirSync('templates').filter((name) => name.endsWith('.xlsx'));

describe('a workbook passed on as it was read', () => {
  it.each(TEMPLATES)('is the same for %s', async (name) => {
    const file = new Uint8Array(readFileSync(`templates/${name}`));
    const book = await readWorkbook(file);
    const passed = unpackBook(packBook(file, book));
    expect(passed.file).toEqual(file);
    expect(passed.book?.snapshot).toEqual(book.snapshot);
    expect(passed.book?.sheets).toEqual(book.sheets);
    expect(passed.book?.layout).toEqual(book.layout);
    expect([...(passed.book?.parts ?? [])]).toEqual([...book.parts]);
  });

  it('is the file alone where nothing was read', () => {
    const file = new Uint8Array([1, 2, 3]);
    expect(unpackBook(packBook(file, undefined))).toEqual({ file, book: undefined });
  });
});
