import path from 'node:path';
import { fileURLToPath } from 'node:url';
import MiniCssExtractPlugin from 'mini-css-extract-plugin';
import { tsImport } from 'tsx/esm/api';
import webpack from 'webpack';
import { minimizer, rulesFor } from '../../../tools/bundling.js';
import { DocPages } from '../../../tools/docs/plugin.js';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.resolve(here, '../../..');

/** Emits what is made from the registry: functions.json, manifest for the address, pages and icons. */
class AddInFiles {
  constructor(address) {
    this.address = address;
  }

  apply(compiler) {
    compiler.hooks.thisCompilation.tap('AddInFiles', (compilation) => {
      const stage = webpack.Compilation.PROCESS_ASSETS_STAGE_ADDITIONAL;
      compilation.hooks.processAssets.tapPromise({ name: 'AddInFiles', stage }, async () => {
        const { addInFiles } = await tsImport('./build/assets.ts', import.meta.url);
        for (const [name, content] of addInFiles(this.address)) {
          compilation.emitAsset(name, new webpack.sources.RawSource(content));
        }
      });
    });
  }
}

/**
 * Bundle of the Excel add-in: `functions.js` registers the cell functions and is all that a calculation needs,
 * `taskpane.js` shows the pane on top of it, and the template is a part of its own that is loaded when it is asked for.
 * `--env address=https://...` builds for another address than the development server's.
 */
export function excelConfig(env = {}, argv = {}) {
  const production = argv.mode !== 'development';
  return {
    name: 'excel',
    mode: production ? 'production' : 'development',
    target: ['web', 'es2020'],
    context: root,
    entry: {
      functions: path.join(here, 'functions.ts'),
      taskpane: { import: path.join(here, 'taskpane.ts'), dependOn: 'functions' },
    },
    output: {
      path: path.join(root, 'dist/excel'),
      filename: '[name].js',
      chunkFilename: 'part-[name].js',
      publicPath: '',
      clean: true,
    },
    devtool: production ? false : 'source-map',
    resolve: { extensions: ['.ts', '.tsx', '.js'] },
    module: {
      rules: rulesFor('es2020'),
    },
    plugins: [
      new MiniCssExtractPlugin({ filename: '[name].css' }),
      new DocPages(),
      new AddInFiles(env.address ?? 'https://localhost:3000'),
    ],
    optimization: {
      minimize: production,
      minimizer,
    },
    performance: { hints: false },
    stats: 'errors-warnings',
  };
}
