import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { isPermissive } from './expression.ts';
import type { InstalledPackage } from './packages.ts';

/** A decision on a package whose own file does not settle the matter, tied to the text it was taken on. */
export interface LicenceRecord {
  readonly name: string;
  /** the licence that applies */
  readonly licence: string;
  readonly because: string;
  /** file in the package that carries the terms, and the SHA-256 of its text */
  readonly file: string;
  readonly sha256: string;
}

/** Why a package may not be used, or undefined if it may. */
export function objection(
  root: string,
  entry: InstalledPackage,
  records: readonly LicenceRecord[],
): string | undefined {
  if (isPermissive(entry.licence)) return undefined;
  const label = `${entry.name}@${entry.version}`;
  const record = records.find((candidate) => candidate.name === entry.name);
  if (record === undefined) {
    const stated = entry.licence === '' ? 'states no licence' : `is under "${entry.licence}"`;
    return `${label} ${stated}, which is not on the list of permissive licences: replace it, or record the evidence`;
  }
  if (entry.folder === undefined) return undefined;
  const file = join(root, entry.folder, record.file);
  if (!existsSync(file)) return `${label}: the recorded licence text ${record.file} is not in the package`;
  const sha256 = createHash('sha256').update(readFileSync(file)).digest('hex');
  return sha256 === record.sha256
    ? undefined
    : `${label}: ${record.file} is not the text that was recorded; read it again`;
}
