import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { functions } from '../../src/functions/index.ts';
import { referencePages, signature } from '../../tools/reference-pages.ts';

const folder = new URL('../../docs/reference/', import.meta.url);
const pages = referencePages(functions);

describe('the reference pages', () => {
  it('are those that the declarations give; npm run docs writes them', () => {
    expect(readdirSync(folder).sort()).toEqual([...pages.keys()].sort());
    for (const [name, text] of pages) expect(readFileSync(new URL(name, folder), 'utf8'), name).toBe(text);
  });

  it('link to pages that are there', () => {
    for (const [name, text] of pages) {
      for (const [, target = ''] of text.matchAll(/\]\(([^)#]+)(?:#[^)]*)?\)/gu))
        expect(pages.has(target), `${name}: ${target}`).toBe(true);
    }
  });

  it('show how a function is called', () => {
    const fn = functions.find(({ id }) => id === 'TUBE.BORE');
    expect(fn && signature(fn)).toBe('=NARROWS.TUBE.BORE(size, [standard])');
  });
});
