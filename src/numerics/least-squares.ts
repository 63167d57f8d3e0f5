import { factor, solveFactored } from './dense.ts';

/**
 * Nonlinear least squares in a few unknowns.
 */
export interface LeastSquaresResult {
  readonly x: Float64Array;
  /** sum of squared residuals */
  readonly sum: number;
  readonly converged: boolean;
  readonly evaluations: number;
}

export interface LeastSquaresOptions {
  /** stop when the sum falls by less than this, relative; default 1e-12 */
  readonly tolerance?: number;
  readonly most?: number;
  /** smallest and largest value of each unknown */
  readonly low?: readonly number[];
  readonly high?: readonly number[];
}

const DAMPING = { first: 1e-3, down: 0.3, up: 4, most: 1e12 } as const;

/**
 * Minimises the sum of squares of `residuals(x)` from `start` by the Levenberg-Marquardt method with a Jacobian by
 * differences and damping scaled by the diagonal. Bounds are kept by clipping. A residual that is not finite counts as
 * a refused step.
 * Source: Marquardt, SIAM J. Appl. Math. 11 (1963) 431-441.
 */
export function leastSquares(
  residuals: (x: Float64Array) => ArrayLike<number>,
  start: ArrayLike<number>,
  options: LeastSquaresOptions = {},
): LeastSquaresResult {
  const { tolerance = 1e-12, most = 200, low, high } = options;
  const n = start.length;
  const clip = (value: number, i: number): number =>
    Math.min(Math.max(value, low?.[i] ?? Number.NEGATIVE_INFINITY), high?.[i] ?? Number.POSITIVE_INFINITY);
  let x = Float64Array.from(start, clip);
  let evaluations = 0;
  const evaluate = (at: Float64Array): Float64Array => {
    evaluations++;
    return Float64Array.from(residuals(at));
  };
  const squares = (r: Float64Array): number => r.reduce((sum, value) => sum + value * value, 0);
  let r = evaluate(x);
  let sum = squares(r);
  let damping: number = DAMPING.first;
  const normal = new Float64Array(n * n);
  const gradient = new Float64Array(n);
  const pivots = new Int32Array(n);
  for (let round = 0; round < most; round++) {
    const columns = Array.from({ length: n }, (_, j) => {
      const moved = x.slice();
      const value = x[j] ?? 0;
      const size = Math.cbrt(Number.EPSILON) * Math.max(Math.abs(value), 1e-8);
      const step = clip(value + size, j) > value ? size : -size;
      moved[j] = value + step;
      return evaluate(moved).map((m, i) => (m - (r[i] ?? 0)) / step);
    });
    columns.forEach((a, i) => {
      gradient[i] = a.reduce((s, value, row) => s - value * (r[row] ?? 0), 0);
      columns.forEach((b, j) => {
        normal[i * n + j] = a.reduce((s, value, row) => s + value * (b[row] ?? 0), 0);
      });
    });
    let accepted = false;
    while (!accepted && damping < DAMPING.most) {
      const matrix = normal.slice();
      for (let i = 0; i < n; i++) {
        const diagonal = normal[i * n + i] ?? 0;
        matrix[i * n + i] = diagonal + damping * (diagonal > 0 ? diagonal : 1);
      }
      const step = gradient.slice();
      if (factor(matrix, n, pivots)) {
        solveFactored(matrix, n, pivots, step);
        const tried = x.map((value, i) => clip(value + (step[i] ?? 0), i));
        const residual = evaluate(tried);
        const total = squares(residual);
        if (total <= sum) {
          const gain = sum - total;
          x = tried;
          r = residual;
          accepted = true;
          damping *= DAMPING.down;
          sum = total;
          if (gain <= tolerance * total || total === 0) return { x, sum, converged: true, evaluations };
          continue;
        }
      }
      damping *= DAMPING.up;
    }
    // no step of any length is downhill: this is the minimum, as far as the numbers tell
    if (!accepted) return { x, sum, converged: Number.isFinite(sum), evaluations };
  }
  return { x, sum, converged: false, evaluations };
}
