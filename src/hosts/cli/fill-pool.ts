import { availableParallelism } from 'node:os';
import { Worker } from 'node:worker_threads';
import type { FillEnd, OnStage } from './fill.ts';
import { type FillTask, STAGES } from './fill-book.ts';

/** What a worker says of its task. */
export type FillMessage = { readonly stage: number } | { readonly end: FillEnd };

/** Sources run through a loader, which a worker needs as well; the compiled command has none. */
const AS_SOURCE = import.meta.url.endsWith('.ts');

function startWorker(): Worker {
  return AS_SOURCE
    ? new Worker(new URL('./fill-worker.ts', import.meta.url), { execArgv: ['--import', import.meta.resolve('tsx')] })
    : new Worker(new URL('./fill-worker.js', import.meta.url), { execArgv: [] });
}

/**
 * Fills workbooks in worker threads, as many as there are cores and workbooks. A worker takes the next workbook when it has
 * done one, so that memory does not grow with their number. A worker that dies takes its workbook alone with it.
 */
export async function fillInWorkers(tasks: readonly FillTask[], onStage: OnStage): Promise<readonly FillEnd[]> {
  const ends: FillEnd[] = tasks.map(({ book }) => ({ refused: `${book} was not filled` }));
  let next = 0;
  const work = async (): Promise<void> => {
    let worker = startWorker();
    try {
      while (next < tasks.length) {
        const index = next++;
        const task = tasks[index];
        if (task === undefined) return;
        try {
          ends[index] = await fillBy(worker, task, (stage) => onStage(index, stage));
        } catch (error) {
          const why = error instanceof Error ? error.message : String(error);
          ends[index] = { refused: `cannot fill ${task.book}: ${why}` };
          await worker.terminate();
          worker = startWorker();
        }
        onStage(index, STAGES.length);
      }
    } finally {
      await worker.terminate();
    }
  };
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), tasks.length) }, work));
  return ends;
}

function fillBy(worker: Worker, task: FillTask, onStage: (stage: number) => void): Promise<FillEnd> {
  return new Promise((resolve, reject) => {
    const settle = (then: () => void): void => {
      worker.off('message', hear).off('error', fail).off('exit', gone);
      then();
    };
    const hear = (message: FillMessage): void => {
      if ('stage' in message) onStage(message.stage);
      else settle(() => resolve(message.end));
    };
    const fail = (error: unknown): void => settle(() => reject(error));
    const gone = (): void => settle(() => reject(new Error('the worker ended')));
    worker.on('message', hear).on('error', fail).on('exit', gone);
    worker.postMessage(task);
  });
}
