/**
 * Mutation testing: small faults are put into the sources one by one, and the tests must notice each. `npm run mutate` does all of
 * `mutate` in stryker.config.json, `npm run mutate -- src/units` one folder or file; hours for all, so it is in no other command.
 *
 * The tool is no dependency of the package, because a data package far below it (caniuse-lite) is under CC-BY-4.0: it is
 * installed into a folder of its own on first use, and finds the test runner of the project from there.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, statSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const VERSION = '9.6.1';
const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const FOLDER = `${ROOT}.cache/mutate`;
const COMMAND = `${FOLDER}/node_modules/@stryker-mutator/core/bin/stryker.js`;

function run(command, args, cwd) {
  const { status, error } = spawnSync(command, args, { cwd, stdio: 'inherit' });
  if (error) throw error;
  if (status !== 0) process.exit(status ?? 1);
}

if (!existsSync(COMMAND)) {
  mkdirSync(FOLDER, { recursive: true });
  writeFileSync(`${FOLDER}/package.json`, '{ "private": true }\n');
  const packages = ['core', 'vitest-runner'].map((name) => `@stryker-mutator/${name}@${VERSION}`);
  // Without its peers: it takes the project's own test runner.
  const install = ['install', '--legacy-peer-deps', '--ignore-scripts', '--no-audit', '--no-fund', '--save-exact'];
  run('npm', [...install, ...packages], FOLDER);
}

const [asked, ...rest] = process.argv.slice(2);
const isFolder = asked !== undefined && statSync(`${ROOT}${asked}`, { throwIfNoEntry: false })?.isDirectory() === true;
const which = asked === undefined ? [] : ['--mutate', isFolder ? `${asked.replace(/\/$/, '')}/**/*.ts` : asked];
run(process.execPath, [COMMAND, 'run', 'stryker.config.json', ...which, ...rest], ROOT);
