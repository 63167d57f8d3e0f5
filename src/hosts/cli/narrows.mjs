#!/usr/bin/env node
// The command runs the TypeScript sources as they are: no build step after installation.
import { register } from 'tsx/esm/api';

register();
const { run } = await import('./main.ts');
process.exitCode = await run(process.argv.slice(2));
