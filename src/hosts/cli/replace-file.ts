import { constants } from 'node:fs';
import { access, type FileHandle, open, readdir, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { Refusal } from './exit.ts';

/** What the system's codes mean to the person whose file it is. */
const reasons: Readonly<Record<string, string>> = {
  ENOSPC: 'the disk is full',
  EDQUOT: 'the disk space allowed to you is used up',
  EFBIG: 'the file would be larger than is allowed here',
  EACCES: 'it may not be written to',
  EPERM: 'it may not be written to',
  EROFS: 'the disk may only be read',
  ENOENT: 'the folder is not there any more',
  EIO: 'the disk reports a fault',
};

const codeOf = (error: unknown): string => (error as NodeJS.ErrnoException | undefined)?.code ?? '';

/** Refuses a target that cannot be written, before any work is spent on it. */
export async function refuseBadTarget(output: string): Promise<void> {
  const folder = dirname(resolve(output));
  const there = await stat(output).catch(() => undefined);
  if (there?.isDirectory() === true) throw new Refusal(`cannot write ${output}: it is a folder`);
  await access(folder, constants.W_OK).catch(() => {
    throw new Refusal(`cannot write ${output}: the folder ${folder} is missing or may not be written to`);
  });
  if (there === undefined) return;
  const tried = await open(output, 'r+').catch(() => undefined);
  if (tried === undefined) throw new Refusal(`cannot write ${output}: it is there already and may not be written to`);
  await tried.close();
}

/**
 * Writes beside the target, waits until it is on the disk, then renames: whoever looks sees the file of before or the new
 * one, never half of it. What a process that was killed has left beside this target is cleared away first.
 *
 * @throws Refusal in words where it cannot be written; the file of before is still there then
 */
export async function replaceFile(output: string, bytes: Uint8Array): Promise<void> {
  const target = await realpath(output).catch(() => resolve(output));
  await clearLeftovers(target);
  const partial = join(dirname(target), `.${basename(target)}.${process.pid}.part`);
  const mode = await stat(target).then(
    (there) => there.mode & 0o777,
    () => undefined,
  );
  let file: FileHandle | undefined;
  try {
    file = await open(partial, 'wx');
    try {
      await file.writeFile(bytes);
      // A copy that only its owner may read stays one.
      if (mode !== undefined) await file.chmod(mode);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(partial, target);
  } catch (error) {
    if (file !== undefined) await rm(partial, { force: true }).catch(() => {});
    const why = reasons[codeOf(error)] ?? (error instanceof Error ? error.message : String(error));
    throw new Refusal(`cannot write ${output}: ${why}`);
  }
}

/** Partial files of this target whose process is gone. */
async function clearLeftovers(target: string): Promise<void> {
  const folder = dirname(target);
  const before = `.${basename(target)}.`;
  for (const name of await readdir(folder).catch(() => [])) {
    if (!name.startsWith(before)) continue;
    const owner = /^(\d{1,9})\.part$/.exec(name.slice(before.length))?.[1];
    if (owner !== undefined && !isRunning(Number(owner))) await rm(join(folder, name), { force: true }).catch(() => {});
  }
}

function isRunning(owner: number): boolean {
  try {
    process.kill(owner, 0);
    return true;
  } catch (error) {
    return codeOf(error) !== 'ESRCH';
  }
}
