import { readFileSync } from 'node:fs';
import Module, { createRequire } from 'node:module';
import { dirname } from 'node:path';
import plainFields from './plain-fields.js';
import type { UniverModules } from './univer.ts';

const require = createRequire(import.meta.url);
let loaded: UniverModules | undefined;

/** What Node's loader uses itself and its types leave out. */
const CompiledModule = Module as unknown as {
  new (id: string): NodeModule & { _compile(source: string, filename: string): void };
  _nodeModulePaths(folder: string): string[];
};

/** What the packages use of the utility library `lodash-es`; a test looks for others. */
export const UTILITIES = ['debounce', 'get', 'merge', 'mergeWith', 'set'] as const;

/**
 * Puts the few utilities that are used in the place of the whole library, whose 640 files are half of the time that the
 * packages take to load.
 */
function seedUtilities(): void {
  const path = require.resolve('lodash-es');
  if (require.cache[path]) return;
  const seeded = new Module(path);
  seeded.filename = path;
  seeded.exports = Object.fromEntries(UTILITIES.map((name) => [name, require(`lodash-es/${name}.js`).default]));
  seeded.loaded = true;
  require.cache[path] = seeded;
}

/** The formula engine with its classes' fields set by name, as the page has it: a calculation takes two thirds of the time. */
function seedEngine(): void {
  const path = require.resolve('@univerjs/engine-formula');
  if (require.cache[path]) return;
  const seeded = new CompiledModule(path);
  seeded.filename = path;
  seeded.paths = CompiledModule._nodeModulePaths(dirname(path));
  require.cache[path] = seeded;
  seeded._compile(plainFields(readFileSync(path, 'utf8')), path);
  seeded.loaded = true;
}

/** The packages as plain Node can load them: their ES modules fail on a CommonJS font library's named export. */
export function loadUniver(): UniverModules {
  if (!loaded) {
    seedUtilities();
    seedEngine();
    loaded = { core: require('@univerjs/core'), engine: require('@univerjs/engine-formula') };
  }
  return loaded;
}
