import type { IWorkbookData } from '@univerjs/core';
import { Fault } from '../../../faults/issue.ts';
import { issueWords } from '../../../faults/words.ts';
import { type Book, LEAST_ROWS, readWorkbook } from '../../../workbook/read.ts';
import { fitRows } from './fit-rows.ts';

/** A workbook larger than this is not read; the reader has its own bounds on what is inside. */
const FILE_BYTES = 64 * 2 ** 20;
const EMPTY_COLUMNS = 30;

export interface OpenBook {
  /** file name, with .xlsx */
  readonly name: string;
  /** the file as read; absent for an empty workbook that never was one */
  readonly book?: Book;
  readonly snapshot: IWorkbookData;
}

let opened = 0;

/** Each workbook gets an id of its own: the calculation keeps caches by id. */
export function openBook(name: string, book: Book): OpenBook {
  opened += 1;
  const snapshot = { ...structuredClone(book.snapshot), id: `workbook-${opened}`, name };
  fitRows(snapshot);
  return { name, book, snapshot };
}

export async function readBook(name: string, bytes: Uint8Array): Promise<OpenBook> {
  return openBook(name, await readWorkbook(bytes));
}

export async function readFile(file: File): Promise<OpenBook> {
  if (file.size > FILE_BYTES) throw new Error(`it is larger than ${FILE_BYTES / 2 ** 20} MiB`);
  return readBook(file.name, new Uint8Array(await file.arrayBuffer()));
}

/** What shows when there is no workbook: one empty sheet. */
export function emptyBook(name: string): OpenBook {
  opened += 1;
  return {
    name,
    snapshot: {
      id: `workbook-${opened}`,
      name,
      appVersion: '',
      locale: 'enUS' as IWorkbookData['locale'],
      styles: {},
      sheetOrder: ['sheet-1'],
      sheets: {
        'sheet-1': { id: 'sheet-1', name: 'Sheet1', rowCount: LEAST_ROWS, columnCount: EMPTY_COLUMNS, cellData: {} },
      },
    },
  };
}

/** Browsers say no more than that fetching failed, each in its own words. */
function serverGone(): never {
  throw new Error('the program that serves this page no longer runs. Start it again (npm start), then try again.');
}

/** Asks our own server. */
export function ask(path: string): Promise<Response> {
  return fetch(path).catch(serverGone);
}

/** Fetches a workbook from our own server; undefined if it has none. */
export async function fetchBytes(path: string): Promise<Uint8Array | undefined> {
  const answer = await ask(path);
  if (!answer.ok) return undefined;
  return new Uint8Array(await answer.arrayBuffer().catch(serverGone));
}

/** Why something failed, in words. */
export function reason(error: unknown): string {
  if (error instanceof Fault) return issueWords(error.issue, error.place);
  return error instanceof Error ? error.message : String(error);
}
