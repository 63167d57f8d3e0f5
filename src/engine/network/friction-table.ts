import { hermite, hermiteSlope } from '../../numerics/interpolate.ts';
import { churchill } from '../flow/friction.ts';

/** Under this Reynolds number Churchill's friction is 64/Re to 1e-9. */
export const LAMINAR = 1000;
const FIRST = Math.log(LAMINAR);
/** Re of 1e7: no pull-down comes near it */
const LAST = Math.log(1e7);
const NODES = 470;
const STEP = (LAST - FIRST) / (NODES - 1);

/** Re^2 f/16, what friction takes per radius of length, against Re: 4 Re when laminar. */
export interface FrictionTable {
  friction(reynolds: number): number;
  /** d ln(friction)/d ln Re */
  power(reynolds: number): number;
}

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
  const at = (x: number, of: typeof hermite): number => {
    const i = Math.min(NODES - 2, Math.floor((x - FIRST) / STEP));
    const x0 = FIRST + i * STEP;
    return of(x, x0, x0 + STEP, y[i] ?? 0, y[i + 1] ?? 0, slopes[i] ?? 0, slopes[i + 1] ?? 0);
  };
  return {
    friction: (re) => (re < LAMINAR ? 4 * re : Math.exp(at(Math.min(Math.log(re), LAST), hermite)) * beyond(re)),
    power: (re) => (re < LAMINAR ? 1 : at(Math.min(Math.log(re), LAST), hermiteSlope)),
  };
}

/** Fully rough beyond the table: Re^2. */
function beyond(re: number): number {
  return Math.log(re) <= LAST ? 1 : Math.exp(2 * (Math.log(re) - LAST));
}
