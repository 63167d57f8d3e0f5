/**
 * Makes dist/package: the add-in as a folder to upload to any static https host, its manifest inside.
 * One variable says where it will be served: `ADDRESS=https://... npm run package`.
 */
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import webpack from 'webpack';
import { excelConfig } from '../src/hosts/excel/webpack.js';
import { packageAddress, readMe } from './package-text.ts';

const folder = process.env.FOLDER ?? fileURLToPath(new URL('../dist/package', import.meta.url));
const address = packageAddress(process.env.ADDRESS, process.argv.slice(2));
if (address === undefined) {
  console.error(
    'Say where the files will be served, over https: ADDRESS=https://tables.example/narrows npm run package',
  );
  process.exitCode = 2;
} else {
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
  await writeFile(join(folder, 'READ-ME.txt'), readMe(address));
  console.log(`dist/package is ready to upload to ${address}; what to do with its manifest.xml is in READ-ME.txt`);
}
