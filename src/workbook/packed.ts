import { readParts } from './package.ts';
import type { Book } from './read.ts';

/**
 * A workbook that was read already, beside the file that it came from: a reader elsewhere need not read it again. Own form,
 * for passing on at once and not for keeping: a length (4 bytes, big-endian), that much JSON in UTF-8, the file. The length
 * is 0 where nothing was read.
 */
const LENGTH_BYTES = 4;

/** @param book what reading `file` gave; undefined where that failed */
export function packBook(file: Uint8Array, book: Book | undefined): Uint8Array<ArrayBuffer> {
  const { snapshot, sheets, layout } = book ?? {};
  const json =
    book === undefined ? new Uint8Array(0) : new TextEncoder().encode(JSON.stringify({ snapshot, sheets, layout }));
  const packed = new Uint8Array(LENGTH_BYTES + json.length + file.length);
  new DataView(packed.buffer).setUint32(0, json.length);
  packed.set(json, LENGTH_BYTES);
  packed.set(file, LENGTH_BYTES + json.length);
  return packed;
}

/** The file, and what was read from it. Its parts are unpacked when first asked for. */
export function unpackBook(packed: Uint8Array): { readonly file: Uint8Array; readonly book: Book | undefined } {
  const length = new DataView(packed.buffer, packed.byteOffset).getUint32(0);
  const file = packed.subarray(LENGTH_BYTES + length);
  if (length === 0) return { file, book: undefined };
  const read = JSON.parse(new TextDecoder().decode(packed.subarray(LENGTH_BYTES, LENGTH_BYTES + length)));
  let parts: Book['parts'] | undefined;
  const book: Book = {
    snapshot: read.snapshot,
    sheets: read.sheets,
    layout: read.layout,
    get parts() {
      parts ??= readParts(file);
      return parts;
    },
  };
  return { file, book };
}
