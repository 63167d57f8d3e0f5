import { factor, solveFactored } from './dense.ts';

/** Linear least squares: the weights of the columns that come closest to `y`, and the sum of squares left. */
export interface LinearFit {
  readonly x: Float64Array;
  readonly sum: number;
  /** standard error of each weight for residuals of size one */
  readonly errors: Float64Array;
}

/**
 * Minimises |A x - y|^2 by the normal equations of the columns scaled to length one; a few columns only.
 * Undefined where they do not stand apart.
 */
export function linearFit(columns: readonly Float64Array[], y: ArrayLike<number>): LinearFit | undefined {
  const n = columns.length;
  const scales = columns.map((column) => Math.sqrt(dot(column, column)));
  if (scales.some((scale) => !(scale > 0))) return undefined;
  const matrix = new Float64Array(n * n);
  const x = new Float64Array(n);
  columns.forEach((a, i) => {
    x[i] = dot(a, y) / (scales[i] ?? 1);
    columns.forEach((b, j) => {
      matrix[i * n + j] = dot(a, b) / ((scales[i] ?? 1) * (scales[j] ?? 1));
    });
  });
  const pivots = new Int32Array(n);
  if (!factor(matrix, n, pivots)) return undefined;
  solveFactored(matrix, n, pivots, x);
  const errors = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const unit = new Float64Array(n);
    unit[i] = 1;
    solveFactored(matrix, n, pivots, unit);
    errors[i] = Math.sqrt(Math.max(unit[i] ?? 0, 0)) / (scales[i] ?? 1);
    x[i] = (x[i] ?? 0) / (scales[i] ?? 1);
  }
  let sum = 0;
  for (let row = 0; row < y.length; row++) {
    let model = 0;
    for (let i = 0; i < n; i++) model += (x[i] ?? 0) * (columns[i]?.[row] ?? 0);
    sum += (model - (y[row] ?? 0)) ** 2;
  }
  return { x, sum, errors };
}

function dot(a: ArrayLike<number>, b: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] ?? 0) * (b[i] ?? 0);
  return sum;
}
