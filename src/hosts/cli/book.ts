import { readFile } from 'node:fs/promises';
import { Fault } from '../../faults/issue.ts';
import { issueWords } from '../../faults/words.ts';
import { type Book, readWorkbook } from '../../workbook/read.ts';
import { Refusal } from './exit.ts';

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  EACCES: 'it may not be read',
};

/** Reads a workbook from a file; anything that is wrong with it is one line for the reader. */
export async function readBook(file: string): Promise<Book> {
  try {
    return await readWorkbook(await readFile(file));
  } catch (error) {
    if (error instanceof Fault) throw new Refusal(`cannot read ${file}: ${issueWords(error.issue, error.place)}`);
    const code = (error as NodeJS.ErrnoException).code ?? '';
    throw new Refusal(
      `cannot read ${file}: ${reasons[code] ?? (error instanceof Error ? error.message : String(error))}`,
    );
  }
}
