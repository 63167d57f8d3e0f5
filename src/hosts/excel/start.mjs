#!/usr/bin/env node
import { register } from 'tsx/esm/api';

register();
const { serveAddIn } = await import('./serve/run.ts');
await serveAddIn(process.argv.slice(2));
