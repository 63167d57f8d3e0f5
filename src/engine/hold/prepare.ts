import { raise } from '../../faults/issue.ts';
import { saturationPressure } from '../gas/water.ts';
import { type HoldData, ROUNDING } from './fits.ts';

/** A reading: s, Pa, and K where it is logged. */
export interface HoldReading {
  readonly time: number;
  readonly pressure: number;
  readonly temperature?: number;
}

/** Finest step of gauges of the trade: one micron of mercury, Pa. Common practice, no source. */
export const ONE_MICRON = 0.133322387415;
/** Noise that is expected of a gauge, share of its reading: sets the weights of the readings; its size is estimated. */
const EXPECTED_NOISE = 0.01;
/** A longer log is thinned to so many readings, each the median of its neighbours. */
const MOST_FITTED = 120;

/**
 * Resolution as the log shows it: its smallest step where the readings are a staircase (a third of them repeat), else one
 * micron.
 */
export function resolutionOf(pressures: readonly number[]): number {
  const steps = [...new Set(pressures)].sort((a, b) => a - b);
  if (steps.length > (2 / 3) * pressures.length) return ONE_MICRON;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 1; i < steps.length; i++) least = Math.min(least, (steps[i] ?? 0) - (steps[i - 1] ?? 0));
  return Number.isFinite(least) ? Math.max(least, ONE_MICRON) : ONE_MICRON;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? (sorted[half] ?? 0) : 0.5 * ((sorted[half - 1] ?? 0) + (sorted[half] ?? 0));
}

/** Temperatures for every reading: straight lines between those logged, held at the ends; undefined where none is. */
function temperatures(readings: readonly HoldReading[]): number[] | undefined {
  const logged = readings.flatMap(({ time, temperature }) =>
    temperature === undefined ? [] : [{ time, temperature }],
  );
  const [first] = logged;
  if (first === undefined) return undefined;
  let next = 0;
  return readings.map(({ time }) => {
    while (next < logged.length && (logged[next]?.time ?? 0) < time) next++;
    const right = logged[next];
    const left = logged[next - 1];
    if (right === undefined) return left?.temperature ?? first.temperature;
    if (left === undefined || right.time === time) return right.temperature;
    const share = (time - left.time) / (right.time - left.time);
    return left.temperature + share * (right.temperature - left.temperature);
  });
}

/** Mean of the temperatures that are logged, K; undefined where none is. */
export function meanTemperature(readings: readonly HoldReading[]): number | undefined {
  const logged = readings.flatMap(({ temperature }) => (temperature === undefined ? [] : [temperature]));
  return logged.length === 0 ? undefined : logged.reduce((sum, t) => sum + t, 0) / logged.length;
}

function check(readings: readonly HoldReading[]): void {
  if (readings.length < 3)
    raise({
      kind: 'wrong',
      argument: 'Log',
      found: `${readings.length} ${readings.length === 1 ? 'reading' : 'readings'}`,
      allowed: 'three readings or more',
      todo: 'Read the gauge at least every few minutes, and give a row for each reading.',
    });
  let last = Number.NEGATIVE_INFINITY;
  for (const { time, pressure } of readings) {
    if (!(pressure >= 0))
      raise({ kind: 'limit', argument: 'Pressure', value: pressure, rule: 'at least', limit: 0, unit: 'Pa' });
    if (!(time > last))
      raise({
        kind: 'wrong',
        argument: 'Minutes',
        found: 'not later than in the row above',
        allowed: 'rising time',
        todo: 'Sort the rows by time and remove those given twice.',
      });
    last = time;
  }
}

/** Temperatures that differ less than this (K) count as one: what a thermometer reads to. */
const SAME_TEMPERATURE = 0.2;

/** Saturation pressure at each temperature in parts of that at their mean; undefined where they hardly differ. */
function wetnessOf(kelvin: readonly number[] | undefined): number[] | undefined {
  if (kelvin === undefined || Math.max(...kelvin) - Math.min(...kelvin) < SAME_TEMPERATURE) return undefined;
  const mean = saturationPressure(kelvin.reduce((sum, t) => sum + t, 0) / kelvin.length);
  return kelvin.map((t) => saturationPressure(t) / mean);
}

/**
 * Makes a log ready for the fits.
 *
 * @param step resolution of the gauge, Pa, where it is known; else what the log shows
 * @throws wrong (under three readings, out of order), limit (a negative pressure)
 */
export function prepareHold(readings: readonly HoldReading[], step?: number): HoldData {
  check(readings);
  const resolution = step ?? resolutionOf(readings.map(({ pressure }) => pressure));
  const kelvin = temperatures(readings);
  const groups = Math.min(readings.length, MOST_FITTED);
  const group = <T>(values: readonly T[], i: number): T[] =>
    values.slice(Math.floor((i * values.length) / groups), Math.floor(((i + 1) * values.length) / groups));
  const thin = (values: readonly number[]): Float64Array =>
    Float64Array.from({ length: groups }, (_, i) => median(group(values, i)));
  const time = thin(readings.map((reading) => reading.time));
  const start = time[0] ?? 0;
  const pressure = thin(readings.map((reading) => reading.pressure));
  const first = kelvin?.[0] ?? 1;
  const wetness = wetnessOf(kelvin);
  return {
    time: time.map((t) => t - start),
    pressure,
    warmth: kelvin === undefined ? time.map(() => 1) : thin(kelvin.map((t) => t / first)),
    wetness: wetness === undefined ? undefined : thin(wetness),
    noise: noiseOf(pressure, resolution),
    resolution,
  };
}

/**
 * The same log on a gauge whose noise is alike at all its readings: the geometric mean of the sizes expected, so that the
 * likelihoods of both compare as they stand.
 */
export function withEvenNoise(data: HoldData): HoldData {
  const mean = Math.exp(data.noise.reduce((sum, size) => sum + Math.log(size), 0) / data.noise.length);
  return { ...data, noise: data.noise.map(() => mean) };
}

export function noiseOf(pressure: Float64Array, resolution: number): Float64Array {
  return pressure.map((p) => Math.hypot(ROUNDING * resolution, EXPECTED_NOISE * p));
}

/** Data without the reading at one index. */
export function without(data: HoldData, index: number): HoldData {
  const drop = (values: Float64Array): Float64Array => values.filter((_, i) => i !== index);
  const time = drop(data.time);
  const start = time[0] ?? 0;
  return {
    time: time.map((t) => t - start),
    pressure: drop(data.pressure),
    warmth: drop(data.warmth),
    wetness: data.wetness === undefined ? undefined : drop(data.wetness),
    noise: drop(data.noise),
    resolution: data.resolution,
  };
}
