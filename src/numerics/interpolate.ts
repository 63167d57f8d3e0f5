/**
 * Piecewise cubic interpolation on typed arrays.
 */

/** Index i of the panel with x[i] <= at < x[i+1] in rising `x`; the end panels serve points outside. */
export function panelOf(x: Float64Array, at: number): number {
  let lo = 0;
  let hi = x.length - 1;
  while (hi - lo > 1) {
    const mid = (lo + hi) >> 1;
    if ((x[mid] ?? 0) <= at) lo = mid;
    else hi = mid;
  }
  return lo;
}

/** Cubic Hermite value at `at` in the panel [x0, x1] with values y0, y1 and slopes d0, d1 at its ends. */
export function hermite(at: number, x0: number, x1: number, y0: number, y1: number, d0: number, d1: number): number {
  const h = x1 - x0;
  const t = (at - x0) / h;
  const rise = (y1 - y0) / h;
  const c = 3 * rise - 2 * d0 - d1;
  const d = d0 + d1 - 2 * rise;
  return y0 + (at - x0) * (d0 + t * (c + t * d));
}

/** Slope of the cubic of `hermite` at `at`. */
export function hermiteSlope(
  at: number,
  x0: number,
  x1: number,
  y0: number,
  y1: number,
  d0: number,
  d1: number,
): number {
  const h = x1 - x0;
  const t = (at - x0) / h;
  const rise = (y1 - y0) / h;
  const c = 3 * rise - 2 * d0 - d1;
  const d = d0 + d1 - 2 * rise;
  return d0 + t * (2 * c + 3 * d * t);
}

/** Value at `at` of the polynomial through the points (x, y), by Newton's divided differences; x are apart, in any order. */
export function newtonPolynomial(x: readonly number[], y: readonly number[], at: number): number {
  const differences = [...y];
  const n = (a: readonly number[], i: number): number => a[i] ?? Number.NaN;
  for (let level = 1; level < x.length; level++)
    for (let i = x.length - 1; i >= level; i--)
      differences[i] = (n(differences, i) - n(differences, i - 1)) / (n(x, i) - n(x, i - level));
  let value = 0;
  for (let i = x.length - 1; i >= 0; i--) value = n(differences, i) + (at - n(x, i)) * value;
  return value;
}

export interface Interpolant {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** slopes at the nodes */
  readonly d: Float64Array;
  /** Outside the nodes the end tangent is continued. */
  value(at: number): number;
  slope(at: number): number;
}

/** Interpolant through (x, y) with given slopes d at the nodes; x rises. */
export function hermiteInterpolant(x: Float64Array, y: Float64Array, d: Float64Array): Interpolant {
  const last = x.length - 1;
  const n = (a: Float64Array, i: number): number => a[i] ?? Number.NaN;
  return {
    x,
    y,
    d,
    value(at) {
      if (at <= n(x, 0)) return n(y, 0) + (at - n(x, 0)) * n(d, 0);
      if (at >= n(x, last)) return n(y, last) + (at - n(x, last)) * n(d, last);
      const i = panelOf(x, at);
      return hermite(at, n(x, i), n(x, i + 1), n(y, i), n(y, i + 1), n(d, i), n(d, i + 1));
    },
    slope(at) {
      if (at <= n(x, 0)) return n(d, 0);
      if (at >= n(x, last)) return n(d, last);
      const i = panelOf(x, at);
      return hermiteSlope(at, n(x, i), n(x, i + 1), n(y, i), n(y, i + 1), n(d, i), n(d, i + 1));
    },
  };
}

/**
 * Monotone cubic interpolant: never overshoots the data, keeps its rises and falls. x rises, at least two points.
 * Slopes are weighted harmonic means of the neighbouring secants.
 * Source: Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304; end slopes by the one-sided three-point
 * formula, limited to keep the shape.
 */
export function pchip(xs: ArrayLike<number>, ys: ArrayLike<number>): Interpolant {
  const x = Float64Array.from(xs);
  const y = Float64Array.from(ys);
  const count = x.length;
  const d = new Float64Array(count);
  const n = (a: Float64Array, i: number): number => a[i] ?? Number.NaN;
  const width = (i: number): number => n(x, i + 1) - n(x, i);
  const secant = (i: number): number => (n(y, i + 1) - n(y, i)) / width(i);
  if (count === 2) d.fill(secant(0));
  if (count > 2) {
    for (let i = 1; i < count - 1; i++) {
      const before = secant(i - 1);
      const after = secant(i);
      if (before * after > 0) {
        const w1 = 2 * width(i) + width(i - 1);
        const w2 = width(i) + 2 * width(i - 1);
        d[i] = (w1 + w2) / (w1 / before + w2 / after);
      }
    }
    const end = (near: number, far: number, hNear: number, hFar: number): number => {
      const raw = ((2 * hNear + hFar) * near - hNear * far) / (hNear + hFar);
      if (raw * near <= 0) return 0;
      return near * far <= 0 && Math.abs(raw) > 3 * Math.abs(near) ? 3 * near : raw;
    };
    d[0] = end(secant(0), secant(1), width(0), width(1));
    d[count - 1] = end(secant(count - 2), secant(count - 3), width(count - 2), width(count - 3));
  }
  return hermiteInterpolant(x, y, d);
}
