import path from 'node:path';
import { fileURLToPath } from 'node:url';
import CopyPlugin from 'copy-webpack-plugin';
import MiniCssExtractPlugin from 'mini-css-extract-plugin';
import { minimizer, rulesFor } from '../../../tools/bundling.js';
import { DocPages } from '../../../tools/docs/plugin.js';

const here = path.dirname(fileURLToPath(import.meta.url));
const root = path.resolve(here, '../../..');

/**
 * Bundle of the embedded sheet: a small script that loads the parts side by side, which a browser takes in several times
 * faster than one large one; one style sheet, one page; all served from the loopback server.
 * No `eval` source maps: the page's content policy forbids them. esbuild minifies several times faster than the default.
 */
export function sheetConfig(_env = {}, argv = {}) {
  const production = argv.mode !== 'development';
  return {
    name: 'sheet',
    mode: production ? 'production' : 'development',
    target: ['web', 'es2022'],
    context: root,
    entry: { sheet: path.join(here, 'page/boot.ts') },
    output: {
      path: path.join(root, 'dist/sheet'),
      filename: '[name].js',
      chunkFilename: '[name].js',
      publicPath: '/',
      clean: true,
      // A script that comes out the same is written anew too: its time tells when the page was built.
      compareBeforeEmit: false,
    },
    devtool: production ? false : 'source-map',
    resolve: {
      extensions: ['.ts', '.tsx', '.js'],
      // The grid asks of each text whether it reads as a number or a date, anew for every picture that it draws.
      alias: {
        numfmt$: path.join(here, 'remembered-formats.js'),
        'numfmt-itself$': fileURLToPath(import.meta.resolve('numfmt')),
      },
    },
    module: {
      rules: [
        ...rulesFor('es2022'),
        {
          test: /\.js$/,
          include: /@univerjs[\\/]engine-formula[\\/]/,
          loader: path.join(here, '../../calc/plain-fields.js'),
        },
      ],
    },
    plugins: [
      new MiniCssExtractPlugin({ filename: '[name].css' }),
      new DocPages(),
      new CopyPlugin({
        patterns: [
          { from: path.join(here, 'page/index.html'), to: 'index.html' },
          { from: path.join(here, 'page/icon.svg'), to: 'icon.svg' },
        ],
      }),
    ],
    optimization: {
      minimize: production,
      minimizer,
      splitChunks: { chunks: 'async', maxSize: 1_200_000 },
    },
    performance: { hints: false },
    stats: 'errors-warnings',
  };
}
