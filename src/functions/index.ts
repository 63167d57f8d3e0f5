import { codeOf } from '../faults/codes.ts';
import type { Issue } from '../faults/issue.ts';
import { issueWords } from '../faults/words.ts';
import { callFunction } from './adapter.ts';
import { charging } from './charging/index.ts';
import type { CellFunction, RawArgument } from './define.ts';
import { dryOut } from './dry-out/index.ts';
import { estimate } from './estimate/index.ts';
import { evacuation } from './evacuation/index.ts';
import { hold } from './hold/index.ts';
import { lookUp } from './look-up/index.ts';
import type { Outcome } from './outcome.ts';
import { passages } from './passages/index.ts';
import { recovery } from './recovery/index.ts';
import { refrigerants } from './refrigerant/index.ts';
import { createRegistry, type Registry } from './registry.ts';
import { rig } from './rig/index.ts';
import { volume } from './volume/index.ts';
import { words } from './words/index.ts';

export { NAMESPACE } from './registry.ts';
export { VERSION } from './version.ts';

/** All cell functions. Everything that a host, a page or a test knows of them comes from here. */
export const registry: Registry = createRegistry([
  ...lookUp,
  ...passages,
  ...rig,
  ...volume,
  ...evacuation,
  ...dryOut,
  ...hold,
  ...refrigerants,
  ...recovery,
  ...charging,
  ...estimate,
  ...words(() => registry),
]);

export const functions: readonly CellFunction[] = registry.functions;

/** Without regard to case, with or without the namespace. */
export function findFunction(id: string): CellFunction | undefined {
  return registry.find(id);
}

/** Calls a function by its id; an unknown id is an error in words like any other. */
export function callById(id: string, rawArguments: readonly RawArgument[]): Outcome {
  const fn = findFunction(id);
  if (fn !== undefined) return callFunction(fn, rawArguments);
  const issue: Issue = { kind: 'unknown', what: 'function', value: id, known: functions.map((known) => known.id) };
  return { ok: false, code: codeOf(issue), message: issueWords(issue) };
}
