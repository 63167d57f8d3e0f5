import { describe, expect, it } from 'vitest';
import { isPermissive, parseLicence } from '../../tools/licences/expression.ts';

describe('licence expressions', () => {
  it.each([
    'MIT',
    'Apache-2.0',
    '(BSD-3-Clause OR GPL-2.0)',
    'GPL-2.0-only OR MIT',
    '(MIT AND BSD-2-Clause)',
    'Apache-2.0 WITH LLVM-exception',
    '(MIT OR (GPL-3.0 AND LGPL-2.1)) AND ISC',
  ])('%s lets anyone use the package with notices kept', (text) => {
    expect(isPermissive(text)).toBe(true);
  });

  it.each([
    '',
    'GPL-2.0',
    'LGPL-3.0-or-later',
    'MPL-2.0',
    'MIT AND MPL-2.0',
    'UNLICENSED',
    'SEE LICENSE IN LICENSE.md',
    'LICENSE',
    'CC-BY-4.0',
    'constructor',
  ])('%s is not taken for permissive', (text) => {
    expect(isPermissive(text)).toBe(false);
  });

  it.each(['MIT OR', '(MIT', 'MIT)', 'OR MIT', 'MIT ISC', 'MIT WITH', '()'])('%s is no expression', (text) => {
    expect(parseLicence(text)).toBeUndefined();
  });

  it('AND binds tighter than OR, so a permissive choice outweighs a copyleft pair', () => {
    expect(isPermissive('MIT OR GPL-2.0 AND GPL-3.0')).toBe(true);
    expect(isPermissive('(MIT OR GPL-2.0) AND GPL-3.0')).toBe(false);
  });
});
