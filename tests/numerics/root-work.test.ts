import { describe, expect, it } from 'vitest';
import { findRisingRoot, findRoot } from '../../src/numerics/root.ts';

describe('the work for a root between two ends', () => {
  /**
   * Evaluations and root of brentq of SciPy 1.17.1, another implementation of the method: first with xtol 5e-324 and rtol 1e-12, then
   * with xtol 1e-3 and rtol 9e-16.
   */
  it.each([
    ['an exponential', (x: number) => Math.exp(x) - 10, -5, 20, 16, 2.302585092994043, 14, 2.302565206144843],
    ['a cube', (x: number) => x ** 3 - 8, 0, 10, 13, 1.9999999999999507, 11, 1.999950859412807],
    ['a falling cube from above', (x: number) => 8 - x ** 3, 10, 0, 13, 1.9999999999999507, 11, 1.999950859412807],
    ['a ninth power', (x: number) => x ** 9 - 0.5, -1, 2.5, 15, 0.9258747122872896, 12, 0.9261162712507619],
    ['an inverse', (x: number) => 1 / x - 3, 0.01, 50, 17, 0.33333333333333237, 14, 0.33342167167556297],
    ['an arc tangent', (x: number) => Math.atan(x - 2), -40, 90, 12, 2, 11, 2.000044555531267],
    ['a bend', (x: number) => (x < 1 ? 1 : 20) * (x - 1), -7, 3.3, 10, 0.9999999999999912, 8, 0.9999538548004631],
    ['a cosine', (x: number) => Math.cos(x) - x, 0, 1, 8, 0.7390851332151559, 6, 0.7390910582853698],
    ['a flat root', (x: number) => (x - 1) ** 5, 0, 3, 106, 0.9999999999998576, 22, 0.9999168981117214],
    ['a logarithm', Math.log, 1e-8, 50, 15, 1.0000000000000007, 13, 0.9999987981117305],
    [
      'a steep root',
      (x: number) => Math.sign(x - 0.7) * Math.sqrt(Math.abs(x - 0.7)),
      -3,
      1,
      29,
      0.6999999999998407,
      10,
      0.7000095345526515,
    ],
    ['a step', (x: number) => (x < 0.3 ? -1 : 1), 0, 1, 44, 0.2999999999999545, 12, 0.2998046875],
  ])('of %s is that of another implementation', (_, f, low, high, evaluations, root, coarse, near) => {
    const count = { evaluations: 0 };
    expect(findRoot(f, low, high, { count })).toBeCloseTo(root, 14);
    expect(count.evaluations).toBe(evaluations);
    const less = { evaluations: 0 };
    expect(findRoot(f, low, high, { absolute: 1e-3, relative: 9e-16, count: less })).toBeCloseTo(near, 12);
    expect(less.evaluations).toBe(coarse);
  });

  it('is none where the ends do not differ in sign, one of them no number or endless', () => {
    expect(findRoot(() => Number.NaN, 0, 1)).toBeNaN();
    expect(findRoot((x) => (x === 0 ? Number.NaN : 1), 0, 1)).toBeNaN();
    expect(findRoot((x) => (x === 0 ? -1 : Number.NaN), 0, 1)).toBeNaN();
    expect(findRoot((x) => (x < 0.5 ? Number.NEGATIVE_INFINITY : 1), 0, 1)).toBeCloseTo(0.5, 9);
  });
});

const asked = (f: (x: number) => number): { f: (x: number) => number; at: number[] } => {
  const at: number[] = [];
  return {
    at,
    f: (x) => {
      at.push(x);
      return f(x);
    },
  };
};

describe('the steps to the root of a rising function from one start', () => {
  it('go by the slope given, then by the secant, kept within what is known', () => {
    // 0 - (-8); then the secant 64 is not believed beside 1, and the step leaves (0, 8): halves
    const { f, at } = asked((x) => x ** 3 - 8);
    expect(findRisingRoot(f, 0, { slope: 1 })).toBe(2);
    expect(at).toEqual([0, 8, 4, 2]);
    const from = asked((x) => 8 - (4 - x) ** 3);
    expect(findRisingRoot(from.f, 4, { slope: 1 })).toBe(2);
    expect(from.at).toEqual([4, -4, 0, 2]);
  });

  it('believe a secant up to fifty times off the slope given', () => {
    const evaluations = (slope: number): number => {
      const { f, at } = asked((x) => slope * x);
      findRisingRoot(f, 4, { slope: 1 });
      return at.length;
    };
    for (const slope of [49, 5, 0.2, 1 / 49]) expect(evaluations(slope)).toBeLessThanOrEqual(3);
    for (const slope of [51, 1 / 51]) expect(evaluations(slope)).toBeGreaterThan(5);
  });

  it('end at a step that is small, on either side of what is known', () => {
    const { f, at } = asked((x) => x - 1);
    expect(findRisingRoot(f, 1.5, { slope: 1, absolute: 0.5 })).toBe(1);
    expect(at).toEqual([1.5]);
  });
});
