import { realpath, stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Calculator } from '../../calc/calculator.ts';
import { cellName } from '../../calc/formula-text.ts';
import { createNodeCalculator } from '../../calc/node.ts';
import { lossesOf } from '../../workbook/losses.ts';
import { writeWorkbook } from '../../workbook/write.ts';
import { readBook } from './book.ts';
import { Refusal } from './exit.ts';
import { printable } from './printing.ts';
import { refuseBadTarget, replaceFile } from './replace-file.ts';

/** One workbook to be filled. */
export interface FillTask {
  readonly book: string;
  readonly output: string;
  /** values in place of our formulas */
  readonly values: boolean;
}

/** What came of it: lines for standard error, and how many cells end in an error. */
export interface Filled {
  readonly lines: readonly string[];
  readonly faults: number;
}

export const STAGES = ['reading', 'working out', 'writing'] as const;

/**
 * Reads a workbook, works every formula out, stores the values in a copy. The copy appears in one step, or not at all.
 *
 * @param onStage is told when a stage begins, by its place in `STAGES`
 * @throws Refusal where the book cannot be read or the copy not be written
 */
export async function fillBook({ book, output, values }: FillTask, onStage: (stage: number) => void): Promise<Filled> {
  await refuseSameFile(book, output);
  await refuseBadTarget(output);
  let calculator: Calculator | undefined;
  try {
    onStage(0);
    const read = await readBook(book);
    const losses = lossesOf(read);
    calculator = createNodeCalculator();
    onStage(1);
    calculator.load(read.snapshot);
    await calculator.recalculate();
    onStage(2);
    const results = { snapshot: calculator.snapshot(), spills: calculator.spills() };
    const bytes = writeWorkbook(read, results, { valuesOnly: values });
    const faults = calculator.faults();
    await replaceFile(output, bytes);
    return {
      lines: [...losses.map((loss) => `narrows: not carried over: ${loss}`), ...faultLines(faults)],
      faults: faults.length,
    };
  } finally {
    calculator?.dispose();
  }
}

/** Most cells that are listed one by one. */
const MOST_LISTED = 100;

function faultLines(faults: ReturnType<Calculator['faults']>): string[] {
  const listed = faults
    .slice(0, MOST_LISTED)
    .map(({ sheet, row, column, code, message }) => printable(`${sheet}!${cellName(row, column)} ${code}: ${message}`));
  if (faults.length > MOST_LISTED) listed.push(`and ${faults.length - MOST_LISTED} more cells`);
  return listed;
}

async function refuseSameFile(book: string, output: string): Promise<void> {
  const target = await realpath(output).catch(() => resolve(output));
  const source = await realpath(book).catch(() => resolve(book));
  const same = target === source || (await sameInode(book, output));
  if (same) throw new Refusal(`${output} is the workbook itself, which is never changed: give -o another name`);
}

/** Two names of one file, by a hard link for instance. */
async function sameInode(book: string, output: string): Promise<boolean> {
  const [a, b] = await Promise.all([book, output].map((file) => stat(file).catch(() => undefined)));
  return a !== undefined && b !== undefined && a.ino === b.ino && a.dev === b.dev && a.ino !== 0;
}
