import type { Configuration } from 'webpack';

export function excelConfig(
  env?: Readonly<Record<string, unknown>>,
  argv?: { readonly mode?: string },
): Configuration & { readonly output: { readonly path: string } };
