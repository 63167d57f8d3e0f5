import { GOLDEN, goldenMinimum } from '../../numerics/golden.ts';
import { linearFit } from '../../numerics/linear-fit.ts';
import type { Shape, Span } from './shapes.ts';

/** Readings made ready for the fits: time from the first reading (s), pressure (Pa), expected size of noise (Pa). */
export interface HoldData extends Span {
  readonly pressure: Float64Array;
  readonly noise: Float64Array;
  /** Pa */
  readonly resolution: number;
}

export interface HoldFit {
  readonly shape: Shape;
  readonly weights: Float64Array;
  readonly errors: Float64Array;
  /** time constant, s; 0 where the shape has none */
  readonly constant: number;
  /** residuals squared, in units of the expected noise */
  readonly sum: number;
  /** estimated size of the noise, in units of the expected noise */
  readonly scale: number;
  /** -2 ln(likelihood), up to what all fits share */
  readonly deviance: number;
  /** Akaike's criterion with the correction for few readings; Infinity where there are too few for the shape */
  readonly aicc: number;
}

const COARSE = 28;
const REFINE = 18;

/**
 * What gauges do is known beforehand to some extent: counts as two readings with noise of half the expected size, so that
 * a few readings that lie well by chance are not taken for an exact gauge. Our choice.
 */
const PRIOR_READINGS = 2;
const PRIOR_SQUARE = 0.25;

/** Least squares of one shape; undefined where no admissible one is found. */
export function fitShape(shape: Shape, data: HoldData): HoldFit | undefined {
  const n = data.time.length;
  const span = at(data.time, n - 1) - at(data.time, 0);
  const tryAt = (constant: number): HoldFit | undefined => fitAt(shape, data, constant);
  const range = shape.range(span, span / Math.max(n - 1, 1));
  if (range === undefined) return tryAt(0);
  const [low, high] = range;
  if (!(high > low)) return undefined;
  const step = Math.log(high / low) / (COARSE - 1);
  let best: HoldFit | undefined;
  const better = (fit: HoldFit | undefined): void => {
    if (fit !== undefined && (best === undefined || fit.sum < best.sum)) best = fit;
  };
  for (let i = 0; i < COARSE; i++) better(tryAt(low * Math.exp(i * step)));
  if (best === undefined) return undefined;
  const middle = Math.log(best.constant);
  const from = Math.max(middle - step, Math.log(low));
  const to = Math.min(middle + step, Math.log(high));
  const sumAt = (ln: number): number => {
    const fit = tryAt(Math.exp(ln));
    better(fit);
    return fit?.sum ?? Number.POSITIVE_INFINITY;
  };
  goldenMinimum(sumAt, from, to, (to - from) * GOLDEN ** REFINE);
  return best;
}

function fitAt(shape: Shape, data: HoldData, constant: number): HoldFit | undefined {
  const { noise } = data;
  const known = shape.known?.(data, constant);
  const scaled = (column: Float64Array): Float64Array => column.map((value, i) => value / at(noise, i));
  const columns = shape.columns(data, constant).map(scaled);
  const y = scaled(data.pressure.map((p, i) => p - (known === undefined ? 0 : at(known, i))));
  const fit = linearFit(columns, y);
  if (fit === undefined || !shape.allows(fit.x)) return undefined;
  const n = y.length;
  const variance = (fit.sum + PRIOR_READINGS * PRIOR_SQUARE) / (n + PRIOR_READINGS);
  const deviance = (n + PRIOR_READINGS) * Math.log(Math.max(variance, finest(data)));
  // the size of the noise is an unknown too
  const k = shape.unknowns + 1;
  const room = n - k - 1;
  const aicc = room > 0 ? deviance + 2 * k + (2 * k * (k + 1)) / room : Number.POSITIVE_INFINITY;
  const freedom = Math.max(n - shape.unknowns, 1) + PRIOR_READINGS;
  const scale = Math.sqrt(Math.max((fit.sum + PRIOR_READINGS * PRIOR_SQUARE) / freedom, finest(data)));
  return { shape, weights: fit.x, errors: fit.errors, constant, sum: fit.sum, scale, deviance, aicc };
}

/** Square of the least noise that a gauge of this resolution has, in units of the expected noise. */
function finest({ noise, resolution }: HoldData): number {
  let sum = 0;
  for (let i = 0; i < noise.length; i++) sum += (ROUNDING * resolution) ** 2 / at(noise, i) ** 2;
  return sum / noise.length;
}

/** Standard deviation of rounding to a step of one: the uniform distribution, 1/sqrt(12). */
export const ROUNDING = 1 / Math.sqrt(12);

/** Pressure of a fit at the readings of `span`, Pa. */
export function fittedPressure({ shape, weights, constant }: HoldFit, span: Span): Float64Array {
  const known = shape.known?.(span, constant);
  const columns = shape.columns(span, constant);
  return span.time.map((_, i) =>
    columns.reduce((sum, column, j) => sum + at(weights, j) * at(column, i), known === undefined ? 0 : at(known, i)),
  );
}

export function fitAll(shapes: readonly Shape[], data: HoldData): HoldFit[] {
  return shapes.flatMap((shape) => fitShape(shape, data) ?? []);
}

function at(values: ArrayLike<number>, i: number): number {
  return values[i] ?? 0;
}
