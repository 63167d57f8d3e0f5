import { comparisons } from './comparing.ts';
import type { UniverModules } from './univer.ts';

/**
 * The engine keeps, for look-ups, an index from the values of a column to the rows that hold them. Its own `set` finds a
 * row's previous value by walking over all distinct values of the column, for every cell of every result: a spilled table
 * of n rows costs n² steps. Here each row's previous value is remembered, which makes it n. The engine also files text that reads as a
 * number, and empty text, with the numbers and blank cells: a formula that was answered from the index gave another result than the
 * same formula answered first. Here what equals is the same either way. And it looks in a tree of ranges, for every cell that it files,
 * whether the cell is filed already; here the ranges of the column at hand are kept beside it.
 */

type Key = number | string | boolean | symbol;
type Columns = Map<number, Map<Key, Set<number>>>;

interface IndexSeam {
  readonly _cache: Map<string, Map<string, Columns>>;
  set(unitId: string, sheetId: string, column: number, value: unknown, row: number, force?: boolean): void;
  clear(): void;
  getCellPositions(
    unitId: string,
    sheetId: string,
    column: number,
    value: unknown,
    intervals: readonly (readonly [start: number, end: number])[],
  ): { readonly errorType: string | null; readonly matchingRows: readonly number[] } | undefined;
  setContinueBuildingCache(unitId: string, sheetId: string, column: number, startRow: number, endRow: number): void;
}

/** A column of the index. */
interface Filed {
  readonly unitId: string;
  readonly sheetId: string;
  readonly column: number;
  readonly rowsByKey: Map<Key, Set<number>>;
  /** the key of each row */
  readonly keys: Map<number, Key>;
  /** rows that were read to their end, as pairs of the first and the last; few, one for each range that a comparison read */
  readonly known: (readonly [first: number, last: number])[];
}

/** What the index has cost, for tests: cells set, and steps taken to find earlier values. */
export interface IndexWork {
  set: number;
  steps: number;
}

/** Row or column of an array that stands in no sheet. */
const NOWHERE = -1;

const installed = new WeakMap<object, IndexWork>();

function fetchMap<K, V>(map: Map<K, V>, key: K, make: () => V): V {
  let held = map.get(key);
  if (held === undefined) {
    held = make();
    map.set(key, held);
  }
  return held;
}

/** The key under which the engine files blank cells: a symbol of its own, read off an index that holds one blank. */
function blankKeyOf(index: IndexSeam): Key {
  index.set('', '', 0, null, 0, true);
  const [key] = index._cache.get('')?.get('')?.get(0)?.keys() ?? [];
  index.clear();
  return key ?? '';
}

/** Replaces `set` of the engine's one look-up index; safe to call again. Returns its work counter. */
export function installLookupIndex({ engine }: UniverModules): IndexWork {
  const index = engine.CELL_INVERTED_INDEX_CACHE as unknown as IndexSeam;
  const before = installed.get(index);
  if (before) return before;
  const work: IndexWork = { set: 0, steps: 0 };
  const blank = blankKeyOf(index);
  const clear = index.clear.bind(index);
  const markKnown = index.setContinueBuildingCache.bind(index);
  const filed = new WeakMap<Map<Key, Set<number>>, Filed>();
  /** the column that was asked for last: a range is filed cell by cell */
  let last: Filed | undefined;

  const keyOf = (value: unknown): Key => {
    if (typeof value === 'number') return value || 0;
    if (value === null || value === undefined) return blank;
    if (typeof value !== 'string') return value as Key;
    // an error stays one: as a text it would be smaller and larger than others
    return engine.ERROR_TYPE_SET.has(value as never) ? value : value.toLowerCase();
  };

  /**
   * Keys of what equals a value: a blank cell equals 0, empty text and FALSE, which do not equal each other. A look-up of one
   * of these finds no blank cell.
   */
  const keysOf = (value: unknown): readonly Key[] => {
    const key = keyOf(value);
    if (key === blank) return [blank, 0, '', false];
    const likeBlank = comparisons.as !== 'matches' && (key === 0 || key === '' || key === false);
    return likeBlank ? [key, blank] : [key];
  };

  index.getCellPositions = (unitId, sheetId, column, value, intervals) => {
    const rowsByKey = index._cache.get(unitId)?.get(sheetId)?.get(column);
    if (rowsByKey === undefined) return undefined;
    if (typeof value === 'string' && engine.ERROR_TYPE_SET.has(value as never))
      return { errorType: value, matchingRows: [] };
    const matchingRows: number[] = [];
    for (const key of keysOf(value))
      for (const row of rowsByKey.get(key) ?? [])
        if (intervals.some(([start, end]) => row >= start && row <= end)) matchingRows.push(row);
    return { errorType: null, matchingRows };
  };

  const columnOf = (unitId: string, sheetId: string, column: number): Filed => {
    if (last !== undefined && last.column === column && last.sheetId === sheetId && last.unitId === unitId) return last;
    const sheets = fetchMap(index._cache, unitId, () => new Map<string, Columns>());
    const columns = fetchMap(sheets, sheetId, (): Columns => new Map());
    const rowsByKey = fetchMap(columns, column, () => new Map<Key, Set<number>>());
    let found = filed.get(rowsByKey);
    if (found === undefined) {
      found = { unitId, sheetId, column, rowsByKey, keys: new Map(), known: [] };
      filed.set(rowsByKey, found);
    }
    last = found;
    return found;
  };

  index.setContinueBuildingCache = (unitId, sheetId, column, startRow, endRow) => {
    markKnown(unitId, sheetId, column, startRow, endRow);
    if (column !== NOWHERE && startRow !== NOWHERE && endRow !== NOWHERE)
      columnOf(unitId, sheetId, column).known.push([startRow, endRow]);
  };

  index.set = (unitId, sheetId, column, value, row, force = false) => {
    if (!force && (column === NOWHERE || row === NOWHERE)) return;
    const { rowsByKey, keys, known } = columnOf(unitId, sheetId, column);
    if (!force) for (const [first, end] of known) if (row >= first && row <= end) return;
    work.set++;
    const key = keyOf(value);
    const previous = keys.get(row);
    if (previous === key && rowsByKey.get(key)?.has(row) === true) return;
    if (previous !== undefined && previous !== key) {
      work.steps++;
      rowsByKey.get(previous)?.delete(row);
    }
    keys.set(row, key);
    fetchMap(rowsByKey, key, () => new Set<number>()).add(row);
  };
  index.clear = () => {
    last = undefined;
    clear();
  };
  installed.set(index, work);
  return work;
}
