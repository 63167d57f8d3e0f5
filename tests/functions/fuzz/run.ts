import type { CellFunction, RawArgument } from '../../../src/functions/define.ts';
import { functions } from '../../../src/functions/index.ts';
import { argumentsFor } from './arguments.ts';
import { checkedCall, lifts, shown, wrongLift } from './laws.ts';
import { randomOf } from './random.ts';

/** Turns of a function beside the others: what is worked out without a table is quick and is called more. */
const QUICK = 24;
const WITH_TABLE = 6;

function weightOf(fn: CellFunction): number {
  return Object.values(fn.parameters).some(({ kind }) => kind === 'table') ? WITH_TABLE : QUICK;
}

const TURNS: readonly CellFunction[] = functions.flatMap((fn) => Array.from({ length: weightOf(fn) }, () => fn));

/** Part of the calls whose array form is held to the scalar form as well. */
const LIFTED = 0.1;

export interface Failure {
  readonly call: number;
  readonly id: string;
  readonly wrong: string;
  readonly told: string;
}

export interface FuzzReport {
  readonly seed: number;
  readonly calls: number;
  readonly answers: number;
  readonly faults: number;
  readonly failures: readonly Failure[];
  /** by function: calls, answers, CPU ms in all and of the slowest call */
  readonly byFunction: ReadonlyMap<string, { calls: number; answers: number; cost: number; slowest: number }>;
}

export interface FuzzOptions {
  readonly from?: number;
  readonly mostFailures?: number;
  readonly onProgress?: (done: number) => void;
  /** only this function */
  readonly id?: string;
}

/** One call of a run, by seed and number. */
export function fuzzCall(seed: number, call: number, id?: string) {
  const random = randomOf(seed, call);
  const turn = random.pick(TURNS);
  const fn = id === undefined ? turn : (functions.find((known) => known.id === id) ?? turn);
  const args = argumentsFor(random, fn);
  const called = checkedCall(fn, args);
  const lifted = called.wrong === undefined && lifts(fn) && random.chance(LIFTED);
  const wrong = called.wrong ?? (lifted ? wrongLift(random, fn, args) : undefined);
  return { ...called, fn, args, wrong };
}

/** Leaves out what does not matter: blanks for arguments and rows dropped while the same thing stays wrong. */
export function shrunk(fn: CellFunction, args: readonly RawArgument[], wrong: string): readonly RawArgument[] {
  const kind = (text: string | undefined): string => text?.replace(/[\d.]+/gu, '').slice(0, 60) ?? '';
  const still = (tried: readonly RawArgument[]): boolean => kind(checkedCall(fn, tried).wrong) === kind(wrong);
  if (!still(args)) return args;
  let best = [...args];
  const tryOne = (at: number, value: RawArgument): void => {
    const tried = best.map((raw, i) => (i === at ? value : raw));
    if (still(tried)) best = tried;
  };
  for (let at = 0; at < best.length; at++) {
    if (best[at] !== null) tryOne(at, null);
    for (let row = 0; ; row++) {
      const raw = best[at];
      if (!Array.isArray(raw) || row >= raw.length) break;
      const before = best;
      tryOne(
        at,
        raw.filter((_, i) => i !== row),
      );
      if (best !== before) row--;
    }
    for (let column = 0; ; column++) {
      const raw = best[at];
      if (!Array.isArray(raw) || column >= (raw[0]?.length ?? 0)) break;
      const before = best;
      tryOne(
        at,
        raw.map((row) => row.filter((_: unknown, i: number) => i !== column)),
      );
      if (best !== before) column--;
    }
  }
  return best;
}

export function runFuzz(seed: number, calls: number, options: FuzzOptions = {}): FuzzReport {
  const { from = 0, mostFailures = 20, onProgress, id } = options;
  const failures: Failure[] = [];
  const byFunction = new Map<string, { calls: number; answers: number; cost: number; slowest: number }>();
  let answers = 0;
  let done = 0;
  for (let call = from; call < from + calls && failures.length < mostFailures; call++) {
    const { fn, args, wrong, outcome, cost } = fuzzCall(seed, call, id);
    done++;
    const entry = byFunction.get(fn.id) ?? { calls: 0, answers: 0, cost: 0, slowest: 0 };
    byFunction.set(fn.id, entry);
    entry.calls++;
    entry.cost += cost;
    entry.slowest = Math.max(entry.slowest, cost);
    if (outcome?.ok === true) {
      entry.answers++;
      answers++;
    }
    if (wrong !== undefined) failures.push({ call, id: fn.id, wrong, told: shown(shrunk(fn, args, wrong)) });
    if (onProgress !== undefined && done % 1000 === 0) onProgress(done);
  }
  return { seed, calls: done, answers, faults: done - answers - failures.length, failures, byFunction };
}
