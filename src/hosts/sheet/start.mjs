#!/usr/bin/env node
import { register } from 'tsx/esm/api';

register();
const { runSheet } = await import('./run.ts');
await runSheet(process.argv.slice(2));
