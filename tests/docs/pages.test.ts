import { existsSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { functions } from '../../src/functions/index.ts';
import { docPage, pageLink, renderMarkdown, slug } from '../../tools/docs/page.ts';
import { docFiles, docPages } from '../../tools/docs/pages.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const texts = new Map(
  [
    'README.md',
    'DEVELOPERS.md',
    ...docFiles()
      .filter((name) => name.endsWith('.md'))
      .map((name) => `docs/${name}`),
  ].map((name) => [name, readFileSync(`${root}/${name}`, 'utf8').replace(/```[\s\S]*?```/g, '')] as const),
);
const pages = docPages();

function anchors(text: string): ReadonlySet<string> {
  return new Set([...text.matchAll(/^#+ (.*)$/gm)].map(([, heading = '']) => slug(heading.replace(/[`*]/g, ''))));
}

describe('links', () => {
  it.each([...texts])('of %s lead to files and headings that are there', (name, text) => {
    for (const [, href = ''] of text.matchAll(/\]\(([^)\s]+)\)/g)) {
      if (/^https:/.test(href)) continue;
      const [path = '', heading] = href.split('#');
      const target = path === '' ? name : posix.join(posix.dirname(name), path);
      expect(existsSync(`${root}/${target}`), `${name}: ${href}`).toBe(true);
      if (heading === undefined) continue;
      const there = texts.get(target) ?? readFileSync(`${root}/${target}`, 'utf8');
      expect([...anchors(there)], `${name}: ${href}`).toContain(heading);
    }
  });

  it('of every page lead to pages and places that are there', () => {
    for (const [name, page] of pages) {
      if (!name.endsWith('.html')) continue;
      for (const [, href = ''] of String(page).matchAll(/(?:href|src)="([^"]*)"/g)) {
        if (href.startsWith('https:') || href === 'data:,') continue;
        const [path = '', place] = href.split('#');
        const target = path === '' ? name : posix.join(posix.dirname(name), path);
        expect(pages.has(target), `${name}: ${href}`).toBe(true);
        if (place !== undefined) expect(String(pages.get(target)), `${name}: ${href}`).toContain(`id="${place}"`);
      }
    }
  });
});

describe('the pages', () => {
  it('hold one for every function, for each lesson, and for the method', () => {
    for (const { id } of functions) expect(String(pages.get(`reference/${id}.html`))).toContain(`>${id}</h1>`);
    for (const name of ['index.html', 'course/index.html', 'method.html', 'reference/index.html'])
      expect(pages.has(name), name).toBe(true);
  });

  it('hold no script, no style of their own and nothing from elsewhere', () => {
    for (const [name, page] of pages) {
      if (!name.endsWith('.html')) continue;
      expect(String(page), name).not.toMatch(/<script|<style|\sstyle=|\son\w+=|src="https?:/);
      expect(String(page), name).toContain("default-src 'none'");
    }
  });

  it('show tags that stand in the text, and lead nowhere but to pages and https', () => {
    const page = docPage('# A <b>bold</b> one\n\n<script>alert(1)</script>\n\n[x](javascript:alert(1)) `<i>`', 1);
    expect(page).not.toMatch(/<script>|<b>|<i>|javascript:/);
    expect(page).toContain('href="../docs.css"');
    for (const href of ['javascript:alert(1)', 'data:text/html,x', '//elsewhere.example/x', 'http://elsewhere.example'])
      expect(pageLink(href), href).toBeUndefined();
    expect(pageLink('../reference/README.md#rig')).toBe('../reference/index.html#rig');
    expect(pageLink('EVAC.TIME.md')).toBe('EVAC.TIME.html');
    expect(renderMarkdown('## Tubes and hoses, every regime').html).toContain('id="tubes-and-hoses-every-regime"');
  });
});
