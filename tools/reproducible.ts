/**
 * Builds both bundles twice, each time into a folder of another name, and compares every file: `npm run reproducible`. Not part of
 * the test command, because it takes minutes.
 */
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import webpack, { type Configuration } from 'webpack';
import { excelConfig } from '../src/hosts/excel/webpack.js';
import { sheetConfig } from '../src/hosts/sheet/webpack.js';

/** Hash of every file by its name. */
function hashes(folder: string): Map<string, string> {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort();
  return new Map(
    names
      .filter((name) => statSync(join(folder, name)).isFile())
      .map((name) => [
        name,
        createHash('sha256')
          .update(readFileSync(join(folder, name)))
          .digest('hex'),
      ]),
  );
}

function built(config: Configuration, folder: string): Promise<Map<string, string>> {
  return new Promise((resolve, reject) => {
    const compiler = webpack({ ...config, output: { ...config.output, path: folder } });
    if (compiler === null) throw new Error('webpack gave no compiler');
    compiler.run((error, stats) => {
      compiler.close(() => {
        if (error) reject(error);
        else if (stats?.hasErrors() === true) reject(new Error(stats.toString('errors-only')));
        else resolve(hashes(folder));
      });
    });
  });
}

let differing = 0;
for (const [name, config] of Object.entries({ excel: excelConfig, sheet: sheetConfig })) {
  const folders = ['first-', 'the-second-'].map((start) => mkdtempSync(join(tmpdir(), start)));
  try {
    const runs: Map<string, string>[] = [];
    for (const folder of folders) runs.push(await built(config({}, { mode: 'production' }) as Configuration, folder));
    const [a, b] = runs;
    if (a === undefined || b === undefined || a.size === 0) throw new Error('nothing was built');
    const different = [...new Set([...a.keys(), ...b.keys()])].filter((file) => a.get(file) !== b.get(file));
    for (const file of different) console.error(`${name}: ${file} differs between two builds`);
    differing += different.length;
    console.log(`${name}: ${a.size} files, ${different.length} of them differ`);
  } finally {
    for (const folder of folders) rmSync(folder, { recursive: true, force: true });
  }
}
process.exitCode = differing === 0 ? 0 : 1;
