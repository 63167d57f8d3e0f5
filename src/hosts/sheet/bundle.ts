import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../../..');
/** Where the built page lies. */
export const BUNDLE = path.join(ROOT, 'dist/sheet');

/** What the bundle is made from; a newer file in there means that it has to be built again. */
const SOURCES = [
  ...['faults', 'numerics', 'engine', 'units', 'tables', 'functions', 'calc', 'workbook', 'pane', 'hosts/sheet'].map(
    (folder) => `src/${folder}`,
  ),
  'docs',
  'tools/docs',
  'package-lock.json',
];
const SCRIPT = path.join(BUNDLE, 'sheet.js');

/** Whether the built page is missing or older than what it is made from. */
export async function isStale(): Promise<boolean> {
  const built = await stat(SCRIPT).catch(() => undefined);
  if (built === undefined) return true;
  for (const source of SOURCES) {
    if ((await newest(path.join(ROOT, source))) > built.mtimeMs) return true;
  }
  return false;
}

async function newest(file: string): Promise<number> {
  const found = await stat(file).catch(() => undefined);
  if (found === undefined) return 0;
  if (!found.isDirectory()) return found.mtimeMs;
  const inside = await readdir(file);
  const times = await Promise.all(inside.map((name) => newest(path.join(file, name))));
  return Math.max(0, ...times);
}

/** Told the share done, 0 to 1. */
export type BuildProgress = (share: number) => void;

/**
 * Builds the page for production.
 *
 * @throws Error with the bundler's own messages if it fails
 */
export async function buildBundle(progress: BuildProgress = () => {}): Promise<void> {
  const [{ default: webpack }, { sheetConfig }] = await Promise.all([import('webpack'), import('./webpack.js')]);
  const config = sheetConfig({}, { mode: 'production' });
  const compiler = webpack({
    ...config,
    plugins: [...config.plugins, new webpack.ProgressPlugin((share) => progress(share))],
  });
  await new Promise<void>((resolve, reject) => {
    compiler.run((error, stats) => {
      compiler.close(() => {
        if (error) reject(error);
        else if (stats?.hasErrors()) reject(new Error(stats.toString('errors-only')));
        else resolve();
      });
    });
  });
}
