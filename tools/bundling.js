import MiniCssExtractPlugin from 'mini-css-extract-plugin';
import TerserPlugin from 'terser-webpack-plugin';

/** What the bundles of both pages have in common. Types are checked by `npm run types`, not here. */
export const rulesFor = (target) => [
  {
    test: /\.tsx?$/,
    exclude: /node_modules/,
    loader: 'ts-loader',
    options: {
      transpileOnly: true,
      compilerOptions: { noEmit: false, allowImportingTsExtensions: false, target },
    },
  },
  { test: /\.css$/, use: [MiniCssExtractPlugin.loader, 'css-loader'] },
];

/** esbuild minifies several times faster than the default. */
export const minimizer = [new TerserPlugin({ minify: TerserPlugin.esbuildMinify, extractComments: false })];
