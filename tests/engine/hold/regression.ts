import type { HoldReading } from '../../../src/engine/hold/prepare.ts';

/** Weighted regression by hand, and what the tests of verdicts reckon with beside it. Shares nothing with the engine. */

export interface Line {
  readonly slope: number;
  /** standard error of the slope */
  readonly error: number;
  /** how many standard errors the parabola bends */
  readonly bend: number;
}

/** Sizes of noise of 1 % and of rounding to a step, and its size from the log: two readings of a prior at half of it. */
export function lineThrough(log: readonly HoldReading[], step = 1e-3): Line {
  const n = log.length;
  const first = log[0]?.time ?? 0;
  const weights = log.map(({ pressure }) => 1 / ((0.01 * pressure) ** 2 + step ** 2 / 12));
  const mean = (of: (reading: HoldReading) => number): number =>
    log.reduce((sum, one, i) => sum + (weights[i] ?? 0) * of(one), 0) / weights.reduce((a, b) => a + b, 0);
  // polynomials that are orthogonal over the readings, by Gram and Schmidt
  const time = (one: HoldReading): number => one.time - first;
  const meanTime = mean(time);
  const x = (one: HoldReading): number => time(one) - meanTime;
  const xx = mean((one) => x(one) ** 2);
  const skew = mean((one) => x(one) ** 3) / xx;
  const q = (one: HoldReading): number => x(one) ** 2 - xx - skew * x(one);
  const qq = mean((one) => q(one) ** 2);
  const level = mean(({ pressure }) => pressure);
  const slope = mean((one) => x(one) * one.pressure) / xx;
  const curve = mean((one) => q(one) * one.pressure) / qq;
  const all = weights.reduce((a, b) => a + b, 0);
  const squares = (model: (one: HoldReading) => number): number =>
    all * mean((one) => (one.pressure - model(one)) ** 2);
  const scaleOf = (sum: number, unknowns: number): number => Math.sqrt((sum + 0.5) / (n - unknowns + 2));
  const scale = Math.min(
    scaleOf(
      squares(() => level),
      1,
    ),
    // a line that falls is no leak
    slope > 0
      ? scaleOf(
          squares((one) => level + slope * x(one)),
          2,
        )
      : Number.POSITIVE_INFINITY,
  );
  return {
    slope,
    error: scale / Math.sqrt(all * xx),
    bend: (curve * Math.sqrt(all * qq)) / scale,
  };
}

/** Distribution function of the normal distribution by Simpson's rule. */
export function normalBelow(z: number): number {
  const steps = 2000;
  const width = z / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const factor = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += factor * Math.exp(-0.5 * (i * width) ** 2);
  }
  return 0.5 + (sum * width) / 3 / Math.sqrt(2 * Math.PI);
}

/** Where a condition that holds at `yes` and not at `no` ends, by halving. */
export function switchOf(holds: (x: number) => boolean, yes: number, no: number): number {
  let inside = yes;
  let outside = no;
  if (!holds(inside) || holds(outside)) throw new Error('nothing switches in between');
  for (let i = 0; i < 32; i++) {
    const middle = 0.5 * (inside + outside);
    if (holds(middle)) inside = middle;
    else outside = middle;
  }
  return inside;
}
