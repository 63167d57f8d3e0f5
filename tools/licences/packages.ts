import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

export interface InstalledPackage {
  readonly name: string;
  readonly version: string;
  /** the licence as the package file states it; empty when it states none */
  readonly licence: string;
  /** folder relative to the root; undefined for a package of another platform that the lock file lists */
  readonly folder: string | undefined;
}

/** Every package under `node_modules`, through all levels. */
export function installedPackages(root: string): readonly InstalledPackage[] {
  const found: InstalledPackage[] = [];
  visit(join(root, 'node_modules'), root, found);
  return found;
}

function visit(modules: string, root: string, found: InstalledPackage[]): void {
  if (!existsSync(modules)) return;
  for (const name of readdirSync(modules)) {
    if (name.startsWith('.')) continue;
    const folders = name.startsWith('@') ? readdirSync(join(modules, name)).map((inner) => join(name, inner)) : [name];
    for (const folder of folders) {
      const path = join(modules, folder);
      const file = join(path, 'package.json');
      if (!existsSync(file)) continue;
      const description = JSON.parse(readFileSync(file, 'utf8')) as PackageFile;
      found.push({
        name: description.name ?? folder,
        version: description.version ?? '',
        licence: statedLicence(description),
        folder: path.slice(root.length + 1),
      });
      visit(join(path, 'node_modules'), root, found);
    }
  }
}

interface PackageFile {
  readonly name?: string;
  readonly version?: string;
  readonly license?: unknown;
  readonly licenses?: unknown;
}

/** Old package files hold an object or a list of objects where today's hold an expression. */
export function statedLicence(description: Pick<PackageFile, 'license' | 'licenses'>): string {
  const stated = description.license ?? description.licenses;
  if (typeof stated === 'string') return stated;
  const entries = Array.isArray(stated) ? stated : [stated];
  const types = entries.map((entry) =>
    typeof entry === 'object' && entry !== null && 'type' in entry ? String(entry.type) : '',
  );
  if (types.includes('')) return '';
  return types.length === 1 ? (types[0] ?? '') : `(${types.join(' OR ')})`;
}

/** Packages that the lock file lists and this machine does not install: builds for other platforms. */
export function absentPackages(root: string, installed: readonly InstalledPackage[]): readonly InstalledPackage[] {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')) as {
    readonly packages: Readonly<Record<string, PackageFile>>;
  };
  const here = new Set(installed.map((entry) => entry.folder));
  return Object.entries(lock.packages)
    .filter(([folder]) => folder !== '' && !here.has(folder))
    .map(([folder, entry]) => ({
      name: folder.slice(folder.lastIndexOf('node_modules/') + 'node_modules/'.length),
      version: entry.version ?? '',
      licence: statedLicence(entry),
      folder: undefined,
    }));
}
