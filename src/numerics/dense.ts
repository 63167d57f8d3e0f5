/**
 * Small dense linear systems, row by row in one array.
 */

/** LU factors with partial pivoting in place of the n x n matrix `a`; `pivots` gets the row order. False if singular. */
export function factor(a: Float64Array, n: number, pivots: Int32Array): boolean {
  for (let k = 0; k < n; k++) {
    let p = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(a[i * n + k] ?? 0) > Math.abs(a[p * n + k] ?? 0)) p = i;
    pivots[k] = p;
    const pivot = a[p * n + k] ?? 0;
    if (!(Math.abs(pivot) > 0) || !Number.isFinite(pivot)) return false;
    if (p !== k)
      for (let j = 0; j < n; j++) {
        const swap = a[k * n + j] ?? 0;
        a[k * n + j] = a[p * n + j] ?? 0;
        a[p * n + j] = swap;
      }
    for (let i = k + 1; i < n; i++) {
      const m = (a[i * n + k] ?? 0) / pivot;
      a[i * n + k] = m;
      if (m !== 0) for (let j = k + 1; j < n; j++) a[i * n + j] = (a[i * n + j] ?? 0) - m * (a[k * n + j] ?? 0);
    }
  }
  return true;
}

/** Solves with the factors of `factor`; the right-hand side `b` becomes the solution. */
export function solveFactored(a: Float64Array, n: number, pivots: Int32Array, b: Float64Array): void {
  for (let k = 0; k < n; k++) {
    const p = pivots[k] ?? k;
    const swap = b[k] ?? 0;
    b[k] = b[p] ?? 0;
    b[p] = swap;
  }
  for (let i = 1; i < n; i++) {
    let sum = b[i] ?? 0;
    for (let j = 0; j < i; j++) sum -= (a[i * n + j] ?? 0) * (b[j] ?? 0);
    b[i] = sum;
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i] ?? 0;
    for (let j = i + 1; j < n; j++) sum -= (a[i * n + j] ?? 0) * (b[j] ?? 0);
    b[i] = sum / (a[i * n + i] ?? 0);
  }
}
