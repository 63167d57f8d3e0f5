import type { CellFunction, RawArgument } from '../functions/define.ts';
import type { Outcome } from '../functions/outcome.ts';
import { type Cell, isCellError } from '../tables/cells.ts';
import type { CallFunction } from './univer-functions.ts';

/** Calls with more cells than this are worked out each time: making and keeping their key would cost as much. */
const MOST_ARGUMENT_CELLS = 20_000;
/** Answers that are kept, and characters of all their keys; the longest unused goes first. */
const MOST_KEPT = 2_000;
const MOST_CHARACTERS = 20_000_000;
/** Answers with more cells than this are not kept. */
const MOST_ANSWER_CELLS = 20_000;

/**
 * The same call, answered from memory where the function was called with the same content before. Our functions depend
 * on nothing but their arguments, so what is kept never changes a result; a formula whose cells were touched but hold what
 * they held costs a look-up.
 */
export function remembering(call: CallFunction): CallFunction {
  const kept = new Map<string, Outcome>();
  let characters = 0;
  return (fn, args) => {
    const key = keyOf(fn, args);
    if (key === undefined) return call(fn, args);
    const known = kept.get(key);
    if (known !== undefined) {
      // last used stays longest
      kept.delete(key);
      kept.set(key, known);
      return known;
    }
    const outcome = call(fn, args);
    if (outcome.ok && Array.isArray(outcome.value) && cellCount(outcome.value) > MOST_ANSWER_CELLS) return outcome;
    kept.set(key, outcome);
    characters += key.length;
    for (const oldest of kept.keys()) {
      if (kept.size <= MOST_KEPT && characters <= MOST_CHARACTERS) break;
      kept.delete(oldest);
      characters -= oldest.length;
    }
    return outcome;
  };
}

const cellCount = (rows: readonly (readonly unknown[])[]): number => rows.length * (rows[0]?.length ?? 0);

/** Text that two calls share only when they hand over the same: kinds of blank and of value are told apart. */
function keyOf(fn: CellFunction, args: readonly RawArgument[]): string | undefined {
  const pieces: string[] = [fn.id];
  let cells = 0;
  for (const arg of args) {
    if (!Array.isArray(arg)) {
      pieces.push(cellKey(arg as Cell));
      continue;
    }
    const rows = arg as readonly (readonly Cell[])[];
    cells += cellCount(rows);
    if (cells > MOST_ARGUMENT_CELLS) return undefined;
    pieces.push(rangeKey(rows));
  }
  return pieces.join('\v');
}

/** Texts of ranges: the cells of a sheet that read one table are given the same rows. */
const rangeKeys = new WeakMap<object, string>();

function rangeKey(rows: readonly (readonly Cell[])[]): string {
  const known = rangeKeys.get(rows);
  if (known !== undefined) return known;
  const key = `[${rows.map((row) => row.map(cellKey).join('\t')).join('\n')}]`;
  rangeKeys.set(rows, key);
  return key;
}

function cellKey(cell: Cell): string {
  if (typeof cell === 'number') return Object.is(cell, -0) ? 'n-0' : `n${cell}`;
  if (typeof cell === 'string') return JSON.stringify(cell);
  if (cell === null) return '';
  if (cell === undefined) return 'u';
  if (isCellError(cell)) return `e${JSON.stringify([cell.error, cell.message])}`;
  return `b${cell}`;
}
