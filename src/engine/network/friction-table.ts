import { churchill } from '../flow/friction.ts';

/** Under this Reynolds number Churchill's friction is 64/Re to 1e-9. */
export const LAMINAR = 1000;
const FIRST = Math.log(LAMINAR);
/** Re of 1e7: no pull-down comes near it */
const LAST = Math.log(1e7);
const NODES = 470;
const STEP = (LAST - FIRST) / (NODES - 1);

/** Re^2 f/16, what friction takes per radius of length, against Re: 4 Re when laminar. */
export interface Friction {
  taken: number;
  /** d ln(taken)/d ln Re */
  power: number;
}

/** Fills `out` at a Reynolds number. */
export type FrictionTable = (reynolds: number, out: Friction) => void;

/** Tabulates Churchill's formula for one relative roughness: cubics over the logarithms, good to 1e-4 where the flow changes over, to 3e-6 elsewhere. */
export function frictionTable(relativeRoughness: number): FrictionTable {
  const of = (x: number): number => {
    const re = Math.exp(x);
    return Math.log((re / 16) * (re * churchill(re, relativeRoughness)));
  };
  const y = Float64Array.from({ length: NODES }, (_, i) => of(FIRST + i * STEP));
  const slopes = y.map((_, i) => {
    const [a, b] = [Math.max(0, i - 1), Math.min(NODES - 1, i + 1)];
    return ((y[b] ?? 0) - (y[a] ?? 0)) / ((b - a) * STEP);
  });
  return (re, out) => {
    if (re < LAMINAR) {
      out.taken = 4 * re;
      out.power = 1;
      return;
    }
    const lnRe = Math.log(re);
    const x = Math.min(lnRe, LAST);
    const i = Math.min(NODES - 2, Math.floor((x - FIRST) / STEP));
    const y0 = y[i] ?? 0;
    const s0 = slopes[i] ?? 0;
    const s1 = slopes[i + 1] ?? 0;
    const rise = ((y[i + 1] ?? 0) - y0) / STEP;
    const bend = 3 * rise - 2 * s0 - s1;
    const twist = s0 + s1 - 2 * rise;
    const along = x - (FIRST + i * STEP);
    const u = along / STEP;
    // fully rough beyond the table: Re^2
    out.taken = Math.exp(y0 + along * (s0 + u * (bend + u * twist)) + 2 * (lnRe - x));
    out.power = s0 + u * (2 * bend + 3 * u * twist);
  };
}
