import { factor, solveFactored } from './dense.ts';
import { type Derivative, type Method, march, type OdeOptions, type OdeResult } from './ode.ts';

/**
 * RODAS3: Rosenbrock method of order 3(2), four stages, L-stable and stiffly accurate; the Jacobian by differences.
 * Source of the coefficients: Sandu, Verwer, Blom, Spee, Carmichael and Potra, Atmos. Environ. 31 (1997) 3459-3472.
 */

export const GAMMA = 1 / 2;
export const ALPHA = [0, 0, 1, 1] as const;
export const GAMMA_SUM = [1 / 2, 3 / 2, 0, 0] as const;
export const A: readonly (readonly number[])[] = [[], [0], [2, 0], [2, 0, 1]];
export const C: readonly (readonly number[])[] = [[], [4], [1, -1], [1, -1, -8 / 3]];
export const M = [2, 0, 1, 1] as const;
export const E = [0, 0, 0, 1] as const;
const STAGES = 4;
const DIFFERENCE = Math.sqrt(Number.EPSILON);

const rodas: Method = {
  order: 3,
  prepare(f, n) {
    const k = Array.from({ length: STAGES }, () => new Float64Array(n));
    const next = new Float64Array(n);
    const nextSlope = new Float64Array(n);
    const error = new Float64Array(n);
    const jacobian = new Float64Array(n * n);
    const matrix = new Float64Array(n * n);
    const pivots = new Int32Array(n);
    const at = new Float64Array(n);
    const rate = new Float64Array(n);
    const timeSlope = new Float64Array(n);
    let jacobianTime = Number.NaN;
    return {
      next,
      nextSlope,
      error,
      evaluations: 0,
      attempt(t, y, slope, h) {
        // a refused step starts again from the same place: its Jacobian still holds
        if (jacobianTime !== t) {
          at.set(y);
          for (let j = 0; j < n; j++) {
            const value = y[j] ?? 0;
            const small = DIFFERENCE * Math.max(Math.abs(value), Math.abs(h * (slope[j] ?? 0)), 1e-12);
            at[j] = value + small;
            f(t, at, rate);
            at[j] = value;
            for (let i = 0; i < n; i++) jacobian[i * n + j] = ((rate[i] ?? 0) - (slope[i] ?? 0)) / small;
          }
          const later = DIFFERENCE * Math.max(Math.abs(t), h);
          f(t + later, at, rate);
          for (let i = 0; i < n; i++) timeSlope[i] = ((rate[i] ?? 0) - (slope[i] ?? 0)) / later;
          this.evaluations += n + 1;
          jacobianTime = t;
        }
        for (let i = 0; i < n * n; i++) matrix[i] = -(jacobian[i] ?? 0);
        for (let i = 0; i < n; i++) matrix[i * n + i] = (matrix[i * n + i] ?? 0) + 1 / (h * GAMMA);
        if (!factor(matrix, n, pivots)) return false;
        for (let stage = 0; stage < STAGES; stage++) {
          const out = k[stage] ?? rate;
          const a = A[stage] ?? [];
          const c = C[stage] ?? [];
          if (stage < 2) rate.set(slope);
          else {
            for (let i = 0; i < n; i++) {
              let sum = y[i] ?? 0;
              for (let j = 0; j < stage; j++) sum += (a[j] ?? 0) * (k[j]?.[i] ?? 0);
              at[i] = sum;
            }
            f(t + (ALPHA[stage] ?? 0) * h, at, rate);
            this.evaluations++;
          }
          for (let i = 0; i < n; i++) {
            let sum = (rate[i] ?? 0) + h * (GAMMA_SUM[stage] ?? 0) * (timeSlope[i] ?? 0);
            for (let j = 0; j < stage; j++) sum += ((c[j] ?? 0) * (k[j]?.[i] ?? 0)) / h;
            out[i] = sum;
          }
          solveFactored(matrix, n, pivots, out);
        }
        for (let i = 0; i < n; i++) {
          let sum = y[i] ?? 0;
          let e = 0;
          for (let j = 0; j < STAGES; j++) {
            sum += (M[j] ?? 0) * (k[j]?.[i] ?? 0);
            e += (E[j] ?? 0) * (k[j]?.[i] ?? 0);
          }
          next[i] = sum;
          error[i] = e;
          if (!Number.isFinite(sum)) return false;
        }
        f(t + h, next, nextSlope);
        this.evaluations++;
        return true;
      },
    };
  },
};

/** Integrates a stiff problem y' = f(t, y) of a few unknowns from t0 to t1 > t0. Cost grows with their cube. */
export function integrateStiff(
  f: Derivative,
  t0: number,
  y0: ArrayLike<number>,
  t1: number,
  options: OdeOptions = {},
): OdeResult {
  return march(rodas, f, t0, y0, t1, options);
}
