import type { UniverModules } from './univer.ts';

/**
 * The engine keeps, for look-ups, an index from the values of a column to the rows that hold them. Its own `set` finds a
 * row's previous value by walking over all distinct values of the column, for every cell of every result: a spilled table
 * of n rows costs n² steps. Here each row's previous value is remembered, which makes it n. The engine also files text that reads as a
 * number, and empty text, with the numbers and blank cells: a formula that was answered from the index gave another result than the
 * same formula answered first. Here what equals is the same either way.
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
  shouldContinueBuildingCache(unitId: string, sheetId: string, column: number, row: number): boolean;
}

/** What the index has cost, for tests: cells set, and steps taken to find earlier values. */
export interface IndexWork {
  set: number;
  steps: number;
}

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
  /** unit, sheet, column -> the key of each row */
  const filed = new WeakMap<Map<Key, Set<number>>, Map<number, Key>>();

  const keyOf = (value: unknown): Key => {
    if (typeof value === 'number') return value || 0;
    if (value === null || value === undefined) return blank;
    return typeof value === 'string' ? value.toLowerCase() : (value as Key);
  };

  /** Keys of what equals a value: a blank cell equals 0, empty text and FALSE, which do not equal each other. */
  const keysOf = (value: unknown): readonly Key[] => {
    const key = keyOf(value);
    if (key === blank) return [blank, 0, '', false];
    return key === 0 || key === '' || key === false ? [key, blank] : [key];
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

  const columnOf = (unitId: string, sheetId: string, column: number): Map<Key, Set<number>> => {
    const known = index._cache.get(unitId)?.get(sheetId)?.get(column);
    if (known !== undefined) return known;
    const sheets = fetchMap(index._cache, unitId, () => new Map<string, Columns>());
    const columns = fetchMap(sheets, sheetId, (): Columns => new Map());
    return fetchMap(columns, column, () => new Map<Key, Set<number>>());
  };

  index.set = (unitId, sheetId, column, value, row, force = false) => {
    if (!force && !index.shouldContinueBuildingCache(unitId, sheetId, column, row)) return;
    work.set++;
    const rowsByKey = columnOf(unitId, sheetId, column);
    const keys = fetchMapOf(filed, rowsByKey);
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
    clear();
  };
  installed.set(index, work);
  return work;
}

function fetchMapOf(filed: WeakMap<Map<Key, Set<number>>, Map<number, Key>>, column: Map<Key, Set<number>>) {
  let keys = filed.get(column);
  if (!keys) {
    keys = new Map();
    filed.set(column, keys);
  }
  return keys;
}
