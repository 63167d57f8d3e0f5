/**
 * Fails unless every installed package, through all levels, is under a permissive licence by its own package file or by
 * a record in licence-records.json. Packages of other platforms are judged by what the lock file says of them.
 */
import { readFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { absentPackages, installedPackages } from './licences/packages.ts';
import { type LicenceRecord, objection } from './licences/verdict.ts';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const records = JSON.parse(readFileSync(new URL('licence-records.json', import.meta.url), 'utf8')) as LicenceRecord[];

const installed = installedPackages(root);
const all = [...installed, ...absentPackages(root, installed)];
const objections = all.flatMap((entry) => objection(root, entry, records) ?? []);
const idle = records.filter((record) => !all.some((entry) => entry.name === record.name));

for (const record of idle) objections.push(`${record.name} is recorded but not installed: remove the record`);
if (installed.length === 0) objections.push('no package is installed: nothing was checked');
for (const line of objections) console.error(line);
console.log(`${all.length} packages, ${objections.length} objections to their licences`);
process.exitCode = objections.length === 0 ? 0 : 1;
