import { describe, expect, it } from 'vitest';
import { GAUSS_3, GAUSS_5, gauss, quadrature } from '../../src/numerics/quadrature.ts';

describe('quadrature', () => {
  it('is exact for polynomials up to degree 2n - 1', () => {
    // integral of x^k from 0 to 1 is 1/(k + 1)
    for (let k = 0; k <= 5; k++) expect(gauss((x) => x ** k, 0, 1, GAUSS_3)).toBeCloseTo(1 / (k + 1), 13);
    for (let k = 0; k <= 9; k++) expect(gauss((x) => x ** k, 0, 1, GAUSS_5)).toBeCloseTo(1 / (k + 1), 13);
    expect(gauss((x) => x ** 6, 0, 1, GAUSS_3)).not.toBeCloseTo(1 / 7, 6);
  });

  it('integrates a smooth function over panels', () => {
    expect(quadrature(Math.exp, 0, 1)).toBeCloseTo(Math.E - 1, 13);
  });
});
