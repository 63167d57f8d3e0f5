import { describe, expect, it } from 'vitest';
import { hermiteInterpolant, panelOf, pchip } from '../../src/numerics/interpolate.ts';

/** x, y, [at, value]..., slopes at the nodes: PchipInterpolator of SciPy 1.17.1, another implementation of the same method. */
const PUBLISHED: readonly [string, number[], number[], [number, number][], number[]][] = [
  [
    'that rise and fall',
    [0, 1, 3, 4, 6, 6.5],
    [0, 2, 3, 3.5, 1, 1.2],
    [
      [0.5, 1.2053571428571428],
      [2, 2.5892857142857144],
      [3.5, 3.3125],
      [5, 2.25],
      [6.2, 1.03536],
    ],
    [2.5, 0.8571428571428571, 0.5, 0, 0, 0.73],
  ],
  [
    'whose end would turn back',
    [0, 2, 3],
    [0, 1, 5],
    [
      [1, 0.25675675675675674],
      [2.5, 2.475788288288288],
    ],
    [0, 0.972972972972973, 5.166666666666668],
  ],
  [
    'that turn in the middle',
    [0, 1, 4],
    [0, 3, -2],
    [
      [0.5, 2.0208333333333335],
      [2, 2.814814814814815],
    ],
    [4.166666666666667, 0, -5],
  ],
  [
    'that go level',
    [0, 1, 4],
    [1, 2, 2],
    [
      [0.5, 1.65625],
      [2, 2],
    ],
    [1.25, 0, 0],
  ],
  [
    'with an end that is held to three times its secant',
    [0, 1, 1.2],
    [0, 1, -8],
    [
      [0.5, 0.875],
      [1.1, -2.183333333333339],
    ],
    [3, 0, -52.666666666666686],
  ],
  [
    'that begin level',
    [0, 1, 2],
    [1, 1, 5],
    [
      [0.5, 1],
      [1.5, 2.25],
    ],
    [0, 0, 6],
  ],
];

describe('a curve that keeps the shape of points', () => {
  it.each(PUBLISHED)('%s', (_, x, y, values, slopes) => {
    const line = pchip(x, y);
    for (const [at, value] of values) expect(line.value(at)).toBeCloseTo(value, 12);
    x.forEach((at, i) => {
      expect(line.slope(at)).toBeCloseTo(slopes[i] ?? Number.NaN, 12);
      expect(line.value(at)).toBe(y[i]);
    });
  });

  it('is the straight line through two points', () => {
    const line = pchip([1, 3], [5, 4]);
    expect([line.value(0), line.value(2), line.value(5)]).toEqual([5.5, 4.5, 3]);
    expect([line.slope(0), line.slope(2), line.slope(5)]).toEqual([-0.5, -0.5, -0.5]);
  });

  it('goes on along its end tangents', () => {
    const line = hermiteInterpolant(Float64Array.of(1, 3), Float64Array.of(5, 4), Float64Array.of(2, -7));
    expect([line.value(0), line.value(-1)]).toEqual([3, 1]);
    expect([line.value(4), line.value(5)]).toEqual([-3, -10]);
    expect([line.slope(0), line.slope(4)]).toEqual([2, -7]);
  });

  it('finds the panel by its lower end', () => {
    const x = Float64Array.of(0, 1, 2, 4, 8, 16);
    const panels = [
      [-3, 0],
      [0, 0],
      [0.9, 0],
      [1, 1],
      [1.5, 1],
      [2, 2],
      [3.9, 2],
      [4, 3],
      [8, 4],
      [15, 4],
      [16, 4],
      [99, 4],
    ] as const;
    for (const [at, panel] of panels) expect(panelOf(x, at)).toBe(panel);
  });
});
