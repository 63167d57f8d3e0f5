#!/usr/bin/env node
// The command runs the TypeScript sources as they are: no build step after installation.
import { register } from 'tsx/esm/api';

const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  // older ones cannot take an ES module through require, which the formula engine's packages do
  process.stderr.write(`narrows: needs Node 20.19 or newer; this is ${process.versions.node}\n`);
  process.exit(2);
}

register();
const { run } = await import('./main.ts');
process.exitCode = await run(process.argv.slice(2));
