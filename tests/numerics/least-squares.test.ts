import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../src/numerics/least-squares.ts';

describe('least squares', () => {
  it('finds the straight line through three points by hand arithmetic', () => {
    // (0,1) (1,2) (2,2): slope 1/2, intercept 7/6, sum of squares 1/6
    const points = [
      [0, 1],
      [1, 2],
      [2, 2],
    ] as const;
    const { x, sum, converged } = leastSquares(([m = 0, c = 0]) => points.map(([u, v]) => m * u + c - v), [0, 0]);
    expect(converged).toBe(true);
    expect(x[0]).toBeCloseTo(1 / 2, 8);
    expect(x[1]).toBeCloseTo(7 / 6, 8);
    expect(sum).toBeCloseTo(1 / 6, 10);
  });

  it('walks the curved valley of Rosenbrock to (1, 1)', () => {
    const { x } = leastSquares(([a = 0, b = 0]) => [10 * (b - a * a), 1 - a], [-1.2, 1]);
    expect(x[0]).toBeCloseTo(1, 6);
    expect(x[1]).toBeCloseTo(1, 6);
  });

  it('keeps to its bounds', () => {
    const { x } = leastSquares(([a = 0]) => [a - 5], [1], { low: [0], high: [3] });
    expect(x[0]).toBe(3);
  });

  it('steps back from where a residual is not a number', () => {
    const { x } = leastSquares(([a = 0]) => [Math.log(a) - Math.log(2)], [0.05]);
    expect(x[0]).toBeCloseTo(2, 6);
  });
});
