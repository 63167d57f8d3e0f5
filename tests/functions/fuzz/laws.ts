import { isDeepStrictEqual } from 'node:util';
import { callFunction } from '../../../src/functions/adapter.ts';
import type { CellFunction, RawArgument } from '../../../src/functions/define.ts';
import type { Outcome } from '../../../src/functions/outcome.ts';
import { type Cell, type CellRange, isCellError } from '../../../src/tables/cells.ts';
import { manyOf } from './arguments.ts';
import type { Random } from './random.ts';

/** CPU milliseconds of one call: the slowest sound call of a cell takes a tenth of it. */
export const CALL_BUDGET = 4000;

const CODES: ReadonlySet<string> = new Set(['#VALUE!', '#N/A', '#NUM!']);
const OWN_FAULT = /fault of its own|undefined|\[object|NaN is/u;

function wrongCell(cell: unknown): string | undefined {
  if (typeof cell === 'number') return Number.isFinite(cell) ? undefined : `the number ${cell}`;
  if (typeof cell === 'string') return OWN_FAULT.test(cell) && cell.includes('fault of its own') ? cell : undefined;
  if (typeof cell === 'boolean' || cell === null || cell === undefined) return undefined;
  if (!isCellError(cell)) return `a cell that is ${typeof cell}`;
  if (!CODES.has(cell.error)) return `the error ${cell.error}`;
  return cell.message !== undefined && OWN_FAULT.test(cell.message) ? cell.message : undefined;
}

/** Finite numbers, text, booleans, or a fault in words: what is wrong with an outcome, if anything. */
export function wrongOutcome(outcome: Outcome): string | undefined {
  if (!outcome.ok) {
    if (!CODES.has(outcome.code)) return `code ${outcome.code}`;
    if (outcome.message.length <= 10) return `no words: "${outcome.message}"`;
    return OWN_FAULT.test(outcome.message) ? outcome.message : undefined;
  }
  const { value } = outcome;
  if (!Array.isArray(value)) return value === null || value === undefined ? 'a blank' : wrongCell(value);
  const rows = value as CellRange;
  const width = rows[0]?.length ?? 0;
  if (width === 0) return 'an empty table';
  for (const row of rows) {
    if (row.length !== width) return 'rows of unequal length';
    for (const cell of row) {
      const wrong = wrongCell(cell);
      if (wrong !== undefined) return wrong;
    }
  }
  return undefined;
}

/** A copy as a host makes one at the next recalculation: same cells, other arrays. */
function copied(args: readonly RawArgument[]): RawArgument[] {
  return args.map((raw) => (Array.isArray(raw) ? (raw as CellRange).map((row) => [...row]) : raw));
}

export interface Called {
  readonly outcome: Outcome | undefined;
  readonly wrong: string | undefined;
  /** CPU milliseconds */
  readonly cost: number;
}

function timed(fn: CellFunction, args: readonly RawArgument[]): Called {
  const before = process.cpuUsage();
  let outcome: Outcome | undefined;
  let wrong: string | undefined;
  try {
    outcome = callFunction(fn, args);
    wrong = wrongOutcome(outcome);
  } catch (error) {
    wrong = `an exception: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`;
  }
  const { user, system } = process.cpuUsage(before);
  return { outcome, wrong, cost: (user + system) / 1000 };
}

/** One call held to the laws: sane, in its budget, the input untouched, and the same when called again. */
export function checkedCall(fn: CellFunction, args: readonly RawArgument[]): Called {
  const again = copied(args);
  const first = timed(fn, args);
  if (first.wrong !== undefined) return first;
  if (!isDeepStrictEqual(args, again)) return { ...first, wrong: 'its arguments were changed' };
  const second = timed(fn, again);
  const cost = Math.min(first.cost, second.cost);
  // a collection of garbage or a first compilation may fall into one call, not into both
  if (cost > CALL_BUDGET) return { ...first, cost, wrong: `${Math.round(cost)} ms of work` };
  if (!isDeepStrictEqual(first.outcome, second.outcome))
    return { ...first, wrong: `another answer the second time: ${shown(first.outcome)} then ${shown(second.outcome)}` };
  return { ...first, cost: first.cost };
}

/** Whether a parameter that takes one cell may be given a range in this function. */
export function lifts(fn: CellFunction): boolean {
  return (
    fn.result.kind !== 'table' &&
    Object.values(fn.parameters).some(({ takesRange, repeating }) => !takesRange && !repeating)
  );
}

/** One argument as a range of cells gives, cell by cell, what a call with that cell gives. */
export function wrongLift(random: Random, fn: CellFunction, args: readonly RawArgument[]): string | undefined {
  const entries = Object.entries(fn.parameters);
  const places = entries.flatMap(([, { takesRange, repeating }], i) => (takesRange || repeating ? [] : [i]));
  const place = random.pick(places);
  const single = entries.map(([key, parameter], i): RawArgument => {
    const raw = args[i];
    return !parameter.takesRange && Array.isArray(raw) ? manyOf(random, key, parameter, 'row')[0]?.[0] : raw;
  });
  const [key, parameter] = entries[place] ?? [];
  if (key === undefined || parameter === undefined) return undefined;
  const shape = random.pick(['row', 'column'] as const);
  const range = manyOf(random, key, parameter, shape);
  const whole = callFunction(
    fn,
    single.map((raw, i) => (i === place ? range : raw)),
  );
  const ones = range.flat().map((cell) =>
    callFunction(
      fn,
      single.map((raw, i) => (i === place ? cell : raw)),
    ),
  );
  const wrong = wrongOutcome(whole);
  if (wrong !== undefined) return `${wrong} for ${key} = ${shown(range)}`;
  if (!whole.ok) {
    // a fault in an argument that all cells share
    return ones.every((one) => !one.ok) ? undefined : `a fault for the whole range ${shown(range)}: ${whole.message}`;
  }
  const cells = (whole.value as CellRange).flat();
  const same = (cell: Cell, one: Outcome | undefined): boolean => {
    if (one === undefined) return false;
    if (isCellError(cell)) return !one.ok || Array.isArray(one.value);
    return one.ok && isDeepStrictEqual(cell, one.value);
  };
  const off = cells.findIndex((cell, i) => !same(cell, ones[i]));
  if (off < 0 && cells.length === ones.length) return undefined;
  return `${key} as the range ${shown(range)} gives ${shown(cells)}, cell by cell ${shown(ones)}`;
}

export function shown(value: unknown): string {
  const text = JSON.stringify(value, (_, one: unknown) => {
    if (one === undefined) return '(undefined)';
    if (typeof one === 'number' && !Number.isFinite(one)) return `(${one})`;
    return typeof one === 'string' && one.length > 200 ? `${one.slice(0, 20)}... ${one.length} characters` : one;
  });
  return text ?? 'undefined';
}
