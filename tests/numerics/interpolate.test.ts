import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { hermiteInterpolant, newtonPolynomial, pchip } from '../../src/numerics/interpolate.ts';

describe('interpolation', () => {
  it('reproduces a cubic from its values and slopes', () => {
    const f = (x: number): number => 2 - x + 3 * x * x - 0.5 * x ** 3;
    const d = (x: number): number => -1 + 6 * x - 1.5 * x * x;
    const x = Float64Array.of(-1, 0.3, 2, 5);
    const line = hermiteInterpolant(x, x.map(f), x.map(d));
    for (const at of [-0.9, 0, 1.7, 4.99]) {
      expect(line.value(at)).toBeCloseTo(f(at), 12);
      expect(line.slope(at)).toBeCloseTo(d(at), 12);
    }
  });

  it('puts the one polynomial through points in any order', () => {
    const f = (x: number): number => 2 - x + 3 * x * x - 0.5 * x ** 3;
    const x = [5, -1, 0.3, 2];
    for (const at of [-3, -1, 0, 1.7, 5, 8]) expect(newtonPolynomial(x, x.map(f), at)).toBeCloseTo(f(at), 10);
    expect(newtonPolynomial([4], [7], 9)).toBe(7);
    expect(newtonPolynomial([4, 6], [7, 8], 5)).toBe(7.5);
  });

  it('never overshoots rising data', () => {
    const steps = fc.array(
      fc.tuple(fc.double({ min: 1e-3, max: 10, noNaN: true }), fc.double({ min: 0, max: 10, noNaN: true })),
      {
        minLength: 2,
        maxLength: 12,
      },
    );
    fc.assert(
      fc.property(
        steps,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (rows, u, v) => {
          let x = 0;
          let y = 0;
          const xs: number[] = [];
          const ys: number[] = [];
          for (const [dx, dy] of rows) {
            x += dx;
            y += dy;
            xs.push(x);
            ys.push(y);
          }
          const line = pchip(xs, ys);
          const [first = 0] = xs;
          const low = first + Math.min(u, v) * (x - first);
          const high = first + Math.max(u, v) * (x - first);
          expect(line.value(high)).toBeGreaterThanOrEqual(line.value(low) - 1e-9);
          expect(line.value(high)).toBeLessThanOrEqual(y + 1e-9);
        },
      ),
    );
  });

  it('passes through its points and continues the end tangent outside', () => {
    const line = pchip([0, 1, 3], [1, 2, 6]);
    expect([0, 1, 3].map(line.value)).toEqual([1, 2, 6]);
    expect(line.value(4)).toBeCloseTo(6 + line.slope(3), 12);
  });
});
