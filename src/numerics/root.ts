/**
 * Roots of one function of one variable.
 */

/** Counts evaluations, so that a test can hold a solver to a work budget. */
export interface WorkCount {
  evaluations: number;
}

export interface RootOptions {
  /** stop when the bracket is this narrow, absolute; default 0 */
  readonly absolute?: number;
  /** stop when the bracket is this narrow, relative to the root; default 1e-12 */
  readonly relative?: number;
  /** most evaluations; default 200 */
  readonly most?: number;
  readonly count?: WorkCount;
}

const DEFAULT_RELATIVE = 1e-12;
const DEFAULT_MOST = 200;
const EPSILON = Number.EPSILON;

/**
 * Root of a continuous `f` between `low` and `high`, where f has opposite signs (or is zero), by Brent's method:
 * inverse quadratic interpolation and secant steps, bisection where they do not pay.
 * Gives NaN when the ends have the same sign or f is not a number at an end: the caller knows what that means.
 * Source: Brent, Algorithms for Minimization without Derivatives (1973), ch. 4.
 */
export function findRoot(f: (x: number) => number, low: number, high: number, options: RootOptions = {}): number {
  const { absolute = 0, relative = DEFAULT_RELATIVE, most = DEFAULT_MOST, count } = options;
  const tally = (n: number): void => {
    if (count !== undefined) count.evaluations += n;
  };
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  tally(2);
  if (fa === 0) return a;
  if (fb === 0) return b;
  if (!(fa * fb < 0) && !(Math.sign(fa) * Math.sign(fb) < 0)) return Number.NaN;
  let c = a;
  let fc = fa;
  let step = b - a;
  let before = step;
  for (let used = 2; used < most; used++) {
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const tolerance = 2 * EPSILON * Math.abs(b) + 0.5 * Math.max(absolute, relative * Math.abs(b));
    const half = 0.5 * (c - b);
    if (Math.abs(half) <= tolerance || fb === 0) return b;
    if (Math.abs(before) < tolerance || Math.abs(fa) <= Math.abs(fb)) {
      step = half;
      before = half;
    } else {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const t = fa / fc;
        const r = fb / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      else p = -p;
      if (2 * p < Math.min(3 * half * q - Math.abs(tolerance * q), Math.abs(before * q))) {
        before = step;
        step = p / q;
      } else {
        step = half;
        before = half;
      }
    }
    a = b;
    fa = fb;
    b += Math.abs(step) > tolerance ? step : half > 0 ? tolerance : -tolerance;
    fb = f(b);
    tally(1);
    if (fb > 0 === fc > 0) {
      c = a;
      fc = fa;
      step = b - a;
      before = step;
    }
  }
  return b;
}

/**
 * Widens an interval geometrically away from `low` until the rising function `f` is positive at its upper end;
 * gives that end, or NaN when `most` doublings do not reach it.
 */
export function bracketAbove(f: (x: number) => number, low: number, first: number, most = 200, factor = 2): number {
  let width = first;
  for (let i = 0; i < most; i++) {
    if (f(low + width) >= 0) return low + width;
    width *= factor;
  }
  return Number.NaN;
}

export interface RisingOptions {
  /** first guess of the slope of f */
  readonly slope: number;
  /** stop when a step is this small; default 1e-12 */
  readonly absolute?: number;
  readonly most?: number;
  readonly count?: WorkCount;
}

/** A secant slope this many times off the first guess is not believed. */
const SLOPE_RANGE = 50;

/**
 * Root of a rising `f` with a slope near `slope` all along, from `start`, without a bracket to begin with: secant
 * steps, kept inside the bracket that the values so far make. Meant for functions made near-linear by logarithms; a few
 * evaluations each. Gives the last guess when `most` evaluations (default 100) do not settle it.
 */
export function findRisingRoot(f: (x: number) => number, start: number, options: RisingOptions): number {
  const { slope: guess, absolute = 1e-12, most = 100, count } = options;
  let low = Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let x = start;
  let slope = guess;
  let before = 0;
  let valueBefore = 0;
  for (let used = 0; used < most; used++) {
    const value = f(x);
    if (count !== undefined) count.evaluations++;
    if (value === 0) return x;
    if (value > 0) high = x;
    else low = x;
    if (used > 0 && x !== before) {
      const secant = (value - valueBefore) / (x - before);
      // noise at the root, or a bend: the last good slope goes on
      if (secant > guess / SLOPE_RANGE && secant < guess * SLOPE_RANGE) slope = secant;
    }
    before = x;
    valueBefore = value;
    const next = x - value / slope;
    // a step this small is the end, even where rounding puts it outside the bracket
    if (Math.abs(next - x) <= absolute) return next;
    const inside = next > low && next < high ? next : 0.5 * (low + high);
    if (!Number.isFinite(inside)) return x;
    x = inside;
  }
  return x;
}
