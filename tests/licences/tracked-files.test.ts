import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, statSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

/** The patterns are put together from pieces so that this file does not match itself. */
const FORBIDDEN: readonly { readonly what: string; readonly pattern: RegExp }[] = [
  {
    what: 'a package registry host',
    pattern: new RegExp(`${['registry', 'npmjs', 'org'].join('\\.')}|artifact${'ory'}`, 'i'),
  },
  {
    what: 'a path of one machine',
    pattern: new RegExp(`(?<![\\w.])/(?:${['ho' + 'me', 'Us' + 'ers', 'ro' + 'ot', 'wo' + 'rk'].join('|')})/[\\w.-]+/`),
  },
  { what: 'a private key', pattern: new RegExp(`-----BEGIN [A-Z ]*PRIVATE ${'KEY'}`) },
  {
    what: 'an address of a person',
    pattern:
      /\b[\w.+-]+@(?!(?:[\w-]+\.)*example(?:\.(?:com|org|net))?\b)[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)*\.(?:com|org|net|edu|io|dev|de|uk|eu|info|co)\b/i,
  },
  {
    what: 'a password or key in an assignment',
    pattern: /\b(?:password|passwd|secret|api[_-]?key|access[_-]?token)["']?\s*[:=]\s*["'][^"'\s]{8,}["']/i,
  },
  { what: 'a token of a signed-in person', pattern: /\beyJ[A-Za-z0-9_-]{10,}\.[A-Za-z0-9_-]{10,}\.[A-Za-z0-9_-]{5,}/ },
  { what: 'a token in an address', pattern: /\bhttps?:\/\/[^\s/:@"'`]+:[^\s/@"'`]+@/ },
  {
    what: 'a token of a service',
    pattern: /\b(?:xox[abprs]-[A-Za-z0-9-]{10,}|AIza[\w-]{35}|sk-[A-Za-z0-9]{32,}|glpat-[\w-]{20})/,
  },
  { what: 'an access token', pattern: /\b(?:gh[opsu]_[A-Za-z0-9]{36}|npm_[A-Za-z0-9]{36}|AKIA[0-9A-Z]{16})\b/ },
];

const MAX_BYTES = 2_000_000;

describe('files under version control', () => {
  // An exported archive has no version control to ask.
  it.skipIf(!existsSync('.git'))('name no registry host, no machine path and no secret', () => {
    const files = execFileSync('git', ['ls-files', '-z'], { encoding: 'utf8' }).split('\0').filter(Boolean);
    expect(files.length).toBeGreaterThan(20);
    const found: string[] = [];
    for (const file of files) {
      const stat = statSync(file, { throwIfNoEntry: false });
      if (stat === undefined || stat.size > MAX_BYTES || /\.(?:png|xlsx|ico)$/.test(file)) continue;
      const text = readFileSync(file, 'utf8');
      for (const { what, pattern } of FORBIDDEN) if (pattern.test(text)) found.push(`${file} names ${what}`);
    }
    expect(found).toEqual([]);
  });
});
