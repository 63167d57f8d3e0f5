import { mkdir, rm } from 'node:fs/promises';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { buildBundle, isStale, ROOT } from '../../src/hosts/sheet/bundle.ts';

const LOCK = path.join(ROOT, 'dist/.sheet-being-built');
/** Longer than any build takes: a lock of this age was left behind. */
const PATIENCE_MS = 170_000;

/** Builds the page if it has to be; test files that run side by side wait for the one that builds. */
export async function freshBundle(): Promise<void> {
  const began = Date.now();
  await mkdir(path.dirname(LOCK), { recursive: true });
  while (await isStale()) {
    const mine = await mkdir(LOCK).then(
      () => true,
      () => false,
    );
    if (mine) {
      try {
        await buildBundle();
      } finally {
        await rm(LOCK, { recursive: true, force: true });
      }
    } else if (Date.now() - began > PATIENCE_MS) await rm(LOCK, { recursive: true, force: true });
    else await wait(500);
  }
}
