import { parentPort } from 'node:worker_threads';
import { fillOne } from './fill.ts';
import type { FillTask } from './fill-book.ts';
import type { FillMessage } from './fill-pool.ts';

/** A thread that fills the workbooks that it is sent, one after another. */
const say = (message: FillMessage): void => parentPort?.postMessage(message);

parentPort?.on('message', async (task: FillTask) => {
  say({ end: await fillOne(task, (stage) => say({ stage })) });
});
