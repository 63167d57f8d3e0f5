import { describe, expect, it } from 'vitest';
import { leastSquares } from '../../src/numerics/least-squares.ts';
import { linearFit } from '../../src/numerics/linear-fit.ts';

const TIMES = [0, 1, 2, 3, 5, 8];
/** 3 exp(-0.4 t) + 1 without error: the fit has one answer. */
const model = ([a = 0, rate = 0, rest = 0]: ArrayLike<number> & Iterable<number>): number[] =>
  TIMES.map((t) => a * Math.exp(-rate * t) + rest);
const TRUE = model([3, 0.4, 1]);
const miss = (x: Float64Array): number[] => model(x).map((value, i) => value - (TRUE[i] ?? 0));

describe('a fit of several unknowns', () => {
  it('finds them, and counts every evaluation', () => {
    let asked = 0;
    const { x, sum, converged, evaluations } = leastSquares(
      (at) => {
        asked++;
        return miss(at);
      },
      [1, 1, 0],
    );
    expect(converged).toBe(true);
    expect(sum).toBeLessThan(1e-20);
    [3, 0.4, 1].forEach((value, i) => {
      expect(x[i]).toBeCloseTo(value, 9);
    });
    expect(evaluations).toBe(asked);
    // four a round
    expect(evaluations).toBeLessThan(80);
  });

  it('is at the minimum, not beside it, where the points are off the curve', () => {
    const off = [0.02, -0.01, 0.03, -0.02, 0.01, -0.03];
    const { x, sum, converged } = leastSquares((at) => miss(at).map((value, i) => value + (off[i] ?? 0)), [1, 1, 0]);
    expect(converged).toBe(true);
    const at = (y: ArrayLike<number>): number =>
      miss(Float64Array.from(y)).reduce((total, value, i) => total + (value + (off[i] ?? 0)) ** 2, 0);
    expect(sum).toBeCloseTo(at(x), 12);
    for (let i = 0; i < 3; i++)
      for (const nudge of [-1e-4, 1e-4]) {
        const beside = Float64Array.from(x);
        beside[i] = (beside[i] ?? 0) + nudge;
        expect(at(beside)).toBeGreaterThan(sum);
      }
  });

  it('stays within its bounds, and differences towards the inside at the upper one', () => {
    const seen: number[] = [];
    const { x } = leastSquares(
      ([at = 0]) => {
        seen.push(at);
        return [at - 5, 0.1 * at];
      },
      [9],
      { low: [0], high: [2] },
    );
    expect(x[0]).toBe(2);
    for (const at of seen) expect(at).toBeLessThanOrEqual(2);
    expect(seen[0]).toBe(2);
    expect(leastSquares(([at = 0]) => [at + 5], [1], { low: [-1], high: [2] }).x[0]).toBe(-1);
  });

  it('differences over a step that suits the size of an unknown, large, small and nought', () => {
    for (const [start, answer] of [
      [2e9, 1e9],
      [2e-6, 1e-6],
      [0, 1],
      [0, -1],
    ] as const) {
      const steps: number[] = [];
      const { x } = leastSquares(
        ([at = 0]) => {
          steps.push(at - start);
          return [at / answer - 1];
        },
        [start],
      );
      expect(Math.abs((x[0] ?? 0) / answer - 1)).toBeLessThan(1e-6);
      // the cube root of the rounding unit, of the value or of 1e-8
      expect((steps[1] ?? 0) / (Math.cbrt(2 ** -52) * Math.max(start, 1e-8))).toBeCloseTo(1, 9);
    }
  });

  it('leaves an unknown that nothing depends on where it is', () => {
    const { x, converged } = leastSquares(([a = 0]) => [a - 3, 2 * a - 6], [1, 7]);
    expect(converged).toBe(true);
    expect(x[0]).toBeCloseTo(3, 9);
    expect(x[1]).toBe(7);
  });

  it('says so where it did not converge: no rounds left, or no number to begin with', () => {
    const early = leastSquares(miss, [1, 1, 0], { most: 1 });
    expect(early.converged).toBe(false);
    // three differences and as many tries as it took, after the first
    expect(early.evaluations).toBeGreaterThanOrEqual(5);
    const none = leastSquares(() => [Number.NaN], [1]);
    expect([none.converged, none.sum]).toEqual([false, Number.NaN]);
    expect([...none.x]).toEqual([1]);
  });

  it('takes a step that leads to no number as refused', () => {
    // a full step from 0.2 lands below 0
    const { x } = leastSquares(([a = 0]) => [Math.log(a) + 2 * a - 2], [9]);
    expect(x[0]).toBeCloseTo(1, 9);
  });

  it('stops at once where nothing is left to gain', () => {
    const { evaluations, converged, sum } = leastSquares(([a = 0]) => [a - 3], [3]);
    expect([evaluations, converged, sum]).toEqual([3, true, 0]);
  });
});

describe('a fit of weights', () => {
  const t = [0, 1, 2, 3, 4];
  const ones = Float64Array.from(t, () => 1);
  const line = Float64Array.from(t);

  it('is that of the closed form of a straight line, its errors and what is left, too', () => {
    const y = [1.1, 2.9, 5.2, 6.8, 9.1];
    // b = sum((t - tm)(y - ym)) / sum((t - tm)^2), a = ym - b tm; errors sqrt(1/n + tm^2/Stt), 1/sqrt(Stt): textbook regression
    const n = t.length;
    const tm = t.reduce((sum, value) => sum + value, 0) / n;
    const ym = y.reduce((sum, value) => sum + value, 0) / n;
    const stt = t.reduce((sum, value) => sum + (value - tm) ** 2, 0);
    const b = t.reduce((sum, value, i) => sum + (value - tm) * ((y[i] ?? 0) - ym), 0) / stt;
    const a = ym - b * tm;
    const fit = linearFit([ones, line], y);
    expect(fit?.x[0]).toBeCloseTo(a, 12);
    expect(fit?.x[1]).toBeCloseTo(b, 12);
    expect(fit?.errors[0]).toBeCloseTo(Math.sqrt(1 / n + tm ** 2 / stt), 12);
    expect(fit?.errors[1]).toBeCloseTo(1 / Math.sqrt(stt), 12);
    const left = t.reduce((sum, value, i) => sum + (a + b * value - (y[i] ?? 0)) ** 2, 0);
    expect(fit?.sum).toBeCloseTo(left, 12);
  });

  it('does not depend on the scale of a column', () => {
    const y = [1.1, 2.9, 5.2, 6.8, 9.1];
    const plain = linearFit([ones, line], y);
    const scaled = linearFit([ones, line.map((value) => 1e12 * value)], y);
    expect((scaled?.x[1] ?? 0) * 1e12).toBeCloseTo(plain?.x[1] ?? Number.NaN, 10);
    expect((scaled?.errors[1] ?? 0) * 1e12).toBeCloseTo(plain?.errors[1] ?? Number.NaN, 10);
  });

  it('is none where a column is empty, no number, or the double of another', () => {
    const empty = new Float64Array(5);
    const broken = Float64Array.from(t, () => Number.NaN);
    for (const columns of [[empty], [ones, empty], [empty, ones], [broken], [ones, broken], [line, line]])
      expect(linearFit(columns, t)).toBeUndefined();
  });
});
