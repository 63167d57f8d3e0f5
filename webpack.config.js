import { excelConfig } from './src/hosts/excel/webpack.js';
import { sheetConfig } from './src/hosts/sheet/webpack.js';

/** Two separate bundles: the add-in for Excel (small) and the embedded sheet. `--env target=excel|sheet` builds one. */
export default function configure(env, argv) {
  const configs = { excel: excelConfig, sheet: sheetConfig };
  const wanted = env.target ? [env.target] : Object.keys(configs);
  return wanted.map((name) => configs[name](env, argv));
}
