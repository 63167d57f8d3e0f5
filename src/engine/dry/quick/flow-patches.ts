import { COMPOSITIONS, type RigSurface, STEP } from '../rig-surface.ts';

/**
 * The throughput of a surface together with its slopes, for the quick way through a dry-out: the same function of pressure and
 * composition as `mixtureThroughput`, with its polynomials written out once per surface.
 */

const ROWS = COMPOSITIONS.length;
/** Powers of the place within a step of ln(p - pu). */
const POWERS = 4;
const PER_STEP = POWERS * ROWS;

export interface FlowPatches {
  readonly ultimate: number;
  readonly foot: number;
  readonly steps: number;
  /** for each step, each power of the place in it, the coefficients of the powers of 2y - 1 */
  readonly coefficients: Float64Array;
}

/** Throughput (Pa m3/s) with its slopes against pressure and mole fraction. */
export interface Throughput {
  value: number;
  byPressure: number;
  byFraction: number;
}

/** For each composition, the coefficients in powers of z = 2y - 1 of the Lagrange polynomial that is 1 there. */
const BASIS: readonly (readonly number[])[] = COMPOSITIONS.map((own, k) => {
  let polynomial = [1];
  COMPOSITIONS.forEach((other, j) => {
    if (j === k) return;
    const root = 2 * other - 1;
    const spread = 2 * own - 1 - root;
    const next = Array.from({ length: polynomial.length + 1 }, () => 0);
    polynomial.forEach((coefficient, power) => {
      next[power] = (next[power] ?? 0) - (root * coefficient) / spread;
      next[power + 1] = (next[power + 1] ?? 0) + coefficient / spread;
    });
    polynomial = next;
  });
  return polynomial;
});

export function flowPatches(surface: RigSurface): FlowPatches {
  const { steps, lnK, foot, ultimate } = surface;
  const coefficients = new Float64Array(steps * PER_STEP);
  const at = (step: number, row: number): number => lnK[Math.max(0, Math.min(steps, step)) * ROWS + row] ?? 0;
  for (let i = 0; i < steps; i++)
    for (let k = 0; k < ROWS; k++) {
      const a = at(i - 1, k);
      const b = at(i, k);
      const c = at(i + 1, k);
      const d = at(i + 2, k);
      // Catmull-Rom, by powers of the place within the step
      const powers = [b, 0.5 * (c - a), 0.5 * (2 * a - 5 * b + 4 * c - d), 0.5 * (3 * (b - c) + d - a)];
      powers.forEach((value, power) => {
        const from = i * PER_STEP + power * ROWS;
        for (let j = 0; j < ROWS; j++)
          coefficients[from + j] = (coefficients[from + j] ?? 0) + value * (BASIS[k]?.[j] ?? 0);
      });
    }
  return { ultimate, foot, steps, coefficients };
}

/**
 * Fills `out` at a pressure (Pa) and mole fraction of vapour (0 to 1).
 *
 * @param withSlopes false: the value only
 */
export function throughputOn(
  patches: FlowPatches,
  pressure: number,
  fraction: number,
  withSlopes: boolean,
  out: Throughput,
): void {
  const excess = pressure - patches.ultimate;
  if (!(excess > 0)) {
    out.value = 0;
    out.byPressure = 0;
    out.byFraction = 0;
    return;
  }
  const c = patches.coefficients;
  const z = 2 * fraction - 1;
  const x = (Math.log(excess) - patches.foot) / STEP;
  const i = x <= 0 ? 0 : Math.min(Math.floor(x), patches.steps - 1);
  const t = x <= 0 ? 0 : x - i;
  const first = i * PER_STEP;
  let lnK = 0;
  if (!withSlopes) {
    for (let o = first + PER_STEP - ROWS; o >= first; o -= ROWS)
      lnK =
        lnK * t +
        ((c[o] ?? 0) + z * ((c[o + 1] ?? 0) + z * ((c[o + 2] ?? 0) + z * ((c[o + 3] ?? 0) + z * (c[o + 4] ?? 0)))));
    out.value = excess * Math.exp(lnK);
    return;
  }
  let byPlace = 0;
  let byZ = 0;
  for (let o = first + PER_STEP - ROWS; o >= first; o -= ROWS) {
    const c1 = c[o + 1] ?? 0;
    const c2 = c[o + 2] ?? 0;
    const c3 = c[o + 3] ?? 0;
    const c4 = c[o + 4] ?? 0;
    const value = (c[o] ?? 0) + z * (c1 + z * (c2 + z * (c3 + z * c4)));
    const slope = c1 + z * (2 * c2 + z * (3 * c3 + 4 * z * c4));
    byPlace = byPlace * t + lnK;
    lnK = lnK * t + value;
    byZ = byZ * t + slope;
  }
  const conductance = Math.exp(lnK);
  out.value = excess * conductance;
  out.byPressure = conductance * (x <= 0 ? 1 : 1 + byPlace / STEP);
  out.byFraction = 2 * out.value * byZ;
}
