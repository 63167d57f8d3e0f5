import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bracketAbove, findRisingRoot, findRoot } from '../../src/numerics/root.ts';

describe('roots', () => {
  it('finds the root of a steep function in few evaluations', () => {
    const count = { evaluations: 0 };
    // Wallis's cubic, root 2.0945514815423265 (worked since 1685)
    expect(findRoot((x) => x ** 3 - 2 * x - 5, 2, 3, { count })).toBeCloseTo(2.0945514815423265, 12);
    expect(count.evaluations).toBeLessThan(12);
  });

  it('finds any root of a rising power law that its ends bracket', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.3, max: 5, noNaN: true }),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        (n, root) => {
          const f = (x: number): number => x ** n - root ** n;
          expect(Math.abs(findRoot(f, 0, 1e7, { most: 500 }) / root - 1)).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it('says so when the ends do not bracket a root', () => {
    expect(findRoot((x) => x * x + 1, -1, 1)).toBeNaN();
    expect(findRoot(() => Number.NaN, -1, 1)).toBeNaN();
    expect(bracketAbove(() => -1, 0, 1, 20)).toBeNaN();
  });

  it('gives an end that is a root itself', () => {
    expect(findRoot((x) => x, 0, 1)).toBe(0);
    expect(findRoot((x) => x - 1, 0, 1)).toBe(1);
  });

  it('needs no bracket where the slope is roughly known, and few evaluations', () => {
    // ln(x + x^2) = y with x = e^z: slope in z from 1 to 2; x = (sqrt(1 + 4 e^y) - 1)/2 by hand
    fc.assert(
      fc.property(
        fc.double({ min: -30, max: 30, noNaN: true }),
        fc.double({ min: -30, max: 30, noNaN: true }),
        (y, start) => {
          const count = { evaluations: 0 };
          const z = findRisingRoot((at) => at + Math.log1p(Math.exp(at)) - y, start, { slope: 1.5, count });
          const exact = Math.log((2 * Math.exp(y)) / (1 + Math.sqrt(1 + 4 * Math.exp(y))));
          expect(Math.abs(z - exact)).toBeLessThan(1e-10);
          expect(count.evaluations).toBeLessThan(20);
        },
      ),
    );
  });
});
