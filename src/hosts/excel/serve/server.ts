import path from 'node:path';
import { fileURLToPath } from 'node:url';
import webpack from 'webpack';
import WebpackDevServer from 'webpack-dev-server';
import { excelConfig } from '../webpack.js';
import type { Certificates } from './certificates.ts';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../../../..');

/** Apart from `dist/excel`, which is what gets published. */
const FOLDER = 'dist/excel-development';

export interface AddInServer {
  readonly address: string;
  /** the manifest for this address, on disk */
  readonly manifest: string;
  close(): Promise<void>;
}

/**
 * Builds the add-in for development and serves it on this machine only, over https, building again on each change.
 * @throws Error with the bundler's messages if the first build fails
 */
export async function startAddInServer(port: number, certificates: Certificates): Promise<AddInServer> {
  const address = `https://localhost:${port}`;
  const config = excelConfig({ address }, { mode: 'development' });
  const compiler = webpack({ ...config, output: { ...config.output, path: path.join(root, FOLDER) } });
  if (compiler === null) throw new Error('webpack gave no compiler');
  const { ca, cert, key } = certificates;
  const server = new WebpackDevServer(
    {
      host: 'localhost',
      port,
      server: { type: 'https', options: { ca, cert, key } },
      // Excel keeps the page alive as long as the workbook is open; reloading it under Excel would lose its functions.
      client: false,
      hot: false,
      liveReload: false,
      static: false,
      // Excel on the web reads functions.json from a page of its own domain.
      headers: { 'Access-Control-Allow-Origin': '*' },
      devMiddleware: { writeToDisk: (file) => path.basename(file) === 'manifest.xml', stats: 'errors-warnings' },
    },
    compiler,
  );
  const built = new Promise<void>((resolve, reject) => {
    compiler.hooks.done.tap('AddInServer', (stats) => {
      if (stats.hasErrors()) reject(new Error(stats.toString('errors-only')));
      else resolve();
    });
  });
  await server.start();
  try {
    await built;
  } catch (error) {
    await server.stop();
    throw error;
  }
  const manifest = path.join(root, FOLDER, 'manifest.xml');
  return { address, manifest: path.relative(process.cwd(), manifest), close: () => server.stop() };
}
