import { fitShape, fittedPressure, type HoldData, type HoldFit } from './fits.ts';
import { noiseOf } from './prepare.ts';

/** Lengths of a longer log that are looked at, in lengths of this one. */
const LONGER = [1.25, 1.5, 2, 2.5, 3, 4, 6, 8, 12] as const;
/** Misfit squared at which a rival is out: odds of 19 to 1 and the price of an unknown more. */
const SETTLED = 2 * Math.log(19) + 3;
/** Readings that are enough to look at; a longer log counts by less noise. */
const LOOKED_AT = 60;

/**
 * Seconds of further readings, as close as so far, after which the rivals would misfit what `likely` foretells so much
 * that they are out. Undefined where twelve times the log would not do.
 */
export function secondsToSettle(likely: HoldFit, rivals: readonly HoldFit[], data: HoldData): number | undefined {
  const n = data.time.length;
  const span = data.time[n - 1] ?? 0;
  for (const factor of LONGER) {
    const readings = Math.max(Math.round(n * factor), 2);
    const shown = Math.min(readings, LOOKED_AT);
    const time = Float64Array.from({ length: shown }, (_, i) => (span * factor * i) / (shown - 1));
    const warmth = time.map(() => 1);
    const pressure = fittedPressure(likely, { time, warmth, wetness: undefined });
    const quieter = likely.scale * Math.sqrt(shown / readings);
    const noise = noiseOf(pressure, data.resolution).map((size) => size * quieter);
    const foretold: HoldData = { time, warmth, wetness: undefined, pressure, noise, resolution: data.resolution };
    const out = rivals.every(({ shape }) => (fitShape(shape, foretold)?.sum ?? Number.POSITIVE_INFINITY) > SETTLED);
    if (out) return (factor - 1) * span;
  }
  return undefined;
}
