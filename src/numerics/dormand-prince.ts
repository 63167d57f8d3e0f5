import { type Derivative, type Method, march, type OdeOptions, type OdeResult } from './ode.ts';

/**
 * Dormand-Prince 5(4): explicit Runge-Kutta with seven stages, the last being the first of the next step.
 * Source of the tableau: Dormand and Prince, J. Comput. Appl. Math. 6 (1980) 19-26; values between steps of 4th order:
 * Shampine, Math. Comp. 46 (1986) 135-150.
 */

const C = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1] as const;
const A: readonly (readonly number[])[] = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
/** difference of the weights of 5th and of 4th order */
const E = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40] as const;
/** y(t + theta h) = y + h sum_i k_i sum_j P[i][j] theta^(j+1) */
const P: readonly (readonly number[])[] = [
  [1, -8048581381 / 2820520608, 8663915743 / 2820520608, -12715105075 / 11282082432],
  [0, 0, 0, 0],
  [0, 131558114200 / 32700410799, -68118460800 / 10900136933, 87487479700 / 32700410799],
  [0, -1754552775 / 470086768, 14199869525 / 1410260304, -10690763975 / 1880347072],
  [0, 127303824393 / 49829197408, -318862633887 / 49829197408, 701980252875 / 199316789632],
  [0, -282668133 / 205662961, 2019193451 / 616988883, -1453857185 / 822651844],
  [0, 40617522 / 29380423, -110615467 / 29380423, 69997945 / 29380423],
];
const STAGES = 7;

const dormandPrince: Method = {
  order: 5,
  prepare(f, unknowns) {
    const k = Array.from({ length: STAGES }, () => new Float64Array(unknowns));
    const at = new Float64Array(unknowns);
    const error = new Float64Array(unknowns);
    const last = k[STAGES - 1] ?? at;
    return {
      next: at,
      nextSlope: last,
      error,
      evaluations: 0,
      attempt(t, y, slope, h) {
        k[0]?.set(slope);
        for (let stage = 1; stage < STAGES; stage++) {
          const row = A[stage] ?? [];
          for (let i = 0; i < unknowns; i++) {
            let sum = 0;
            for (let j = 0; j < stage; j++) sum += (row[j] ?? 0) * (k[j]?.[i] ?? 0);
            at[i] = (y[i] ?? 0) + h * sum;
          }
          const out = k[stage];
          if (out !== undefined) f(t + (C[stage] ?? 0) * h, at, out);
          this.evaluations++;
        }
        for (let i = 0; i < unknowns; i++) {
          let sum = 0;
          for (let j = 0; j < STAGES; j++) sum += (E[j] ?? 0) * (k[j]?.[i] ?? 0);
          error[i] = h * sum;
        }
        return true;
      },
      between(theta, y, h, out) {
        for (let i = 0; i < unknowns; i++) {
          let sum = 0;
          for (let j = 0; j < STAGES; j++) {
            const [p1 = 0, p2 = 0, p3 = 0, p4 = 0] = P[j] ?? [];
            sum += (k[j]?.[i] ?? 0) * theta * (p1 + theta * (p2 + theta * (p3 + theta * p4)));
          }
          out[i] = (y[i] ?? 0) + h * sum;
        }
      },
    };
  },
};

/** Integrates a non-stiff problem y' = f(t, y) from t0 to t1 > t0. */
export function integrate(
  f: Derivative,
  t0: number,
  y0: ArrayLike<number>,
  t1: number,
  options: OdeOptions = {},
): OdeResult {
  return march(dormandPrince, f, t0, y0, t1, options);
}
