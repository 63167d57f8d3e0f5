import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Elimination,
  eliminate,
  planElimination,
  solveEliminated,
} from '../../../src/engine/network/elimination.ts';

type Pair = readonly [number, number];
const graph = fc.integer({ min: 1, max: 12 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    pairs: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: 24 }),
  }),
);
/** Who is next to whom as points are taken out one by one, their neighbours joined: by pivot, in the order of the plan. */
function takenOut(n: number, pairs: readonly Pair[], order: Int32Array) {
  const joined = Array.from({ length: n }, () => new Array<boolean>(n).fill(false));
  const join = (i: number, j: number): void => {
    if (i === j) return;
    for (const [a, b] of [
      [i, j],
      [j, i],
    ] as const) {
      const row = joined[a];
      if (row !== undefined) row[b] = true;
    }
  };
  for (const [i, j] of pairs) join(i, j);
  const left = new Set(Array.from({ length: n }, (_, i) => i));
  const near = (point: number): number[] => [...left].filter((other) => joined[point]?.[other] === true);
  return [...order].map((point) => {
    const least = Math.min(...[...left].map((other) => near(other).length));
    const mine = near(point);
    left.delete(point);
    for (const i of mine) for (const j of mine) join(i, j);
    return { point, mine, least };
  });
}
/** Entries from a full matrix. */
function onPattern(plan: Elimination, pairs: readonly Pair[], rows: readonly (readonly number[])[]) {
  const entries = {
    diagonal: Float64Array.from(rows, (row, i) => row[i] ?? 0),
    upper: new Float64Array(plan.later.length),
    lower: new Float64Array(plan.later.length),
  };
  for (const [i, j] of pairs) {
    const { entry, firstIsEarlier } = plan.entryOf(i, j);
    (firstIsEarlier ? entries.upper : entries.lower)[entry] = rows[i]?.[j] ?? 0;
    (firstIsEarlier ? entries.lower : entries.upper)[entry] = rows[j]?.[i] ?? 0;
  }
  return entries;
}

describe('the plan of an elimination', () => {
  it('takes out a point of least degree each time and keeps what it is joined to then, in order', () => {
    // five-sided ring, five-pointed star within, joined: taking a point out joins its neighbours more, not less
    const star: Pair[] = [0, 1, 2, 3, 4].flatMap((i): Pair[] => [
      [i, (i + 1) % 5],
      [i + 5, ((i + 2) % 5) + 5],
      [i, i + 5],
    ]);
    const rings = [0, 5].flatMap((first) => [0, 1, 2, 3, 4].map((i): Pair => [first + i, first + ((i + 1) % 5)]));
    const given = [star, rings].map((pairs) => ({ n: 10, pairs }));
    for (const { n, pairs } of [...given, ...fc.sample(graph, { numRuns: 150, seed: 2 })]) {
      const plan = planElimination(n, pairs);
      expect([...plan.order].sort((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, i) => i));
      const place = new Map([...plan.order].map((point, k) => [point, k]));
      const turn = (point: number): number => place.get(point) ?? -1;
      const fills: number[] = [];
      takenOut(n, pairs, plan.order).forEach(({ point, mine, least }, k) => {
        expect(mine.length).toBe(least);
        const row = mine.sort((a, b) => turn(a) - turn(b));
        const from = plan.start[k] ?? -1;
        expect([...plan.later.subarray(from, plan.start[k + 1])]).toEqual(row);
        row.forEach((other, e) => {
          expect(plan.entryOf(point, other)).toEqual({ entry: from + e, firstIsEarlier: true });
          expect(plan.entryOf(other, point)).toEqual({ entry: from + e, firstIsEarlier: false });
        });
        row.forEach((a, i) => {
          for (const b of row.slice(i + 1)) fills.push(plan.entryOf(a, b).entry);
        });
      });
      expect([...plan.fills]).toEqual(fills);
      expect(plan.fills.every((entry) => entry >= 0)).toBe(true);
      expect(plan.start).toHaveLength(n + 1);
    }
  });

  it('takes a main from its ends and lower points first where degrees are alike', () => {
    const { order, later, fills } = planElimination(4, [
      [0, 1],
      [1, 2],
      [2, 3],
    ]);
    expect([...order]).toEqual([0, 1, 2, 3]);
    expect([...later]).toEqual([1, 2, 3]);
    expect(fills).toHaveLength(0);
  });

  it('has no entry for two points that are never joined', () => {
    const star = planElimination(4, [
      [3, 0],
      [3, 1],
      [3, 2],
    ]);
    expect(star.entryOf(0, 1).entry).toBe(-1);
    expect(star.entryOf(0, 0).entry).toBe(-1);
    expect(star.later).toHaveLength(3);
  });

  it('of no points is empty', () => {
    const { order, start, later } = planElimination(0, []);
    expect([order.length, [...start], later.length]).toEqual([0, [0], 0]);
  });
});

describe('elimination', () => {
  const two = planElimination(2, [[0, 1]]);
  const solve = (rows: readonly (readonly number[])[], b: readonly number[], pairs: readonly Pair[]): number[] => {
    const plan = planElimination(rows.length, pairs);
    const entries = onPattern(plan, pairs, rows);
    expect(eliminate(plan, entries)).toBe(true);
    const x = Float64Array.from(b);
    solveEliminated(plan, entries, x);
    return [...x];
  };

  it('solves by hand: exact in halves and quarters', () => {
    // 2x + y = 4, x + y = 3: x = 1, y = 2
    expect(
      solve(
        [
          [2, 1],
          [1, 1],
        ],
        [4, 3],
        [[0, 1]],
      ),
    ).toEqual([1, 2]);
    // not symmetric, with a loop: rows times (1, 2, 4)
    expect(
      solve(
        [
          [4, 1, -2],
          [2, 8, 1],
          [-1, 2, 8],
        ],
        [4 + 2 - 8, 2 + 16 + 4, -1 + 4 + 32],
        [
          [0, 1],
          [1, 2],
          [2, 0],
        ],
      ),
    ).toEqual([1, 2, 4].map((value) => expect.closeTo(value, 13)));
    expect(solve([[-4]], [2], [])).toEqual([-0.5]);
  });

  it('solves a ladder of loops: what the matrix makes of a vector comes back', () => {
    const n = 40;
    const pairs: Pair[] = [];
    for (let i = 0; i + 2 < n; i++) pairs.push([i, i + 2]);
    for (let i = 0; i + 1 < n; i += 2) pairs.push([i, i + 1]);
    // sums of columns above zero, as in a gas balance
    const rows = Array.from({ length: n }, () => new Array<number>(n).fill(0));
    const set = (i: number, j: number, value: number): void => {
      const row = rows[i];
      if (row !== undefined) row[j] = (row[j] ?? 0) + value;
    };
    pairs.forEach(([i, j], k) => {
      const [forth, back] = [1 + (k % 5), 2 + (k % 3)];
      set(i, j, -forth);
      set(j, j, forth);
      set(j, i, -back);
      set(i, i, back);
    });
    for (let i = 0; i < n; i++) set(i, i, 0.01);
    const x = Array.from({ length: n }, (_, i) => 1 + ((7 * i) % 11));
    const b = rows.map((row) => row.reduce((sum, value, j) => sum + value * (x[j] ?? 0), 0));
    solve(rows, b, pairs).forEach((value, i) => {
      expect(value).toBeCloseTo(x[i] ?? 0, 9);
    });
  });

  it('leaves the factors behind: the multiplier below, what is left of the diagonal', () => {
    const entries = { diagonal: Float64Array.of(4, 5), upper: Float64Array.of(2), lower: Float64Array.of(6) };
    expect(eliminate(two, entries)).toBe(true);
    expect([[...entries.diagonal], entries.upper[0], entries.lower[0]]).toEqual([[4, 2], 2, 1.5]);
  });

  it.each([
    ['vanishes', [0, 1], 0, 0],
    ['is no number', [Number.NaN, 1], 0, 0],
    ['is infinite', [1, Number.POSITIVE_INFINITY], 0, 0],
    ['comes to nothing on the way', [1, 1, 1], 1, 1],
  ])('gives up where a pivot %s', (_, diagonal, upper, lower) => {
    const plan = planElimination(diagonal.length, [[0, 1]]);
    const entries = {
      diagonal: Float64Array.from(diagonal),
      upper: Float64Array.of(upper),
      lower: Float64Array.of(lower),
    };
    expect(eliminate(plan, entries)).toBe(false);
  });

  it('goes on with a pivot below zero', () => {
    const entries = { diagonal: Float64Array.of(-2, 1), upper: Float64Array.of(1), lower: Float64Array.of(1) };
    expect(eliminate(two, entries)).toBe(true);
    const b = Float64Array.of(0, 3);
    solveEliminated(two, entries, b);
    // -2x + y = 0, x + y = 3
    expect([...b]).toEqual([1, 2]);
  });
});
