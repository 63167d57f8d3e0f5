import { describe, expect, it } from 'vitest';
import { keeping } from '../../src/engine/keep.ts';
import { byContent, sharedRecords } from '../../src/tables/cache.ts';
import { type Cell, type CellRange, isBlank, isCellError, noAnswer } from '../../src/tables/cells.ts';
import { isSpillTable } from '../../src/tables/spill.ts';

describe('cells', () => {
  it('hold an error where they are a record with one', () => {
    expect(isCellError({ error: '#REF!' })).toBe(true);
    const list = Object.assign([], { error: '#REF!' });
    for (const value of [null, undefined, '#REF!', 'error', 5, true, [], {}, list]) {
      expect(isCellError(value)).toBe(false);
    }
  });

  it('are blank where there is nothing to see', () => {
    for (const value of ['', ' \t', null, undefined]) expect(isBlank(value)).toBe(true);
    for (const value of [0, false, 'a', {}, []]) expect(isBlank(value)).toBe(false);
  });

  it('without an answer say why', () => {
    expect(noAnswer('too far')).toEqual({ error: '#N/A', message: 'too far' });
  });
});

describe('a spilled table', () => {
  it('has columns and rows', () => {
    expect(isSpillTable({ columns: [], rows: [] })).toBe(true);
    for (const value of [null, undefined, 5, 'columns rows', [], {}, { columns: [] }, { rows: [] }]) {
      expect(isSpillTable(value)).toBe(false);
    }
    // a function is no table, whatever hangs on it
    expect(isSpillTable(Object.assign(() => 0, { columns: [], rows: [] }))).toBe(false);
  });
});

describe('what is read by content', () => {
  /** Whether the second range is read anew after the first. */
  const readAnew = (first: CellRange, second: CellRange): boolean => {
    let reads = 0;
    const read = byContent(() => {
      reads += 1;
      return reads;
    });
    read(first);
    read(second);
    return reads === 2;
  };

  it.each<[Cell, Cell]>([
    [1, 2],
    [1, '1'],
    [1, 'n1'],
    ['a', 'A'],
    ['a', ''],
    [true, false],
    [true, 'true'],
    [true, 'btrue'],
    [true, ''],
    [true, 1],
    [0, ''],
    [0, false],
    [{ error: '#REF!' }, { error: '#N/A' }],
    [{ error: '#REF!' }, '#REF!'],
    [{ error: '#REF!' }, 'e#REF!'],
    [{ error: '#REF!' }, ''],
  ])('is read anew for %j after %j', (first, second) => {
    expect(readAnew([[first, 'x']], [[second, 'x']])).toBe(true);
    expect(readAnew([[first]], [[first]])).toBe(false);
  });

  it('is read anew where the same cells stand in other rows or columns', () => {
    expect(readAnew([['a', 'b']], [['a'], ['b']])).toBe(true);
    expect(readAnew([['a', '']], [['', 'a']])).toBe(true);
    expect(readAnew([['a\tb']], [['a', 'b']])).toBe(true);
    expect(readAnew([['a\nb']], [['a'], ['b']])).toBe(true);
  });

  it('takes all forms of a blank for one', () => {
    for (const blank of [null, undefined, ' ']) expect(readAnew([['a', '']], [['a', blank]])).toBe(false);
  });

  it('is kept up to 20 000 cells, and read anew each time above', () => {
    const rows = (cells: number): CellRange => [Array.from({ length: cells - 1 }, (): Cell => ''), ['a']];
    expect(readAnew(rows(20_000), rows(20_000))).toBe(false);
    expect(readAnew(rows(20_001), rows(20_001))).toBe(true);
  });

  it('leaves what was used longest ago', () => {
    const made: string[] = [];
    const keep = keeping<string>(2);
    const ask = (key: string): string =>
      keep(key, () => {
        made.push(key);
        return key;
      });
    for (const key of ['a', 'b', 'a', 'c', 'a', 'b']) expect(ask(key)).toBe(key);
    expect(made).toEqual(['a', 'b', 'c', 'b']);
  });

  it('tells numbers apart for which JSON has no word', () => {
    const share = sharedRecords<{ x: number | null | string }>(10);
    const values = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, null, 1, '1', 'NaN'];
    const records = values.map((x) => share({ x }));
    expect(new Set(records).size).toBe(values.length);
    for (const [i, x] of values.entries()) expect(share({ x })).toBe(records[i]);
  });
});
