/**
 * Second implementation of the fits to a hold test: no linear algebra of fits, but search. Each law is tried over a net of
 * its numbers that draws in around the best, least squares of the readings as they are. Shares no code with the engine.
 */
export interface Reading {
  readonly time: number;
  readonly pressure: number;
}

type Law = (numbers: readonly number[], time: number) => number;

/** Start and rise in Pa/s. */
export const straight: Law = ([start = 0, rise = 0], time) => start + rise * time;
/** Start, level and time constant. */
export const levelling: Law = ([start = 0, level = 0, tau = 1], time) =>
  level + (start - level) * Math.exp(-time / tau);

function misfit(law: Law, numbers: readonly number[], readings: readonly Reading[]): number {
  let sum = 0;
  for (const { time, pressure } of readings) sum += (law(numbers, time) - pressure) ** 2;
  return sum;
}

/** The numbers of a law that miss the readings least, from `low` to `high`: one number at a time, then along the last way. */
export function searched(
  law: Law,
  readings: readonly Reading[],
  low: readonly number[],
  high: readonly number[],
): readonly number[] {
  let best = low.map((from, i) => 0.5 * (from + (high[i] ?? from)));
  let least = misfit(law, best, readings);
  let reach = low.map((from, i) => 0.5 * ((high[i] ?? from) - from));
  const take = (tried: readonly number[]): boolean => {
    if (tried.some((value, i) => value < (low[i] ?? value) || value > (high[i] ?? value))) return false;
    const off = misfit(law, tried, readings);
    if (off >= least) return false;
    best = [...tried];
    least = off;
    return true;
  };
  for (let round = 0; round < 20_000 && (reach[0] ?? 0) > 1e-12 * Math.abs(best[0] ?? 1); round++) {
    const before = best;
    for (let i = 0; i < best.length; i++) {
      for (const sign of [1, -1]) {
        if (take(best.map((value, j) => (j === i ? value + sign * (reach[i] ?? 0) : value)))) break;
      }
    }
    const way = best.map((value, i) => value - (before[i] ?? value));
    if (way.every((one) => one === 0)) reach = reach.map((one) => 0.5 * one);
    else while (take(best.map((value, i) => value + (way[i] ?? 0))));
  }
  return best;
}
