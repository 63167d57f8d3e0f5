import { createRequire } from 'node:module';
import type { UniverModules } from './univer.ts';

const require = createRequire(import.meta.url);
let loaded: UniverModules | undefined;

/** The packages as plain Node can load them: their ES modules fail on a CommonJS font library's named export. */
export function loadUniver(): UniverModules {
  loaded ??= { core: require('@univerjs/core'), engine: require('@univerjs/engine-formula') };
  return loaded;
}
