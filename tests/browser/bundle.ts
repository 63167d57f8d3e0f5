import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { buildBundle, isStale, ROOT } from '../../src/hosts/sheet/bundle.ts';

/** Names the process that builds. */
const LOCK = path.join(ROOT, 'dist/sheet-being-built.txt');

/** Builds the page if it has to be; test files that run side by side wait for the one that builds. */
export async function freshBundle(): Promise<void> {
  await mkdir(path.dirname(LOCK), { recursive: true });
  while (await isStale()) {
    const mine = await writeFile(LOCK, String(process.pid), { flag: 'wx' }).then(
      () => true,
      () => false,
    );
    if (mine) {
      try {
        await buildBundle();
      } finally {
        await rm(LOCK, { force: true });
      }
    } else if (await leftBehind()) await rm(LOCK, { force: true });
    else await wait(500);
  }
}

/** Whether the process that was building is gone. */
async function leftBehind(): Promise<boolean> {
  const owner = Number(await readFile(LOCK, 'utf8').catch(() => ''));
  if (!(owner > 0)) return false;
  try {
    process.kill(owner, 0);
    return false;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'ESRCH';
  }
}
