import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { absentPackages, installedPackages, statedLicence } from '../../tools/licences/packages.ts';
import { type LicenceRecord, objection } from '../../tools/licences/verdict.ts';

let root: string;

function write(path: string, content: unknown): void {
  const file = join(root, path);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, typeof content === 'string' ? content : JSON.stringify(content));
}

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'licences-'));
  write('node_modules/plain/package.json', { name: 'plain', version: '1.0.0', license: 'MIT' });
  write('node_modules/@scope/inner/package.json', { name: '@scope/inner', version: '2.0.0', license: 'ISC' });
  write('node_modules/plain/node_modules/deep/package.json', { name: 'deep', version: '3.0.0', license: 'GPL-3.0' });
  write('node_modules/silent/package.json', { name: 'silent', version: '4.0.0' });
  write('node_modules/silent/LICENSE', 'Anyone may do anything.');
  write('package-lock.json', {
    packages: {
      '': { name: 'root' },
      'node_modules/plain': { version: '1.0.0', license: 'MIT' },
      'node_modules/elsewhere': { version: '5.0.0', license: 'MPL-2.0', optional: true },
    },
  });
});

afterAll(() => {
  rmSync(root, { recursive: true, force: true });
});

function objections(records: readonly LicenceRecord[]): readonly string[] {
  const installed = installedPackages(root);
  return [...installed, ...absentPackages(root, installed)].flatMap((entry) => objection(root, entry, records) ?? []);
}

describe('the licence check', () => {
  it('finds packages inside scopes and inside other packages', () => {
    expect(
      installedPackages(root)
        .map((entry) => entry.name)
        .sort(),
    ).toEqual(['@scope/inner', 'deep', 'plain', 'silent']);
  });

  it('objects to copyleft, to silence, and to what only another platform would install', () => {
    const found = objections([]);
    expect(found).toHaveLength(3);
    expect(found.join('\n')).toMatch(/deep@3\.0\.0 is under "GPL-3\.0"/);
    expect(found.join('\n')).toMatch(/silent@4\.0\.0 states no licence/);
    expect(found.join('\n')).toMatch(/elsewhere@5\.0\.0 is under "MPL-2\.0"/);
  });

  it('accepts a record only while the package still ships the very text that was read', () => {
    const record = { name: 'silent', licence: 'MIT', because: 'read', file: 'LICENSE' };
    const sha256 = createHash('sha256').update('Anyone may do anything.').digest('hex');
    expect(objections([{ ...record, sha256 }]).join('\n')).not.toMatch(/silent/);
    expect(objections([{ ...record, sha256: '0'.repeat(64) }]).join('\n')).toMatch(/silent.*not the text/);
    expect(objections([{ ...record, sha256, file: 'COPYING' }]).join('\n')).toMatch(/silent.*COPYING is not in/);
  });

  it('reads the older forms of the licence field', () => {
    expect(statedLicence({ license: { type: 'MIT' } })).toBe('MIT');
    expect(statedLicence({ licenses: [{ type: 'MIT' }, { type: 'GPL-2.0' }] })).toBe('(MIT OR GPL-2.0)');
    expect(statedLicence({ license: {} })).toBe('');
    expect(statedLicence({})).toBe('');
  });
});
