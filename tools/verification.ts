import { writeFileSync } from 'node:fs';
import { verificationPage } from './verification-page.ts';

/** Writes docs/verification.md. */
writeFileSync(new URL('../docs/verification.md', import.meta.url), verificationPage());
console.log('docs/verification.md written');
