import type { Stats } from 'node:fs';
import { readFile } from 'node:fs/promises';

/** The workbook that was read last: a page that is loaded again gets the same, unless the file has changed. */
let last: { readonly of: string; readonly packed: Promise<Uint8Array> } | undefined;

/**
 * A workbook's file with what reading it gave, so that the page need not read it: while its scripts are fetched, the
 * server has nothing to do.
 * @throws where the file cannot be read
 */
export function packedBook(file: string, { size, mtimeMs }: Stats): Promise<Uint8Array> {
  const of = JSON.stringify([file, size, mtimeMs]);
  if (last?.of !== of) last = { of, packed: pack(file) };
  return last.packed;
}

async function pack(file: string): Promise<Uint8Array> {
  const [bytes, { packBook }, { readWorkbook }] = await Promise.all([
    readFile(file),
    import('../../workbook/packed.ts'),
    import('../../workbook/read.ts'),
  ]);
  // The page reads what cannot be read again, and says what is wrong with it.
  return packBook(bytes, await readWorkbook(bytes).catch(() => undefined));
}
