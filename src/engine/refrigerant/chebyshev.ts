/**
 * Sum of c_k T_k(x) by Clenshaw's recurrence.
 *
 * @param coefficients c_0, c_1, ...
 * @param x from -1 to 1
 * Source: Clenshaw, Math. Tables Aids Comput. 9 (1955) 118.
 */
export function chebyshev(coefficients: readonly number[], x: number): number {
  let next = 0;
  let after = 0;
  for (let k = coefficients.length - 1; k > 0; k--) {
    const here = (coefficients[k] ?? 0) + 2 * x * next - after;
    after = next;
    next = here;
  }
  return (coefficients[0] ?? 0) + x * next - after;
}

/** Coefficients of the derivative in x: d_(k-1) = d_(k+1) + 2 k c_k, d_0 halved. */
export function chebyshevSlope(coefficients: readonly number[]): readonly number[] {
  const slope = new Array<number>(coefficients.length + 1).fill(0);
  for (let k = coefficients.length - 1; k > 0; k--) {
    slope[k - 1] = (slope[k + 1] ?? 0) + 2 * k * (coefficients[k] ?? 0);
  }
  slope[0] = (slope[0] ?? 0) / 2;
  return slope.slice(0, Math.max(1, coefficients.length - 1));
}

/** Series in one variable, from `low` to `high` of that variable. */
export interface Series {
  readonly coefficients: readonly number[];
  readonly low: number;
  readonly high: number;
}

/** Value of a series; a variable that rounding put outside is taken at the end. */
export function seriesAt({ coefficients, low, high }: Series, variable: number): number {
  return chebyshev(coefficients, reduced(low, high, variable));
}

export function reduced(low: number, high: number, variable: number): number {
  return Math.min(1, Math.max(-1, (2 * variable - low - high) / (high - low)));
}
