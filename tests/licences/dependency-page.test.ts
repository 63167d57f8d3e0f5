import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { dependencyPage, withoutSizes } from '../../tools/dependency-page.ts';

it('docs/dependencies.md lists the packages, their versions and licences as they are', () => {
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const page = readFileSync(new URL('../../docs/dependencies.md', import.meta.url), 'utf8');
  expect(withoutSizes(page)).toBe(withoutSizes(dependencyPage(root)));
  expect(page).toMatch(/\| \d+\.\d MB \|/);
});
