import { describe, expect, it } from 'vitest';
import { bracketAbove, findRisingRoot, findRoot } from '../../src/numerics/root.ts';

/** Roots below are those of the formulas by algebra. */
describe('a root between two ends', () => {
  it('is an end where the function is zero there, and nowhere where it has one sign', () => {
    expect(findRoot((x) => x - 1, 1, 5)).toBe(1);
    expect(findRoot((x) => x - 5, 1, 5)).toBe(5);
    for (const f of [(x: number) => x * x + 1, (x: number) => -x * x - 1, () => Number.NaN])
      expect(findRoot(f, -1, 2)).toBeNaN();
    // the product of the ends is too small for a double, the signs still differ
    expect(findRoot((x) => 1e-200 * x, -1, 3)).toBeCloseTo(0, 12);
  });

  it.each([
    ['a line', (x: number) => 3 * x - 1, 0, 1, 1 / 3],
    ['a falling line', (x: number) => 1 - 3 * x, 0, 1, 1 / 3],
    ['a cube', (x: number) => x ** 3 - 8, 0, 10, 2],
    ['a cube to the left', (x: number) => x ** 3 + 8, -10, 1, -2],
    ['an exponential', (x: number) => Math.exp(x) - 10, -5, 20, Math.log(10)],
    ['a step', (x: number) => (x < 0.3 ? -1 : 1), 0, 1, 0.3],
    ['a flat root', (x: number) => (x - 1) ** 5, 0, 3, 1],
    ['ends the other way round', (x: number) => x ** 3 - 8, 10, 0, 2],
  ])('of %s', (name, f, low, high, root) => {
    const places = name === 'a flat root' ? 3 : 10;
    const count = { evaluations: 0 };
    let asked = 0;
    const counted = (x: number): number => {
      asked += 1;
      return f(x);
    };
    expect(findRoot(counted, low, high, { count })).toBeCloseTo(root, places);
    expect(count.evaluations).toBe(asked);
  });

  it('is as narrow as asked, and no more work is done than that', () => {
    const work = (options: object): number => {
      const count = { evaluations: 0 };
      findRoot((x) => Math.exp(x) - 10, -5, 20, { ...options, count });
      return count.evaluations;
    };
    expect(work({ absolute: 1 })).toBeLessThan(work({}));
    expect(work({ relative: 0.1 })).toBeLessThan(work({}));
    expect(work({ most: 5 })).toBe(5);
    // a good method needs far less than bisection: 25/1e-12 is 2^44
    expect(work({})).toBeLessThan(20);
    expect(Math.abs(findRoot((x) => Math.exp(x) - 10, -5, 20, { absolute: 0.01 }) - Math.log(10))).toBeLessThan(0.01);
  });
});

describe('an interval widened until the function is not negative', () => {
  it('doubles, or grows by the factor given, from its first width', () => {
    // low 1, widths 1, 2, 4, 8
    expect(bracketAbove((x) => x - 6, 1, 1)).toBe(9);
    expect(bracketAbove((x) => x - 5, 1, 1)).toBe(5);
    expect(bracketAbove((x) => x - 6, 1, 1, 200, 10)).toBe(11);
    expect(bracketAbove((x) => x, 1, 3)).toBe(4);
  });

  it('gives up after the most', () => {
    expect(bracketAbove((x) => x - 6, 1, 1, 4)).toBe(9);
    expect(bracketAbove((x) => x - 6, 1, 1, 3)).toBeNaN();
    expect(bracketAbove(() => -1, 0, 1)).toBeNaN();
  });
});

describe('a root of a rising function from one start', () => {
  it.each([
    ['a line', (x: number) => 2 * x - 6, 2, 0, 3],
    ['a line with a slope that was guessed too small', (x: number) => 2 * x - 6, 0.5, 10, 3],
    ['a line with a slope that was guessed too large', (x: number) => 2 * x - 6, 20, 10, 3],
    ['a bend', (x: number) => x + 0.3 * Math.sin(x) - 1, 1, 5, Number.NaN],
    ['two slopes', (x: number) => (x < 0 ? 0.2 * x : 3 * x) - 1, 1, -4, 1 / 3],
  ])('of %s', (name, f, slope, start, root) => {
    const count = { evaluations: 0 };
    const found = findRisingRoot(f, start, { slope, count });
    // the bend has no root by algebra
    if (name !== 'a bend') expect(found).toBeCloseTo(root, 10);
    expect(f(found)).toBeCloseTo(0, 10);
    expect(count.evaluations).toBeLessThan(15);
  });

  it('needs one value where the start is the root, and two where the slope is right', () => {
    for (const [start, evaluations] of [
      [3, 1],
      [10, 2],
    ] as const) {
      const count = { evaluations: 0 };
      expect(findRisingRoot((x) => 2 * x - 6, start, { slope: 2, count })).toBe(3);
      expect(count.evaluations).toBe(evaluations);
    }
  });

  it('ends at a step as small as asked, at the most values, and at no number', () => {
    const work = (options: object): number => {
      const count = { evaluations: 0 };
      findRisingRoot((x) => x + 0.3 * Math.sin(x) - 1, 5, { slope: 1, count, ...options });
      return count.evaluations;
    };
    expect(work({ absolute: 100 })).toBe(1);
    expect(work({ absolute: 0.01 })).toBeLessThan(work({}));
    expect(work({ most: 2 })).toBe(2);
    expect(findRisingRoot(() => Number.NaN, 4, { slope: 1 })).toBe(4);
  });
});
