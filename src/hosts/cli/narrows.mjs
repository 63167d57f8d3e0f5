#!/usr/bin/env node
// The command compiles its sources the first time and when they have changed; where it cannot keep them it runs them as they are.
import { pathToFileURL } from 'node:url';

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  // older ones cannot take an ES module through require, which the formula engine's packages do
  process.stderr.write(`narrows: needs Node 20.19 or newer; this is ${process.versions.node}\n`);
  process.exit(2);
}

const { compiledCommand } = await import('./compile.mjs');
const folder = await compiledCommand();
if (folder === undefined) (await import('tsx/esm/api')).register();
const main = folder === undefined ? new URL('./main.ts', import.meta.url) : pathToFileURL(`${folder}/main.js`);
const { run } = await import(main.href);
process.exitCode = await run(process.argv.slice(2), new URL('../', import.meta.url));
