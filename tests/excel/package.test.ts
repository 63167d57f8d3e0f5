import { describe, expect, it } from 'vitest';
import { packageAddress, readMe } from '../../tools/package-text.ts';

describe('the package for a static host', () => {
  it('takes its address from one variable, and refuses one that is not https', () => {
    expect(packageAddress('https://tables.example/narrows/', [])).toBe('https://tables.example/narrows');
    expect(packageAddress(undefined, ['--env', 'address=https://tables.example'])).toBe('https://tables.example');
    for (const wrong of [undefined, '', 'http://tables.example', 'tables.example', 'https://'])
      expect(packageAddress(wrong, []), wrong).toBeUndefined();
  });

  it('says in its READ-ME where the files go and where the installation is described', () => {
    const text = readMe('https://tables.example/narrows');
    expect(text).toContain('https://tables.example/narrows/docs/install-excel.html');
    expect(text).toMatch(/manifest\.xml/);
    expect(text).toMatch(/Local codes/);
  });
});
