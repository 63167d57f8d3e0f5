import { describe, expect, it } from 'vitest';
import { normalDensity, normalProbability, normalScore } from '../../src/numerics/normal.ts';

describe('the normal distribution', () => {
  it('has the probabilities of the usual tables (from memory)', () => {
    for (const [x, probability] of [
      [0, 0.5],
      [1, 0.8413447461],
      [1.96, 0.9750021049],
      [3, 0.998650102],
      [4, 0.9999683288],
    ] as const) {
      expect(normalProbability(x)).toBeCloseTo(probability, 9);
      expect(normalProbability(-x)).toBeCloseTo(1 - probability, 9);
    }
  });

  it('is one curve on both sides of the place where the series ends', () => {
    for (const sign of [-1, 1]) {
      const below = normalProbability(sign * 3);
      const above = normalProbability(sign * (3 + 1e-9));
      expect((above - below) / (sign * 1e-9 * normalDensity(3))).toBeCloseTo(1, 4);
    }
  });

  it('has the density as its slope, highest in the middle at 1/sqrt(2 pi)', () => {
    expect(normalDensity(0)).toBeCloseTo(1 / Math.sqrt(2 * Math.PI), 14);
    for (const x of [-3.5, -1, 0.3, 2, 3.7]) {
      const slope = (normalProbability(x + 1e-5) - normalProbability(x - 1e-5)) / 2e-5;
      expect(slope).toBeCloseTo(normalDensity(x), 8);
    }
  });

  it('keeps the digits of a small tail, near density over distance', () => {
    // Mills: phi/x (1 - 1/x^2) < tail < phi/x
    for (const x of [5, 10, 30]) {
      const share = (normalProbability(-x) * x) / normalDensity(x);
      expect(share).toBeLessThan(1);
      expect(share).toBeGreaterThan(1 - 1 / (x * x));
    }
  });

  it('goes back from a probability to its score', () => {
    for (const x of [-6, -3, -1.2, -0.1, 0, 0.4, 2, 5]) expect(normalScore(normalProbability(x))).toBeCloseTo(x, 8);
    for (const probability of [1e-300, 1e-12, 0.01, 0.3, 0.5, 0.7, 0.99]) {
      expect(normalProbability(normalScore(probability)) / probability).toBeCloseTo(1, 10);
    }
  });

  it('has no score outside 0 to 1, and no probability of what is no number', () => {
    for (const probability of [0, 1, -0.1, 1.1, Number.NaN]) expect(normalScore(probability)).toBeNaN();
    expect(normalProbability(Number.NaN)).toBeNaN();
  });
});
