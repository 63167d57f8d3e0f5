import { spawn } from 'node:child_process';
import { access } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { exitStatus, Refusal } from './exit.ts';

/** Starts the embedded sheet as a process of its own and waits for it. */
export async function openCommand(book: string | undefined, hosts: URL): Promise<number> {
  const start = fileURLToPath(new URL('sheet/start.mjs', hosts));
  if (book !== undefined) {
    await access(book).catch(() => {
      throw new Refusal(`cannot read ${book}`);
    });
  }
  const child = spawn(process.execPath, [start, ...(book === undefined ? [] : [book])], { stdio: 'inherit' });
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => child.kill(signal));
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('exit', (code, signal) => resolve(signal === null ? (code ?? exitStatus.ok) : exitStatus.ok));
  });
}
