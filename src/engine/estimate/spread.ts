import { normalScore } from '../../numerics/normal.ts';

/**
 * How far an input of an estimate may be off.
 *
 * `factor`: multiplies what it acts on; ln x is normal on each side of the median, with a width of its own below and above (the
 * plain lognormal where both are equal). `shift`: is added; x itself is normal on each side.
 */
export interface Spread {
  readonly kind: 'factor' | 'shift';
  readonly median: number;
  /** standard deviation below and above the median: of ln x for a factor, of x for a shift */
  readonly below: number;
  readonly above: number;
}

/** Standard score of the 90th percentile of a normal variable. */
export const SCORE_90 = normalScore(0.9);

/** From a 10th, 50th and 90th percentile. A factor needs all three above 0. */
export function spreadOf(kind: Spread['kind'], low: number, likely: number, high: number): Spread {
  const width = (from: number, to: number): number => (kind === 'factor' ? Math.log(to / from) : to - from) / SCORE_90;
  return { kind, median: likely, below: width(low, likely), above: width(likely, high) };
}

/** The value at a standard score. */
export function spreadAt({ kind, median, below, above }: Spread, score: number): number {
  const off = score * (score < 0 ? below : above);
  return kind === 'factor' ? median * Math.exp(off) : median + off;
}
