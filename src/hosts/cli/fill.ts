import { constants } from 'node:fs';
import { access, open, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { SingleBar } from 'cli-progress';
import type { Command } from 'commander';
import type { Calculator } from '../../calc/calculator.ts';
import { cellName } from '../../calc/formula-text.ts';
import { createNodeCalculator } from '../../calc/node.ts';
import { lossesOf } from '../../workbook/losses.ts';
import { writeWorkbook } from '../../workbook/write.ts';
import { readBook } from './book.ts';
import { exitStatus, Refusal } from './exit.ts';
import { printable } from './printing.ts';

export interface FillOptions {
  readonly output: string;
  readonly values?: boolean;
}

/** Adds `fill` to the command tree; `done` takes its exit status. */
export function addFillCommand(program: Command, done: (status: number) => void): void {
  program
    .command('fill')
    .description('work a workbook out and store the values in a copy')
    .argument('<book>', 'the workbook; it is never changed')
    .requiredOption('-o, --output <file>', 'the copy to write')
    .option('--values', 'put values in place of our formulas, for programs without the functions')
    .action(async (book: string, options: FillOptions) => done(await fillCommand(book, options)));
}

const STAGES = ['reading', 'working out', 'writing'] as const;

/**
 * `narrows fill`: reads a workbook, works every formula out, stores the values in a copy. Status 0 only if no cell ends in
 * an error; those that do are listed on standard error. The copy appears in one step, or not at all.
 */
export async function fillCommand(book: string, { output, values }: FillOptions): Promise<number> {
  await refuseSameFile(book, output);
  await refuseBadTarget(output);
  const progress = progressOn(process.stderr);
  let calculator: Calculator | undefined;
  try {
    progress.stage(0);
    const read = await readBook(book);
    const losses = lossesOf(read);
    calculator = createNodeCalculator();
    progress.stage(1);
    calculator.load(read.snapshot);
    await calculator.recalculate();
    progress.stage(2);
    const results = { snapshot: calculator.snapshot(), spills: calculator.spills() };
    const bytes = writeWorkbook(read, results, { valuesOnly: values === true });
    const faults = calculator.faults();
    progress.end();
    for (const loss of losses) process.stderr.write(`narrows: not carried over: ${loss}\n`);
    await replaceFile(output, bytes);
    return report(faults);
  } finally {
    progress.end();
    calculator?.dispose();
  }
}

/** Most cells that are listed one by one. */
const MOST_LISTED = 100;

function report(faults: ReturnType<Calculator['faults']>): number {
  for (const { sheet, row, column, code, message } of faults.slice(0, MOST_LISTED)) {
    process.stderr.write(`${printable(`${sheet}!${cellName(row, column)} ${code}: ${message}`)}\n`);
  }
  if (faults.length > MOST_LISTED) process.stderr.write(`and ${faults.length - MOST_LISTED} more cells\n`);
  return faults.length === 0 ? exitStatus.ok : exitStatus.cellError;
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

async function refuseBadTarget(output: string): Promise<void> {
  const folder = dirname(resolve(output));
  const there = await stat(output).catch(() => undefined);
  if (there?.isDirectory() === true) throw new Refusal(`cannot write ${output}: it is a folder`);
  await access(folder, constants.W_OK).catch(() => {
    throw new Refusal(`cannot write ${output}: the folder ${folder} is missing or may not be written to`);
  });
}

/** Writes beside the target, waits until it is on the disk, then renames: nobody ever sees half a file. */
async function replaceFile(output: string, bytes: Uint8Array): Promise<void> {
  const target = await realpath(output).catch(() => resolve(output));
  const partial = join(dirname(target), `.${basename(target)}.${process.pid}.part`);
  try {
    const file = await open(partial, 'wx');
    try {
      await file.writeFile(bytes);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(partial, target);
  } catch (error) {
    await rm(partial, { force: true });
    throw new Refusal(`cannot write ${output}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

interface Progress {
  readonly stage: (index: number) => void;
  readonly end: () => void;
}

/** A bar on a terminal; nothing anywhere else. */
function progressOn(stream: NodeJS.WriteStream): Progress {
  if (!stream.isTTY) return { stage: () => {}, end: () => {} };
  const bar = new SingleBar({ format: '{bar} {stage}', stream, hideCursor: true, clearOnComplete: true });
  bar.start(STAGES.length, 0, { stage: STAGES[0] });
  return {
    stage: (index) => bar.update(index, { stage: STAGES[index] ?? '' }),
    end: () => {
      if (bar.isActive) bar.update(STAGES.length, { stage: '' });
      bar.stop();
    },
  };
}
