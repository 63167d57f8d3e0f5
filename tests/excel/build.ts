import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import webpack from 'webpack';
import { excelConfig } from '../../src/hosts/excel/webpack.js';

export interface BuiltAddIn {
  /** every file of it, with / between folders */
  names(): readonly string[];
  read(name: string): Buffer;
  remove(): void;
}

/** The add-in as it is published, built into a folder of its own. */
export async function buildAddIn(address: string): Promise<BuiltAddIn> {
  const folder = mkdtempSync(join(tmpdir(), 'add-in-'));
  const config = excelConfig({ address }, { mode: 'production' });
  const compiler = webpack({ ...config, output: { ...config.output, path: folder } });
  if (compiler === null) throw new Error('webpack gave no compiler');
  await new Promise<void>((resolve, reject) => {
    compiler.run((error, stats) => {
      compiler.close(() => {
        if (error) reject(error);
        else if (stats?.hasErrors()) reject(new Error(stats.toString('errors-only')));
        else resolve();
      });
    });
  });
  return {
    names: () => readdirSync(folder, { recursive: true, encoding: 'utf8' }).map((name) => name.replaceAll('\\', '/')),
    read: (name) => readFileSync(join(folder, name)),
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
}
