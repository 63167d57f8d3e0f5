import { readdirSync, readFileSync } from 'node:fs';
import { posix } from 'node:path';
import { fileURLToPath } from 'node:url';
import { docPage } from './page.ts';

const FOLDER = fileURLToPath(new URL('../../docs/', import.meta.url));
const STYLE = fileURLToPath(new URL('./docs.css', import.meta.url));

/** Names of the files of the docs, with / between folders, in order. */
export function docFiles(): readonly string[] {
  return readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
    .map((name) => name.replaceAll('\\', '/'))
    .filter((name) => /\.(?:md|png|svg)$/.test(name))
    .sort();
}

export function readDoc(name: string): Buffer {
  return readFileSync(posix.join(FOLDER.replaceAll('\\', '/'), name));
}

/**
 * The docs as plain pages, by their names under docs/: each `x.md` is `x.html`, each `README.md` the `index.html` of its
 * folder; pictures as they are, and the one style sheet.
 */
export function docPages(): ReadonlyMap<string, string | Buffer> {
  const pages = new Map<string, string | Buffer>([['docs.css', readFileSync(STYLE, 'utf8')]]);
  for (const name of docFiles()) {
    const content = readDoc(name);
    if (!name.endsWith('.md')) pages.set(name, content);
    else {
      const page = name.replace(/(^|\/)README\.md$/, '$1index.md').replace(/\.md$/, '.html');
      pages.set(page, docPage(content.toString('utf8'), name.split('/').length - 1));
    }
  }
  return pages;
}
