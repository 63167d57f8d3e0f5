import { raise } from '../../faults/issue.ts';
import { bestOf, readingsAndFits, trendOf } from './bad-reading.ts';
import { fitAll, type HoldFit } from './fits.ts';
import { type HoldReading, ONE_MICRON, prepareHold } from './prepare.ts';
import { secondsToSettle } from './settle.ts';
import { type Cause, holdShapes } from './shapes.ts';

/** Why a log has no verdict. */
export type Doubt =
  /** too few readings, or too short a time */
  | 'few'
  | 'short'
  /** level within the noise, yet a rise that matters is not ruled out */
  | 'noise'
  /** level within a step of the gauge, which could hide a rise that matters */
  | 'resolution'
  /** two causes fit about alike */
  | 'alike'
  | 'falling'
  | 'speeding up';

export interface HoldVerdict {
  readonly cause: Cause | undefined;
  readonly doubt: Doubt | undefined;
  /** the cause that fits best, verdict or not */
  readonly leaning: Cause;
  /** probability of the verdict by the weights of the criterion; of the leaning where there is none */
  readonly probability: number;
  /** by falling weight, those that count */
  readonly weights: readonly (readonly [Cause, number])[];
  /** Pa/s at the end of the log; tight: the most that the noise may hide; without a verdict: the straight line's */
  readonly rise: number;
  /** Pa m3/s, volume times rise */
  readonly rate: number;
  /** Pa, where the pressure levels off */
  readonly level: number | undefined;
  /** s, of moisture or outgassing */
  readonly constant: number | undefined;
  /** s, length of the log */
  readonly span: number;
  /** Pa, step of the gauge that was reckoned with */
  readonly resolution: number;
  /** Pa at the last reading */
  readonly last: number;
  /** s, of the reading that was left out, from the first one */
  readonly badTime: number | undefined;
  /** s of further readings that would settle it; undefined: none needed, or no number of them would */
  readonly moreTime: number | undefined;
}

export interface HoldSettings {
  /** m3 */
  readonly volume: number;
  /** vapour pressure of water at the temperature of the walls, Pa */
  readonly saturation: number;
  /** Pa, step of the gauge; default: one micron, or the steps that the log shows */
  readonly resolution?: number;
}

/** Fewest readings with which shapes can be told apart. */
export const FEWEST_READINGS = 6;
/** Shortest log, s: before that gas and gauge have not settled after valving off. Our choice. */
export const SHORTEST_LOG = 300;
/**
 * Rise that counts as none, Pa/s: 100 micron an hour, half of what a guide specification allows in an hour's hold (from
 * 300 to 500 micron). A figure of practice, not of physics.
 */
export const TIGHT_RISE = (100 * ONE_MICRON) / 3600;
/** Weight from which a verdict is given. */
export const VERDICT_WEIGHT = 0.95;
/** What a leaning that other tests keep from being a verdict is given at most. */
const UNSURE = 0.9;
/** The combination is weighed only where it beats every single cause by so much in the criterion. */
const DEMANDED = 10;
/**
 * Moisture on its way to the saturation pressure with a time constant (s) up to this is reckoned with, however short the
 * log, at odds of one to four against a leak beforehand. Our choice.
 */
const SLOW_MOISTURE = 6 * 3600;
const SLOW_ODDS = 1 / 4;
/** Outgassing must beat moisture by so much: a drift of two kelvin that is not logged can bend one into the other. */
const NOT_MOISTURE = 9;
/** Highest probability that is told: no log rules out what nobody thought of. */
const MOST_SURE = 0.999;
/** What an unknown costs in Akaike's criterion for many readings. */
const UNKNOWN = 2;
/** A slower shape rules a straight rise out as the verdict where it is better by so much. */
const CLOSE = 2;
/** The combination rules a single cause out where it is better by so much, though it is not weighed. */
const BETTER = 0.5;
/** Standard errors: a rise that shows, a fall that shows, a bend upwards that shows. */
const SHOWS = 2.5;
const FALLS = 3;
const BENDS_UP = 3.5;
/** A bent shape must be better than a level one by so much before it speaks against it. */
const BENT = 4;
/** Readings that span no more than a step of the gauge, with what rounding in binary does to it. */
const STEP = 1.001;
/** One-sided 95 % limit of the normal distribution, and what it grows by with few readings (Student, to 1 % from 4 on). */
const ONE_SIDED = 1.645;
const STUDENT = 1.9;

interface Ranked {
  readonly cause: Cause;
  readonly weight: number;
  readonly fit: HoldFit;
}

/** Causes with their weights exp(-AICc/2), each by its best fit, summing to one, the likeliest first. */
function weigh(fits: readonly HoldFit[]): readonly Ranked[] {
  const best = new Map<Cause, HoldFit>();
  for (const fit of fits) {
    const known = best.get(fit.shape.cause);
    if (Number.isFinite(fit.aicc) && (known === undefined || fit.aicc < known.aicc)) best.set(fit.shape.cause, fit);
  }
  const both = best.get('leak and moisture');
  const single = bestOf([...best.values()].filter((fit) => fit !== both));
  if (both !== undefined && single !== undefined && both.aicc > single.aicc - DEMANDED)
    best.delete('leak and moisture');
  const least = Math.min(...[...best.values()].map((fit) => fit.aicc));
  const raw = [...best].map(([cause, fit]) => ({ cause, fit, weight: Math.exp(0.5 * (least - fit.aicc)) }));
  const total = raw.reduce((sum, { weight }) => sum + weight, 0);
  return raw.map((each) => ({ ...each, weight: each.weight / total })).sort((a, b) => b.weight - a.weight);
}

const aiccOf = (fits: readonly HoldFit[], cause: Cause): number =>
  Math.min(...fits.filter(({ shape }) => shape.cause === cause).map(({ aicc }) => aicc));

/**
 * The cause with enough weight for a verdict. A bent shape must win against slow ones too; a straight rise only against
 * those that would show their bend in this log, as long as no slow one fits clearly better.
 */
function winner(fits: readonly HoldFit[], slow: readonly HoldFit[], near: readonly Ranked[]): Ranked | undefined {
  const [bent] = weigh([...fits, ...slow]);
  const both = aiccOf(fits, 'leak and moisture');
  const clear = (top: Ranked | undefined): top is Ranked =>
    top !== undefined &&
    top.weight >= VERDICT_WEIGHT &&
    (top.cause === 'leak and moisture' || both > top.fit.aicc - BETTER);
  if (clear(bent) && bent.cause !== 'leak' && bent.cause !== 'tight') {
    const moist = aiccOf([...fits, ...slow], 'moisture');
    return bent.cause === 'outgassing' && moist < bent.fit.aicc + NOT_MOISTURE ? undefined : bent;
  }
  const [top] = near;
  if (!clear(top) || top.cause !== 'leak') return undefined;
  const straight = Math.min(
    ...fits
      .filter(({ shape }) => shape.cause === 'moisture' || shape.cause === 'outgassing')
      .map((fit) => fit.deviance),
  );
  const slowest = Math.min(...slow.map(({ aicc }) => aicc));
  // from few readings AICc shuts bent shapes out by their unknowns alone: then they must fit worse as well
  const likelihood = 1 / (1 + Math.exp(-0.5 * (straight - top.fit.deviance + UNKNOWN)));
  const weight = Math.min(top.weight, likelihood, againstSlowMoisture(top, slow));
  return weight >= VERDICT_WEIGHT && slowest > top.fit.aicc - CLOSE ? { ...top, weight } : undefined;
}

/** Weight of a straight rise as a leak against the slow moisture that it might as well be. */
function againstSlowMoisture({ fit }: Ranked, slow: readonly HoldFit[]): number {
  // what is known beforehand is the saturation pressure
  const rivals = slow.filter(({ shape, constant }) => shape.known !== undefined && constant <= SLOW_MOISTURE);
  const best = bestOf(rivals);
  return best === undefined ? 1 : 1 / (1 + SLOW_ODDS * Math.exp(0.5 * (fit.aicc - best.aicc)));
}

/** Distribution function of the normal distribution, to 1e-7. Source: Abramowitz and Stegun 26.2.17. */
function normalBelow(z: number): number {
  const k = 1 / (1 + 0.2316419 * Math.abs(z));
  const poly = k * (0.31938153 + k * (-0.356563782 + k * (1.781477937 + k * (-1.821255978 + k * 1.330274429))));
  const tail = (Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI)) * poly;
  return z > 0 ? 1 - tail : tail;
}

function spread(values: Float64Array): number {
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (const value of values) {
    least = Math.min(least, value);
    most = Math.max(most, value);
  }
  return most - least;
}

function levelOf(fit: HoldFit, saturation: number): number | undefined {
  if (fit.shape.cause !== 'moisture') return undefined;
  return fit.shape.known === undefined ? (fit.weights[0] ?? 0) + (fit.weights[1] ?? 0) : saturation;
}

/**
 * Reads a hold test: tight, leak, moisture, outgassing, leak and moisture, or no verdict yet.
 *
 * Each shape of `shapes.ts` is fitted by least squares weighted with the noise that a gauge of this resolution has at
 * each reading; Akaike's criterion for few readings (AICc) weighs them. A verdict needs a weight of 95 %; a tight one that
 * the rise, with 95 % certainty, is under `TIGHT_RISE`. Gas that is shut in follows logged temperature as an ideal gas,
 * vapour over its water does not. One bad reading is left out.
 *
 * @throws wrong (fewer than three readings, times that do not rise), limit (volume, pressure)
 */
export function readHold(
  readings: readonly HoldReading[],
  { volume, saturation, resolution }: HoldSettings,
): HoldVerdict {
  if (!(volume > 0)) raise({ kind: 'limit', argument: 'Volume', value: volume, rule: 'above', limit: 0, unit: 'm3' });
  const prepared = prepareHold(readings, resolution);
  const drifting = prepared.wetness !== undefined;
  const { data, fits, bad } = readingsAndFits(holdShapes(saturation, false, drifting), prepared);
  const n = data.time.length;
  const span = data.time[n - 1] ?? 0;
  const slow = fitAll(holdShapes(saturation, true, drifting), data);
  const ranked = weigh(fits);
  const [top] = ranked;
  const scale = Math.min(...fits.map((fit) => fit.scale));
  const trend = trendOf(data, scale);
  const sizes = trend.slope / trend.slopeError;
  const shared = {
    span,
    resolution: data.resolution,
    last: prepared.pressure.at(-1) ?? 0,
    badTime: bad === undefined ? undefined : prepared.time[bad],
    weights: ranked.map(({ cause, weight }) => [cause, weight] as const),
  };
  const level = fits.find(({ shape }) => shape.cause === 'tight');
  const unclear = (doubt: Doubt, leaning: Cause, probability: number, moreTime?: number): HoldVerdict => ({
    ...shared,
    cause: undefined,
    doubt,
    leaning,
    probability,
    rise: trend.slope,
    rate: volume * trend.slope,
    level: undefined,
    constant: undefined,
    moreTime,
  });
  const shortBy = SHORTEST_LOG - span;
  const leaning = top?.cause ?? (sizes > SHOWS ? 'leak' : 'tight');
  const weight = top?.weight ?? 0.5;
  if (n < FEWEST_READINGS) {
    const missing = (FEWEST_READINGS - n) * (span / Math.max(n - 1, 1));
    return unclear('few', leaning, Math.min(weight, 0.5), Math.max(missing, shortBy));
  }
  if (shortBy > 0) return unclear('short', leaning, Math.min(weight, 0.5), shortBy);
  const hidden = data.resolution / TIGHT_RISE - span;
  if (hidden > 0 && spread(data.pressure) <= STEP * data.resolution)
    return unclear('resolution', 'tight', Math.min(weight, 0.5), hidden);
  if (sizes < -FALLS) return unclear('falling', 'tight', 0.5);
  if (trend.bendSize > BENDS_UP) return unclear('speeding up', leaning, Math.min(weight, 0.5));
  if (top === undefined || level === undefined) return unclear('noise', leaning, 0.5);

  if (top.cause === 'tight' || (sizes < SHOWS && top.fit.aicc > level.aicc - BENT)) {
    const reach = (ONE_SIDED + STUDENT / (n - 2)) * trend.slopeError;
    // a gauge hides up to one of its steps
    const most = Math.max(Math.max(trend.slope, 0) + reach, data.resolution / span);
    const probability = Math.min(normalBelow((TIGHT_RISE - trend.slope) / trend.slopeError), MOST_SURE);
    if (most <= TIGHT_RISE && sizes < SHOWS)
      return {
        ...shared,
        cause: 'tight',
        doubt: undefined,
        leaning: 'tight',
        probability,
        rise: most,
        rate: volume * most,
        level: undefined,
        constant: undefined,
        moreTime: undefined,
      };
    // the standard error of a slope falls as the power 3/2 of time
    const room = Math.max(TIGHT_RISE - Math.max(trend.slope, 0), 0.25 * TIGHT_RISE);
    const factor = Math.max((reach / room) ** (2 / 3), 1.25);
    return unclear('noise', 'tight', Math.min(probability, VERDICT_WEIGHT), (factor - 1) * span);
  }

  const won = winner(fits, slow, ranked);
  if (won === undefined) {
    const all = weigh([...fits, ...slow]);
    const [likeliest = top] = all;
    const blurred = top.cause === 'leak' && againstSlowMoisture(top, slow) < VERDICT_WEIGHT;
    const order = blurred || likeliest.fit.aicc < top.fit.aicc - CLOSE ? all : ranked;
    const [first = top, second, ...rest] = order;
    const rivals = [second, ...rest.filter((each) => each.weight > 0.02)].flatMap((each) => each?.fit ?? []);
    const weight = Math.min(first.weight, UNSURE);
    const verdict = unclear('alike', first.cause, weight, secondsToSettle(first.fit, rivals, data));
    return { ...verdict, weights: order.map(({ cause, weight }) => [cause, weight]) };
  }
  const { fit, cause } = won;
  const { shape, weights, constant } = fit;
  // with both causes at work, what stays is the leak
  const rise = cause === 'leak and moisture' ? (weights[1] ?? 0) : shape.rate(weights, constant, span);
  return {
    ...shared,
    cause,
    doubt: undefined,
    leaning: cause,
    probability: Math.min(won.weight, MOST_SURE),
    rise,
    rate: volume * rise,
    level: levelOf(fit, saturation),
    constant: constant > 0 ? constant : undefined,
    moreTime: undefined,
  };
}
