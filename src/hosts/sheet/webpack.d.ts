import type { Configuration, WebpackPluginInstance } from 'webpack';

export function sheetConfig(
  env?: Readonly<Record<string, unknown>>,
  argv?: { readonly mode?: string },
): Configuration & { plugins: WebpackPluginInstance[] };
