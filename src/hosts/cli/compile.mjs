import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const here = (path) => fileURLToPath(new URL(path, import.meta.url));
const SOURCES = here('../..');
const CACHE = here('../../../dist/cli');
const ENTRIES = ['main.ts', 'fill-worker.ts'];

/** A stamp of all sources: names, sizes and times of change. */
function stampOf(folder, hash) {
  for (const entry of readdirSync(folder, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1))) {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) stampOf(path, hash);
    else {
      const { size, mtimeMs } = statSync(path);
      hash.update(`${path} ${size} ${mtimeMs}\n`);
    }
  }
  return hash;
}

/**
 * Folder with the command as JavaScript, compiled when the sources have changed since: a start then loads a few files, not some hundred
 * through a compiler. Undefined where it cannot be made or kept, as in a folder that may not be written to.
 */
export async function compiledCommand() {
  const version = process.versions.node.split('.')[0];
  const stamp = stampOf(SOURCES.replace(/[\\/]$/, ''), createHash('sha256').update(version))
    .digest('hex')
    .slice(0, 16);
  const folder = `${CACHE}/${stamp}`;
  if (statSync(`${folder}/main.js`, { throwIfNoEntry: false }) !== undefined) return folder;
  const partial = `${CACHE}/.${stamp}.${process.pid}`;
  try {
    mkdirSync(CACHE, { recursive: true });
    const { build } = await import('esbuild');
    await build({
      entryPoints: ENTRIES.map(here),
      outdir: partial,
      bundle: true,
      splitting: true,
      format: 'esm',
      platform: 'node',
      target: `node${version}`,
      packages: 'external',
      logLevel: 'silent',
    });
    for (const old of readdirSync(CACHE)) if (/^[0-9a-f]{16}$/.test(old) && old !== stamp) removeOld(`${CACHE}/${old}`);
    renameSync(partial, folder);
    return folder;
  } catch {
    rmSync(partial, { recursive: true, force: true });
    // another process may have been quicker
    return statSync(`${folder}/main.js`, { throwIfNoEntry: false }) === undefined ? undefined : folder;
  }
}

/** Another process may still be loading from it: only what has not been made lately goes. */
function removeOld(folder) {
  const HOUR = 3_600_000;
  if (Date.now() - statSync(folder).mtimeMs > HOUR) rmSync(folder, { recursive: true, force: true });
}
