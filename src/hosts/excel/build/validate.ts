/** Checks manifest and metadata offline, by the published rules, and prints what the platform's own tool reads. */
import { readFileSync } from 'node:fs';
import { OfficeAddinManifest } from 'office-addin-manifest';
import { manifestFaults } from './manifest-rules.ts';

const file = process.argv[2] ?? 'manifest.xml';
const faults = manifestFaults(readFileSync(file, 'utf8'));
for (const fault of faults) console.error(fault);
const info = await OfficeAddinManifest.readManifestFile(file);
console.log(`${info.displayName} ${info.version} by ${info.providerName}, for ${info.hosts?.join(', ')}`);
console.log(`${file}: ${faults.length} faults`);
process.exitCode = faults.length === 0 ? 0 : 1;
