import { readdirSync, readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { verificationPage } from '../../tools/verification-page.ts';
import { recordsOf } from '../references/account.ts';
import { accounts } from '../references/accounts.ts';
import { agreements, type Measured, measured } from './agreements.ts';

let all: readonly Measured[] = [];
beforeAll(() => {
  all = measured();
});

describe('a second implementation by another method', () => {
  it.each(agreements.map(({ what, held }) => [what, held] as const))('%s: within %s', (what, held) => {
    const one = all.find((known) => known.what === what);
    expect(one?.cases ?? 0).toBeGreaterThan(0);
    expect(one?.largest).toBeLessThanOrEqual(held);
  });
});

describe('the verification page', () => {
  const page = readFileSync(new URL('../../docs/verification.md', import.meta.url), 'utf8');

  it('is what the comparisons give now; npm run verify writes it', () => {
    expect(page).toBe(verificationPage(all));
  });

  it('has every file of reference rows, and every row is used or says why not', () => {
    const files = readdirSync(new URL('../references/', import.meta.url)).filter((name) => name.endsWith('.csv'));
    expect(accounts.map(({ file }) => `${file}.csv`).sort()).toEqual(files.sort());
    for (const of of accounts)
      for (const { row, comparisons, reason } of recordsOf(of))
        expect(comparisons.length > 0 !== reason.length > 10, `${row.file} ${row.id}`).toBe(true);
  });

  it('calls nothing published whose row does not', () => {
    for (const of of accounts) {
      // ids are those of the file: the same may stand in two
      const section = page.split('\n## ').find((text) => text.includes(`(${of.file}.csv)\n`)) ?? '';
      for (const { row, reason } of recordsOf(of)) {
        if (reason !== '' || !/^[A-Z]+-\d+$/u.test(row.id)) continue;
        const line = section.split('\n').find((text) => text.startsWith(`| ${row.id} |`)) ?? '';
        expect(line.includes('| published |'), `${row.file} ${row.id}`).toBe(row.basis === 'published');
      }
    }
  });
});
