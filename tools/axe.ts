/**
 * The accessibility checker axe-core for the browser tests. Its licence (MPL-2.0) keeps it out of the project's
 * dependencies: the tests bring this one version from the package registry, once, and check it before it runs.
 */
import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdir, mkdtemp, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import { gunzipSync } from 'node:zlib';

const VERSION = '4.14.1';
/** SHA-512 of the package, as the registry states it. */
const INTEGRITY = 'sha512-FHfa+lmNjQZfJz1q8wKqIDwC6DExcHt/pkjNQb09a3NPjCKg2rhu5qb2S4r76ASyFNNtuFooJpZe37OgudVGtQ==';

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..');
const CACHE = path.join(ROOT, '.cache');
const ARCHIVE = path.join(CACHE, `axe-core-${VERSION}.tgz`);
const SCRIPT = 'package/axe.min.js';

const ADVICE =
  `The accessibility tests need axe-core ${VERSION}, which they fetch once. Connect to the network and run them again, or ` +
  `run "npm pack axe-core@${VERSION} --pack-destination .cache" in the project's folder.`;

/** The script of axe-core, to be run in a page. Fetches the package if it is not there; fails in words where it cannot. */
export async function axeScript(): Promise<string> {
  const archive = await archived();
  const integrity = `sha512-${createHash('sha512').update(archive).digest('base64')}`;
  if (integrity !== INTEGRITY) {
    await rm(ARCHIVE, { force: true });
    throw new Error(`axe-core ${VERSION} is not what was asked for: its hash is ${integrity}. ${ADVICE}`);
  }
  return entry(gunzipSync(archive), SCRIPT).toString('utf8');
}

async function archived(): Promise<Buffer> {
  const there = await readFile(ARCHIVE).catch(() => undefined);
  if (there !== undefined) return there;
  await mkdir(CACHE, { recursive: true });
  // In a folder of its own first: test files that run side by side never see half a file.
  const folder = await mkdtemp(path.join(CACHE, 'axe-'));
  try {
    const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
    await promisify(execFile)(npm, ['pack', `axe-core@${VERSION}`, '--pack-destination', folder, '--silent'], {
      cwd: folder,
      shell: process.platform === 'win32',
    });
    await rename(path.join(folder, path.basename(ARCHIVE)), ARCHIVE);
  } catch (error) {
    throw new Error(ADVICE, { cause: error });
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
  return readFile(ARCHIVE);
}

const BLOCK = 512;

/** One file of a tar archive (POSIX.1-1988 ustar): blocks of 512 bytes, the name first, the size in octal at 124. */
function entry(tar: Buffer, name: string): Buffer {
  for (let at = 0; at + BLOCK <= tar.length; ) {
    const header = tar.subarray(at, at + BLOCK);
    const text = (from: number, to: number) => header.toString('utf8', from, to).replace(/\0.*$/s, '');
    const size = Number.parseInt(text(124, 136).trim() || '0', 8);
    if (text(0, 100) === name) return tar.subarray(at + BLOCK, at + BLOCK + size);
    at += BLOCK + Math.ceil(size / BLOCK) * BLOCK;
  }
  throw new Error(`axe-core ${VERSION} has no ${name}`);
}
