import { describe, expect, it } from 'vitest';
import { normalProbability, normalScore } from '../../src/numerics/normal.ts';

describe('the normal distribution to all digits', () => {
  /** norm.cdf of SciPy 1.17.1 */
  it.each([
    [-3.5, 0.00023262907903552502],
    [-3, 0.0013498980316300933],
    [-1.2, 0.11506967022170822],
    [0, 0.5],
    [0.4, 0.6554217416103242],
    [2.9, 0.998134186699616],
    [3.1, 0.9990323967867817],
    [5, 0.9999997133484281],
  ])('lies below %d with the probability %d', (x, probability) => {
    expect(Math.abs(normalProbability(x) / probability - 1)).toBeLessThan(1e-12);
  });

  /** norm.ppf of SciPy 1.17.1 */
  it.each([
    [1e-10, -6.361340902404056],
    [1e-4, -3.7190164854556804],
    [0.02425, -1.972961051311885],
    [0.3, -0.5244005127080409],
    [0.77, 0.7388468491852137],
    [0.999, 3.090232306167813],
  ])('has the score of the probability %d at %d', (probability, score) => {
    expect(Math.abs(normalScore(probability) / score - 1)).toBeLessThan(1e-12);
  });

  it('has no score outside its range, and no probability for no number', () => {
    for (const outside of [0, 1, -0.2, 1.2, Number.NaN, Number.POSITIVE_INFINITY])
      expect(normalScore(outside)).toBeNaN();
    expect(normalScore(0.5)).toBeCloseTo(0, 15);
    expect(normalProbability(Number.NaN)).toBeNaN();
  });
});
