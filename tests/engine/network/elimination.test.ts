import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eliminate, planElimination, solveEliminated } from '../../../src/engine/network/elimination.ts';
import { factor, solveFactored } from '../../../src/numerics/dense.ts';

describe('sparse elimination', () => {
  it('solves what dense elimination solves, on any graph', () => {
    const graph = fc.integer({ min: 1, max: 14 }).chain((n) =>
      fc.record({
        n: fc.constant(n),
        pairs: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: 30 }),
        values: fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 100, maxLength: 100 }),
      }),
    );
    fc.assert(
      fc.property(graph, ({ n, pairs, values }) => {
        const plan = planElimination(n, pairs);
        const diagonal = Float64Array.from({ length: n }, (_, i) => 100 + i);
        const upper = new Float64Array(plan.later.length);
        const lower = new Float64Array(plan.later.length);
        const dense = new Float64Array(n * n);
        for (let i = 0; i < n; i++) dense[i * n + i] = diagonal[i] ?? 0;
        pairs.forEach(([i, j], k) => {
          if (i === j) return;
          const { entry, firstIsEarlier } = plan.entryOf(i, j);
          const [ij, ji] = [values[2 * k] ?? 0, values[2 * k + 1] ?? 0];
          (firstIsEarlier ? upper : lower)[entry] = ij;
          (firstIsEarlier ? lower : upper)[entry] = ji;
          dense[i * n + j] = ij;
          dense[j * n + i] = ji;
        });
        const b = Float64Array.from({ length: n }, (_, i) => values[60 + i] ?? 1);
        const expected = b.slice();
        const pivots = new Int32Array(n);
        expect(factor(dense, n, pivots)).toBe(true);
        solveFactored(dense, n, pivots, expected);
        expect(eliminate(plan, { diagonal, upper, lower })).toBe(true);
        solveEliminated(plan, { diagonal, upper, lower }, b);
        b.forEach((value, i) => {
          expect(value).toBeCloseTo(expected[i] ?? 0, 12);
        });
      }),
    );
  });

  it('fills nothing on a tree', () => {
    const pairs = Array.from({ length: 200 }, (_, i) => [i + 1, Math.floor(i / 3)] as const);
    expect(planElimination(201, pairs).later).toHaveLength(200);
  });
});
