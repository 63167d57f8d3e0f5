import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { statedLicence } from './licences/packages.ts';

interface PackageFile {
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly devDependencies?: Readonly<Record<string, string>>;
  readonly license?: unknown;
}
interface Lock {
  readonly packages: Readonly<Record<string, { readonly dev?: boolean; readonly optional?: boolean }>>;
}

const read = <T>(...steps: string[]): T => JSON.parse(readFileSync(join(...steps), 'utf8')) as T;

/** docs/dependencies.md: what the package is built on, from its package file, the lock file and what is installed. */
export function dependencyPage(root: string): string {
  const own = read<PackageFile>(root, 'package.json');
  const locked = Object.entries(read<Lock>(root, 'package-lock.json').packages).filter(([folder]) => folder !== '');
  const running = locked.filter(([, { dev }]) => dev !== true);
  const tables = [
    ['To run', own.dependencies ?? {}],
    ['To build and test', own.devDependencies ?? {}],
  ] as const;
  const lines = [
    '# Dependencies',
    '',
    'Written by `npm run docs` from the package file, the lock file and the installed packages; a test holds it to them.',
    'All licences, through all levels, are checked by `npm run licences`; known faults of the packages are asked for by `npm run audit`.',
    '',
    `${locked.length} packages in the lock file, through all levels and for all systems; ${running.length} of them to run, the rest to build and test.`,
  ];
  for (const [title, packages] of tables) {
    lines.push(
      '',
      `## ${title}: ${Object.keys(packages).length}`,
      '',
      '| package | version | licence | size |',
      '|---|---|---|---|',
    );
    for (const [name, version] of Object.entries(packages)) {
      const folder = join(root, 'node_modules', name);
      const licence = statedLicence(read<PackageFile>(folder, 'package.json'));
      lines.push(`| ${name} | ${version} | ${licence} | ${megabytes(bytesIn(folder))} |`);
    }
  }
  return `${lines.join('\n')}\n`;
}

/** Bytes of a package's own files, without the packages inside it. */
function bytesIn(folder: string): number {
  let bytes = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    if (entry.isDirectory()) {
      if (entry.name !== 'node_modules') bytes += bytesIn(join(folder, entry.name));
    } else if (entry.isFile()) bytes += statSync(join(folder, entry.name)).size;
  }
  return bytes;
}

const megabytes = (bytes: number): string => (bytes < 50_000 ? 'under 0.1 MB' : `${(bytes / 1e6).toFixed(1)} MB`);

/** The page without its sizes, which differ from one system to the next. */
export const withoutSizes = (page: string): string => page.replace(/\| [^|]*MB \|$/gm, '|');
