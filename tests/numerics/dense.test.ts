import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { factor, solveFactored } from '../../src/numerics/dense.ts';

const rowsOf = (a: ArrayLike<number>, n: number): number[][] =>
  Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_unused, j) => a[i * n + j] ?? Number.NaN));
const times = (a: readonly (readonly number[])[], b: readonly (readonly number[])[]): number[][] =>
  a.map((row) => (b[0] ?? []).map((_, j) => row.reduce((sum, value, k) => sum + value * (b[k]?.[j] ?? 0), 0)));

const systems = fc.integer({ min: 1, max: 6 }).chain((n) =>
  fc.tuple(
    fc.array(fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: n, maxLength: n }), {
      minLength: n,
      maxLength: n,
    }),
    fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: n, maxLength: n }),
  ),
);

describe('a dense system', () => {
  it('is split into L and U of its rows in the order of the pivots, with no multiplier above one', () => {
    fc.assert(
      fc.property(systems, ([rows]) => {
        const n = rows.length;
        const a = Float64Array.from(rows.flat());
        const pivots = new Int32Array(n);
        fc.pre(factor(a, n, pivots));
        const factors = rowsOf(a, n);
        const lower = factors.map((row, i) => row.map((value, j) => (i === j ? 1 : j < i ? value : 0)));
        const upper = factors.map((row, i) => row.map((value, j) => (j < i ? 0 : value)));
        for (const row of lower) for (const value of row) expect(Math.abs(value)).toBeLessThanOrEqual(1);
        const ordered = rows.map((row) => [...row]);
        pivots.forEach((p, k) => {
          const [one = [], other = []] = [ordered[k], ordered[p]];
          ordered[k] = other;
          ordered[p] = one;
        });
        times(lower, upper).forEach((row, i) => {
          row.forEach((value, j) => {
            expect(Math.abs(value - (ordered[i]?.[j] ?? Number.NaN))).toBeLessThan(1e-12);
          });
        });
      }),
    );
  });

  it('is solved: its product with the answer is the right-hand side', () => {
    fc.assert(
      fc.property(systems, ([rows, b]) => {
        const n = rows.length;
        // heavy on a shuffled diagonal, so that it is well posed and has to swap rows
        const heavy = rows.map((row, i) => row.map((value, j) => value + (j === (i + 1) % n ? 100 : 0)));
        const a = Float64Array.from(heavy.flat());
        const pivots = new Int32Array(n);
        expect(factor(a, n, pivots)).toBe(true);
        const x = Float64Array.from(b);
        solveFactored(a, n, pivots, x);
        times(
          heavy,
          [...x].map((value) => [value]),
        ).forEach(([value = Number.NaN], i) => {
          expect(Math.abs(value - (b[i] ?? 0))).toBeLessThan(1e-11);
        });
      }),
    );
  });

  it('takes the largest of a column first', () => {
    // x = y = 1 to all digits; without the swap 1e-20 drowns the second row
    const a = Float64Array.of(1e-20, 1, 1, 1);
    const pivots = new Int32Array(2);
    expect(factor(a, 2, pivots)).toBe(true);
    expect([...pivots]).toEqual([1, 1]);
    const b = Float64Array.of(1, 2);
    solveFactored(a, 2, pivots, b);
    expect([...b]).toEqual([1, 1]);
  });

  it.each([
    ['zeros', [0, 0, 0, 0]],
    ['rows that are multiples', [1, 2, 2, 4]],
    ['an empty column', [1, 0, 3, 0]],
    ['no number', [Number.NaN, 1, Number.NaN, 2]],
    ['an endless number', [1, 2, Number.POSITIVE_INFINITY, 3]],
  ])('of %s has no factors', (_, values) => {
    expect(factor(Float64Array.from(values), 2, new Int32Array(2))).toBe(false);
  });
});
