import { mkdir } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { SingleBar } from 'cli-progress';
import type { Command } from 'commander';
import { savedName } from '../../workbook/saved-name.ts';
import { exitStatus, Refusal } from './exit.ts';
import { type Filled, type FillTask, fillBook, STAGES } from './fill-book.ts';
import { fillInWorkers } from './fill-pool.ts';

export interface FillOptions {
  readonly output?: string;
  readonly out?: string;
  readonly values?: boolean;
}

/** Adds `fill` to the command tree; `done` takes its exit status. */
export function addFillCommand(program: Command, done: (status: number) => void): void {
  program
    .command('fill')
    .description('work workbooks out and store the values in copies')
    .argument('<books...>', 'the workbooks; they are never changed')
    .option('-o, --output <file>', 'the copy to write, of one workbook')
    .option('--out <folder>', 'the folder for the copies, which keep their names')
    .option('--values', 'put values in place of our formulas, for programs without the functions')
    .action(async (books: string[], options: FillOptions) => done(await fillCommand(books, options)));
}

/** What came of one workbook, or why it was refused. */
export type FillEnd = { readonly filled: Filled } | { readonly refused: string };

/**
 * `narrows fill`: works workbooks out and stores the values in copies, several at a time on the machine's cores. Status 0
 * only if no cell of any ends in an error, 2 where one could not be read or written (the others are still done); what is
 * wrong is told on standard error.
 */
export async function fillCommand(books: readonly string[], options: FillOptions): Promise<number> {
  const tasks = await tasksOf(books, options);
  const progress = progressOn(process.stderr, tasks);
  let ends: readonly FillEnd[];
  try {
    ends = await filledAll(tasks, progress.stage);
  } finally {
    progress.end();
  }
  const several = tasks.length > 1;
  let status: number = exitStatus.ok;
  ends.forEach((end, index) => {
    const name = several ? `${tasks[index]?.book}: ` : '';
    if ('refused' in end) {
      process.stderr.write(`narrows: ${end.refused}\n`);
      status = exitStatus.badUse;
      return;
    }
    for (const line of end.filled.lines) process.stderr.write(`${name}${line}\n`);
    if (end.filled.faults > 0) status = Math.max(status, exitStatus.cellError);
  });
  return status;
}

async function filledAll(tasks: readonly FillTask[], onStage: OnStage): Promise<readonly FillEnd[]> {
  const [only] = tasks;
  if (tasks.length > 1 || only === undefined) return fillInWorkers(tasks, onStage);
  return [await fillOne(only, (stage) => onStage(0, stage))];
}

/** Fills one workbook; a refusal is an end, too. */
export async function fillOne(task: FillTask, onStage: (stage: number) => void): Promise<FillEnd> {
  try {
    return { filled: await fillBook(task, onStage) };
  } catch (error) {
    if (error instanceof Refusal) return { refused: error.message };
    throw error;
  }
}

async function tasksOf(
  books: readonly string[],
  { output, out, values = false }: FillOptions,
): Promise<readonly FillTask[]> {
  if ((output === undefined) === (out === undefined))
    throw new Refusal('give -o FILE for the copy of one workbook, or --out FOLDER for the copies of several');
  const [first] = books;
  if (output !== undefined) {
    if (books.length > 1 || first === undefined)
      throw new Refusal('-o names one copy: give --out FOLDER for several workbooks');
    return [{ book: first, output, values }];
  }
  const folder = out ?? '';
  const tasks = books.map((book) => ({ book, output: join(folder, savedName(basename(book))), values }));
  const names = new Map<string, string>();
  for (const { book, output: copy } of tasks) {
    const other = names.get(copy.toLowerCase());
    if (other !== undefined) throw new Refusal(`${other} and ${book} have one name: fill them into two folders`);
    names.set(copy.toLowerCase(), book);
  }
  await mkdir(folder, { recursive: true }).catch((error: Error) => {
    throw new Refusal(`cannot make the folder ${folder}: ${error.message}`);
  });
  return tasks;
}

/** A stage of a task has begun; the number of stages when it has ended. */
export type OnStage = (task: number, stage: number) => void;

interface Progress {
  readonly stage: OnStage;
  readonly end: () => void;
}

/** A bar on a terminal; nothing anywhere else. */
function progressOn(stream: NodeJS.WriteStream, tasks: readonly FillTask[]): Progress {
  if (!stream.isTTY) return { stage: () => {}, end: () => {} };
  const bar = new SingleBar({ format: '{bar} {stage}', stream, hideCursor: true, clearOnComplete: true });
  bar.start(tasks.length * STAGES.length, 0, { stage: STAGES[0] });
  const reached = tasks.map(() => 0);
  return {
    stage: (task, stage) => {
      reached[task] = stage;
      const name = tasks.length > 1 ? `${basename(tasks[task]?.book ?? '')} ` : '';
      bar.update(
        reached.reduce((sum, one) => sum + one, 0),
        { stage: `${name}${STAGES[stage] ?? ''}` },
      );
    },
    end: () => {
      if (bar.isActive) bar.update(tasks.length * STAGES.length, { stage: '' });
      bar.stop();
    },
  };
}
