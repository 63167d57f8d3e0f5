import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { functions } from '../src/functions/index.ts';
import { dependencyPage } from './dependency-page.ts';
import { referencePages } from './reference-pages.ts';

/** Writes docs/reference from the registry, a page whose function is gone goes too, and docs/dependencies.md. */
const folder = fileURLToPath(new URL('../docs/reference', import.meta.url));
const pages = referencePages(functions);
mkdirSync(folder, { recursive: true });
for (const name of readdirSync(folder)) if (!pages.has(name)) rmSync(join(folder, name));
for (const [name, text] of pages) writeFileSync(join(folder, name), text);
console.log(`${pages.size} pages written to docs/reference`);
const root = fileURLToPath(new URL('..', import.meta.url));
writeFileSync(join(root, 'docs/dependencies.md'), dependencyPage(root));
