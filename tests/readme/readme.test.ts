import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { narrows } from '../cli/run.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const readme = readFileSync(`${root}/README.md`, 'utf8');

interface Shown {
  readonly words: readonly string[];
  readonly output: string;
}

/** Every block of the README that shows a command after `$` and, below it, what the command prints. */
const shown: readonly Shown[] = [...readme.matchAll(/```\n\$ npx narrows (.*)\n([\s\S]*?)\n```/g)].map(
  ([, command = '', output = '']) => ({
    words: [...command.matchAll(/'([^']*)'|(\S+)/g)].map(([, quoted, bare]) => quoted ?? bare ?? ''),
    output,
  }),
);

const trimmed = (text: string): string => text.replace(/[ \t]+$/gm, '').trimEnd();

test('the README shows an example for each of the three users', () => {
  expect(shown.length).toBeGreaterThanOrEqual(6);
});

test.each(shown)('the README shows what the command prints: $words.3', async ({ words, output }) => {
  const { out, err } = await narrows(words, '', root);
  expect(trimmed(out + err)).toBe(output);
});
