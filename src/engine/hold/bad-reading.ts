import { linearFit } from '../../numerics/linear-fit.ts';
import { fitAll, fittedPressure, type HoldData, type HoldFit } from './fits.ts';
import { withEvenNoise, without } from './prepare.ts';
import type { Shape, Span } from './shapes.ts';

/** A log and its fits, less the one reading that spoils them. */
export interface CleanLog {
  readonly data: HoldData;
  readonly fits: readonly HoldFit[];
  /** index of the reading left out */
  readonly bad: number | undefined;
}

/**
 * Residuals, in sizes of noise, beyond which a reading is looked at, and is bad (by chance once in two million). Our choice.
 * The noise is estimated with the reading in it, so that of n none lies farther off than sqrt(n + 1): it takes seven to leave one out.
 */
const LOOKED_AT = 2.8;
const BAD = 5;
/** The noise must come out so much smaller without it. */
const GAIN = 1.4;

/** Better by so much, noise that is alike everywhere is taken in place of noise in proportion to the reading. */
const EVEN_NOISE = 2;

/** The log with the kind of noise that it is likelier to have, less one bad reading. */
export function readingsAndFits(shapes: readonly Shape[], data: HoldData): CleanLog {
  const inProportion = cleanLog(shapes, data);
  const lowest = data.pressure.reduce((least, p) => Math.min(least, p), Number.POSITIVE_INFINITY);
  const highest = data.pressure.reduce((most, p) => Math.max(most, p), 0);
  // readings near each other have the same noise either way
  if (highest < ALIKE * lowest) return inProportion;
  const even = cleanLog(shapes, withEvenNoise(data));
  const deviance = ({ fits }: CleanLog): number => Math.min(...fits.map((fit) => fit.deviance));
  return deviance(even) < deviance(inProportion) - EVEN_NOISE ? even : inProportion;
}

const ALIKE = 1.3;

export function bestOf(fits: readonly HoldFit[]): HoldFit | undefined {
  return fits.reduce<HoldFit | undefined>(
    (best, fit) => (best === undefined || fit.aicc < best.aicc ? fit : best),
    undefined,
  );
}

/** The reading that lies farthest from a fit, and how many sizes of the expected noise that is. */
function farthest(fit: HoldFit, data: HoldData): { readonly index: number; readonly size: number } {
  const model = fittedPressure(fit, data);
  let index = 0;
  let most = 0;
  data.pressure.forEach((p, i) => {
    const size = Math.abs(p - (model[i] ?? p)) / (data.noise[i] ?? 1);
    if (size > most) {
      most = size;
      index = i;
    }
  });
  return { index, size: most };
}

/**
 * Leaves out one bad reading where all shapes together fit badly with it and one of them well without it: it then lies
 * more than five sizes of the noise from where the others put it.
 */
export function cleanLog(shapes: readonly Shape[], data: HoldData): CleanLog {
  const fits = fitAll(shapes, data);
  const best = bestOf(fits);
  const n = data.time.length;
  if (best === undefined || farthest(best, data).size < LOOKED_AT * best.scale) return { data, fits, bad: undefined };
  const suspects = new Set([0, n - 1, ...fits.map((fit) => farthest(fit, data).index)]);
  let found: (CleanLog & { readonly scale: number }) | undefined;
  for (const index of suspects) {
    const rest = without(data, index);
    const restFits = fitAll(shapes, rest);
    const restBest = bestOf(restFits);
    if (restBest === undefined || best.scale < GAIN * restBest.scale) continue;
    if (Math.abs(missOf(restBest, data, index)) < BAD) continue;
    if (found === undefined || restBest.scale < found.scale)
      found = { data: rest, fits: restFits, bad: index, scale: restBest.scale };
  }
  return found ?? { data, fits, bad: undefined };
}

/** How far (in sizes of noise) a reading that a fit has not seen lies from it. */
function missOf(fit: HoldFit, data: HoldData, index: number): number {
  const model = index === 0 ? fittedPressure(fit, stepBack(data))[1] : fittedPressure(fit, data)[index];
  return ((data.pressure[index] ?? 0) - (model ?? 0)) / (fit.scale * (data.noise[index] ?? 1));
}

/** From the second reading back to the first: a fit counts time, and what vapour has followed, from the first that it has seen. */
function stepBack({ time, warmth, wetness }: HoldData): Span {
  const turned = (values: Float64Array): Float64Array => values.slice(0, 2).reverse();
  return {
    time: Float64Array.of(0, -(time[1] ?? 0)),
    warmth: turned(warmth),
    wetness: wetness === undefined ? undefined : turned(wetness),
  };
}

/** Straight line and parabola through the readings: slope and bend with their standard errors. */
export interface Trend {
  /** Pa/s */
  readonly slope: number;
  readonly slopeError: number;
  /** Pa/s2, and how many standard errors that is from nothing */
  readonly bendSize: number;
}

export function trendOf({ time, pressure, noise, warmth }: HoldData, scale: number): Trend {
  const scaled = (value: (i: number) => number): Float64Array =>
    time.map((_, i) => (value(i) * (warmth[i] ?? 1)) / (noise[i] ?? 1));
  const y = time.map((_, i) => (pressure[i] ?? 0) / (noise[i] ?? 1));
  const one = scaled(() => 1);
  const rise = scaled((i) => time[i] ?? 0);
  const line = linearFit([one, rise], y);
  const parabola = linearFit([one, rise, scaled((i) => (time[i] ?? 0) ** 2)], y);
  const bendError = (parabola?.errors[2] ?? 0) * scale;
  return {
    slope: line?.x[1] ?? 0,
    slopeError: (line?.errors[1] ?? 0) * scale,
    bendSize: bendError > 0 ? (parabola?.x[2] ?? 0) / bendError : 0,
  };
}
