import { readdirSync, readFileSync } from 'node:fs';
import { join, posix, relative, resolve } from 'node:path';
import ts from 'typescript';

/** Folders in the order in which they may import: each from itself and from those before it. */
const RANKS: readonly (readonly string[])[] = [
  ['src/faults'],
  ['src/numerics'],
  ['src/engine'],
  ['src/units'],
  ['src/tables'],
  ['src/functions'],
  ['src/calc', 'src/workbook'],
  ['src/pane'],
  ['src/hosts/excel', 'src/hosts/sheet', 'src/hosts/cli'],
];

/** Folders of one rank that may use each other; hosts may not. */
const FRIENDS: ReadonlySet<string> = new Set(['src/calc', 'src/workbook']);

/** Folders outside the ranks, with what they may import. */
const OUTSIDE: ReadonlyMap<string, readonly string[]> = new Map([
  [
    'templates',
    ['templates', 'src/faults', 'src/engine', 'src/units', 'src/tables', 'src/functions', 'src/calc', 'src/workbook'],
  ],
]);

/** Packages that tie code to a host or a spreadsheet engine stay out of everything below calc. */
const PURE: ReadonlySet<string> = new Set([
  'src/faults',
  'src/numerics',
  'src/engine',
  'src/units',
  'src/tables',
  'src/functions',
]);

const HOSTS: readonly string[] = ['src/hosts/excel', 'src/hosts/sheet', 'src/hosts/cli'];

export interface Import {
  /** path from the root, with forward slashes */
  readonly file: string;
  /** path from the root for a relative import, else the package as written */
  readonly target: string;
  readonly relative: boolean;
}

function folderOf(path: string): string | undefined {
  const known = [...RANKS.flat(), ...OUTSIDE.keys()];
  return known.find((folder) => path === folder || path.startsWith(`${folder}/`));
}

/** All modules that a source text imports, re-exports or loads: types as well, since a layer must not know of them either. */
export function importsOf(file: string, text: string): readonly Import[] {
  return ts.preProcessFile(text, true, true).importedFiles.map(({ fileName }) => {
    const isRelative = fileName.startsWith('.');
    const target = isRelative ? posix.normalize(posix.join(posix.dirname(file), fileName)) : fileName;
    return { file, target, relative: isRelative };
  });
}

/** What is wrong with an import, or undefined. */
export function wrongImport({ file, target, relative: isRelative }: Import): string | undefined {
  const from = folderOf(file);
  if (from === undefined) return undefined;
  if (!isRelative)
    return PURE.has(from) ? `${file} imports the package ${target}: ${from} stands on our own code only` : undefined;
  const to = folderOf(target);
  const allowed = OUTSIDE.get(from);
  // a host may bring the template in as data, never the other way round
  if (to === 'templates')
    return from === 'templates' || HOSTS.includes(from) ? undefined : `${file} imports ${target} from the template`;
  if (to === undefined)
    return target.startsWith('src/') ? `${file} imports ${target}, which is in no layer` : undefined;
  if (allowed !== undefined)
    return allowed.includes(to) ? undefined : `${file} imports ${target}: ${from} may not use ${to}`;
  const rank = (folder: string) => RANKS.findIndex((folders) => folders.includes(folder));
  if (from === to || rank(to) < rank(from)) return undefined;
  if (rank(to) === rank(from) && FRIENDS.has(from) && FRIENDS.has(to)) return undefined;
  return `${file} imports ${target}: ${from} may not use ${to}`;
}

const SOURCE = /\.(ts|tsx|mjs|js)$/;

/** Every import of every source file under the folders given. */
export function allImports(root: string, folders: readonly string[]): readonly Import[] {
  return folders.flatMap((folder) => {
    const start = resolve(root, folder);
    return readdirSync(start, { recursive: true, encoding: 'utf8' })
      .filter((name) => SOURCE.test(name))
      .flatMap((name) => {
        const path = join(start, name);
        return importsOf(relative(root, path).split('\\').join('/'), readFileSync(path, 'utf8'));
      });
  });
}
