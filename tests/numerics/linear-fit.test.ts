import { describe, expect, it } from 'vitest';
import { linearFit } from '../../src/numerics/linear-fit.ts';

describe('linear least squares', () => {
  it('finds the straight line through three points by hand arithmetic, with its errors', () => {
    // (0,1) (1,2) (2,2): slope 1/2, intercept 7/6, sum of squares 1/6; errors sqrt(1/2) and sqrt(5/6)
    const fit = linearFit([Float64Array.of(1, 1, 1), Float64Array.of(0, 1, 2)], [1, 2, 2]);
    expect(fit?.x[0]).toBeCloseTo(7 / 6, 12);
    expect(fit?.x[1]).toBeCloseTo(1 / 2, 12);
    expect(fit?.sum).toBeCloseTo(1 / 6, 12);
    expect(fit?.errors[0]).toBeCloseTo(Math.sqrt(5 / 6), 12);
    expect(fit?.errors[1]).toBeCloseTo(Math.sqrt(1 / 2), 12);
  });

  it('has no answer for columns that do not stand apart', () => {
    expect(linearFit([Float64Array.of(1, 1), Float64Array.of(0, 0)], [1, 2])).toBeUndefined();
  });
});
