import { describe, expect, it } from 'vitest';
import { keeping, keepingOf } from '../../src/engine/keep.ts';
import { byContent, sharedRecords } from '../../src/tables/cache.ts';
import type { CellRange } from '../../src/tables/cells.ts';

/** Counts what is made. */
function maker(): { make: () => number; made: () => number } {
  let count = 0;
  return { make: () => ++count, made: () => count };
}

describe('answers kept by key', () => {
  it('are made once, also where the answer is undefined', () => {
    const keep = keeping<number | undefined>(4);
    const { make, made } = maker();
    expect([keep('a', make), keep('a', make), keep('b', make)]).toEqual([1, 1, 2]);
    const none = (): undefined => {
      make();
    };
    keep('c', none);
    expect(keep('c', none)).toBeUndefined();
    expect(made()).toBe(3);
  });

  it('go when more are kept than allowed, the longest unused first', () => {
    const keep = keeping<number>(2);
    const { make } = maker();
    keep('a', make);
    keep('b', make);
    keep('a', make); // a was used last
    keep('c', make); // b goes
    expect(keep('a', make)).toBe(1);
    expect(keep('c', make)).toBe(3);
    expect(keep('b', make)).toBe(4);
    expect(keep('a', make)).toBe(5);
  });

  it('are not kept where making them throws', () => {
    const keep = keeping<number>(2);
    const fail = (): number => {
      throw new Error('no');
    };
    expect(() => keep('a', fail)).toThrow('no');
    expect(keep('a', () => 7)).toBe(7);
  });

  it('hang on a record: each record has its own, and its own bound', () => {
    const keep = keepingOf<object, number>(1);
    const { make } = maker();
    const [one, other] = [{}, {}];
    expect(keep(one, 'a', make)).toBe(1);
    expect(keep(other, 'a', make)).toBe(2);
    expect(keep(one, 'a', make)).toBe(1);
    expect(keep(one, 'b', make)).toBe(3);
    expect(keep(one, 'a', make)).toBe(4);
    expect(keep(other, 'a', make)).toBe(2);
  });
});

describe('records of equal content', () => {
  it('are one, told apart by endless and missing numbers, too', () => {
    const share = sharedRecords<object>(8);
    const first = { a: 1, b: [2] };
    expect(share(first)).toBe(first);
    expect(share({ a: 1, b: [2] })).toBe(first);
    const odd = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, null, 'NaN'].map((a) => ({ a }));
    for (const record of odd) expect(share(record)).toBe(record);
    for (const record of odd) expect(share({ ...record })).toBe(record);
  });
});

describe('what is read from a range', () => {
  const reader = () => {
    let reads = 0;
    const read = byContent((range: CellRange) => ({ range, read: ++reads }));
    return { read, reads: () => reads };
  };

  it('is read once for the same cells, and anew for any other', () => {
    const { read, reads } = reader();
    const ranges: CellRange[] = [
      [['a', 1]],
      [['a', '1']],
      [['a'], [1]],
      [['a\t', 1]],
      [['a', true]],
      [['a', false]],
      [['a', 'true']],
      [['a', { error: '#N/A' }]],
      [['a', { error: '#REF!' }]],
      [['a', '#N/A']],
      [['a', '']],
      [['a']],
    ];
    const first = ranges.map(read);
    expect(reads()).toBe(ranges.length);
    const again = ranges.map((range) => read(range.map((row) => [...row])));
    again.forEach((value, i) => {
      expect(value).toBe(first[i]);
    });
    expect(reads()).toBe(ranges.length);
  });

  it('takes all forms of a blank as one', () => {
    const { read, reads } = reader();
    for (const blank of ['', null, undefined]) read([['a', blank as unknown as string]]);
    expect(reads()).toBe(1);
  });

  it('is read each time where the range is too large to compare', () => {
    const { read, reads } = reader();
    const rows = (count: number): CellRange =>
      Array.from({ length: count }, () => Array.from({ length: 100 }, () => 1));
    read(rows(200));
    read(rows(200));
    expect(reads()).toBe(1);
    read(rows(201));
    read(rows(201));
    expect(reads()).toBe(3);
  });
});
