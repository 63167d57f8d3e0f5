import { raise } from '../../faults/issue.ts';
import { type LatticeLine, latticeLine, primeFrom, randomStream } from '../../numerics/lattice.ts';
import { normalScore } from '../../numerics/normal.ts';
import { type Spread, spreadAt } from './spread.ts';

/**
 * The spread of a project's hours from the spread of what is not known beforehand. Hours and minutes, no SI here.
 *
 * Every kind of unit draws its own value of every factor, the same for all its units; a factor that is `shared` is drawn once for
 * the project.
 */

/** What a factor acts on. */
export type RiskTarget = 'water' | 'ambient' | 'access' | 'learning' | 'leaks';

export interface RiskFactor {
  readonly on: RiskTarget;
  readonly spread: Spread;
  readonly shared: boolean;
}

/** One row of units, all numbers for one unit. */
export interface RiskRow {
  readonly count: number;
  /** rows of one group share their draws */
  readonly group: number;
  /** minutes attended that access and learning act on: set-up, hold readings, breaks, charging, pack-up */
  readonly steady: number;
  /** minutes attended that nothing acts on, such as travel */
  readonly fixed: number;
  /** minutes of pump time from check to check, and attended for one check; no checks where the interval is 0 */
  readonly checkInterval: number;
  readonly checkMinutes: number;
  /** minutes waited besides the pull: hold */
  readonly hold: number;
  /**
   * Minutes of the pull at the scores of the options: a line of ambient scores for each score of water, one after another. One
   * number where neither factor acts on this row. Between the scores the minutes go in straight lines, and on beyond the ends.
   */
  readonly pull: ArrayLike<number>;
}

export interface RiskOptions {
  /** standard scores of water and ambient at which the rows give their pull; [0] where there is no such factor */
  readonly waterScores: readonly number[];
  readonly ambientScores: readonly number[];
  /** at least so many scenarios; default 10,000 */
  readonly scenarios?: number;
  readonly seed?: number;
  /** what an hour waited counts against an hour attended, for the drivers; default 0 */
  readonly waitingWeight?: number;
}

export interface RiskSample {
  /** hours of each scenario; the scenarios of one set follow each other */
  readonly attended: Float64Array;
  readonly waiting: Float64Array;
  readonly setSize: number;
  readonly sets: number;
  /**
   * Variance of attended + weight x waiting hours that each factor brings when it alone varies, the others at their medians:
   * in the order of the factors, h2
   */
  readonly alone: readonly number[];
}

/** Independent sets, whose scatter tells the sampling error. */
const SETS = 8;
const SCENARIOS = 10_000;
const SEED = 1;
const MINUTES = 60;
/** Equal parts of a factor's range when it alone varies. */
const PARTS_ALONE = 200;

/** A factor by the part of its range, each part at its middle. */
interface Levels {
  /** the factor's value */
  readonly value: Float64Array;
  /** cell of the score among those of the pulls, and how far through it; ends go on straight */
  readonly cell: Uint8Array;
  readonly share: Float64Array;
}

/** Standard scores in the middles of so many equal parts; those of the sizes asked for last are kept. */
const MOST_SIZES = 8;
const scoresKept = new Map<number, Float64Array>();
function scoresOf(parts: number): Float64Array {
  let scores = scoresKept.get(parts);
  if (scores === undefined) {
    scores = Float64Array.from({ length: parts }, (_, part) => normalScore((part + 0.5) / parts));
    for (const oldest of scoresKept.keys()) if (scoresKept.size >= MOST_SIZES) scoresKept.delete(oldest);
    scoresKept.set(parts, scores);
  }
  return scores;
}

function levelsOf({ spread, on }: RiskFactor, parts: number, options: RiskOptions): Levels {
  const scores = on === 'water' ? options.waterScores : on === 'ambient' ? options.ambientScores : [0];
  const drawn = scoresOf(parts);
  const levels = { value: new Float64Array(parts), cell: new Uint8Array(parts), share: new Float64Array(parts) };
  for (let part = 0; part < parts; part++) {
    const score = drawn[part] ?? 0;
    const value = spreadAt(spread, score);
    // a leak search never gives time back
    levels.value[part] = on === 'leaks' ? Math.max(0, value) : value;
    if (scores.length < 2) continue;
    let cell = 0;
    while (cell < scores.length - 2 && score > (scores[cell + 1] ?? 0)) cell++;
    const from = scores[cell] ?? 0;
    levels.cell[part] = cell;
    levels.share[part] = (score - from) / ((scores[cell + 1] ?? 1) - from);
  }
  return levels;
}

/** A factor that is not there: one part, in which nothing changes. */
function still(value: number, scores: readonly number[]): Levels {
  const middle = Math.max(0, scores.indexOf(0));
  const cell = Math.max(0, Math.min(middle, scores.length - 2));
  return { value: Float64Array.of(value), cell: Uint8Array.of(cell), share: Float64Array.of(middle - cell) };
}

/** The values that leave a row as it is. */
const NEUTRAL: Readonly<Record<RiskTarget, number>> = { water: 1, ambient: 0, access: 1, learning: 1, leaks: 0 };
const TARGETS = ['water', 'ambient', 'access', 'learning', 'leaks'] as const satisfies readonly RiskTarget[];
type ByTarget<T> = Record<RiskTarget, T>;

const byTarget = <T>(of: (target: RiskTarget) => T): ByTarget<T> => ({
  water: of('water'),
  ambient: of('ambient'),
  access: of('access'),
  learning: of('learning'),
  leaks: of('leaks'),
});

/** Minutes that the checks during a pull take: one at the end of every whole interval. */
export function checkMinutes(pull: number, interval: number, minutes: number): number {
  return interval > 0 ? Math.floor(pull / interval) * minutes : 0;
}

/** Steps through the parts of a factor's range. */
type Lines = ByTarget<LatticeLine>;

/**
 * Adds a row's hours to those of `count` scenarios from `from` on. One flat loop without calls or records: it is run ten million
 * times for a large project (see the bench).
 */
function addRow(
  row: RiskRow,
  levels: ByTarget<Levels>,
  lines: Lines,
  ambients: number,
  size: number,
  attended: Float64Array,
  waiting: Float64Array,
  from: number,
  count: number,
): void {
  const { steady, fixed, checkInterval, checkMinutes: perCheck, hold, pull: pulls } = row;
  const hours = row.count / MINUTES;
  const single = pulls.length === 1;
  const lastWater = pulls.length - ambients;
  const across = ambients > 1 ? 1 : 0;
  const { cell: waterCell, share: waterShare } = levels.water;
  const { cell: ambientCell, share: ambientShare } = levels.ambient;
  const accessOf = levels.access.value;
  const learningOf = levels.learning.value;
  const leaksOf = levels.leaks.value;
  const { water, ambient, access, learning, leaks } = lines;
  let iWater = water.start;
  let iAmbient = ambient.start;
  let iAccess = access.start;
  let iLearning = learning.start;
  let iLeaks = leaks.start;
  let pull = pulls[0] ?? 0;
  for (let i = from; i < from + count; i++) {
    if (!single) {
      const atWater = (waterCell[iWater] ?? 0) * ambients;
      const at = atWater + (ambientCell[iAmbient] ?? 0);
      const nextWater = atWater < lastWater ? ambients : 0;
      const s = ambientShare[iAmbient] ?? 0;
      const a = pulls[at] ?? 0;
      const c = pulls[at + nextWater] ?? 0;
      const low = a + s * ((pulls[at + across] ?? 0) - a);
      const high = c + s * ((pulls[at + nextWater + across] ?? 0) - c);
      pull = low + (waterShare[iWater] ?? 0) * (high - low);
    }
    const checks = checkInterval > 0 ? Math.floor(pull / checkInterval) * perCheck : 0;
    const factor = (accessOf[iAccess] ?? 1) * (learningOf[iLearning] ?? 1);
    const rest = pull + hold - factor * checks;
    attended[i] = (attended[i] ?? 0) + hours * (factor * (steady + checks) + (leaksOf[iLeaks] ?? 0) + fixed);
    waiting[i] = (waiting[i] ?? 0) + hours * Math.max(0, rest);
    iWater += water.step;
    if (iWater >= size) iWater -= size;
    iAmbient += ambient.step;
    if (iAmbient >= size) iAmbient -= size;
    iAccess += access.step;
    if (iAccess >= size) iAccess -= size;
    iLearning += learning.step;
    if (iLearning >= size) iLearning -= size;
    iLeaks += leaks.step;
    if (iLeaks >= size) iLeaks -= size;
  }
}

/**
 * Samples a project's attended and waiting hours.
 *
 * Attended minutes of a unit: access x learning x (steady + checks) + leaks + fixed; waiting: pull + hold, less access x learning x checks.
 * Points of rank-1 lattices, so that each draw takes each equal part of its range once in a set; eight independent sets.
 *
 * @throws wrong where two factors act on the same
 */
export function sampleRisk(rows: readonly RiskRow[], factors: readonly RiskFactor[], options: RiskOptions): RiskSample {
  checkFactors(factors);
  const setSize = primeFrom((options.scenarios ?? SCENARIOS) / SETS);
  const random = randomStream(options.seed ?? SEED);
  const ambients = options.ambientScores.length;
  const levels = levelsByTarget(factors, setSize, options);
  const total = SETS * setSize;
  const attended = new Float64Array(total);
  const waiting = new Float64Array(total);
  const acting = new Set(factors.map(({ on }) => on));
  const shared = new Set(factors.filter((factor) => factor.shared).map(({ on }) => on));
  for (let set = 0; set < SETS; set++) {
    const whole = byTarget(() => latticeLine(setSize, random));
    const ofGroup = new Map<number, Lines>();
    for (const row of rows) {
      let lines = ofGroup.get(row.group);
      if (lines === undefined) {
        lines = byTarget((on) => (!acting.has(on) ? STILL : shared.has(on) ? whole[on] : latticeLine(setSize, random)));
        ofGroup.set(row.group, lines);
      }
      addRow(row, levels, lines, ambients, setSize, attended, waiting, set * setSize, setSize);
    }
  }
  const alone = factors.map((factor) => varianceAlone(rows, factor, factors, options));
  return { attended, waiting, setSize, sets: SETS, alone };
}

/** The line of a factor that is not there. */
const STILL = { start: 0, step: 0 };

function levelsByTarget(factors: readonly RiskFactor[], parts: number, options: RiskOptions): ByTarget<Levels> {
  return byTarget((on) => {
    const factor = factors.find((one) => one.on === on);
    if (factor !== undefined) return levelsOf(factor, parts, options);
    return still(NEUTRAL[on], on === 'water' ? options.waterScores : on === 'ambient' ? options.ambientScores : [0]);
  });
}

function checkFactors(factors: readonly RiskFactor[]): void {
  for (const on of TARGETS)
    if (factors.filter((factor) => factor.on === on).length > 1)
      raise({
        kind: 'wrong',
        argument: 'On',
        found: `"${on}" in two factors`,
        allowed: 'one factor on each',
        todo: 'Put both into one spread.',
      });
}

function medianOf(on: RiskTarget, factors: readonly RiskFactor[]): number {
  return factors.find((factor) => factor.on === on)?.spread.median ?? NEUTRAL[on];
}

/** Variance (h2) of attended + weight x waiting hours when one factor alone varies and the others stand at their medians. */
function varianceAlone(
  rows: readonly RiskRow[],
  factor: RiskFactor,
  factors: readonly RiskFactor[],
  options: RiskOptions,
): number {
  const ambients = options.ambientScores.length;
  const medians = byTarget((on) =>
    still(medianOf(on, factors), on === 'water' ? options.waterScores : on === 'ambient' ? options.ambientScores : [0]),
  );
  const levels = { ...medians, [factor.on]: levelsOf(factor, PARTS_ALONE, options) };
  const weight = options.waitingWeight ?? 0;
  const lines = byTarget((on) => (on === factor.on ? { start: 0, step: 1 } : STILL));
  const groups = new Map<number, { attended: Float64Array; waiting: Float64Array }>();
  for (const row of rows) {
    const group = factor.shared ? 0 : row.group;
    const hours = groups.get(group) ?? {
      attended: new Float64Array(PARTS_ALONE),
      waiting: new Float64Array(PARTS_ALONE),
    };
    groups.set(group, hours);
    addRow(row, levels, lines, ambients, PARTS_ALONE, hours.attended, hours.waiting, 0, PARTS_ALONE);
  }
  let variance = 0;
  for (const { attended, waiting } of groups.values()) {
    const hours = attended.map((value, i) => value + weight * (waiting[i] ?? 0));
    const mean = hours.reduce((sum, value) => sum + value, 0) / PARTS_ALONE;
    variance += hours.reduce((sum, value) => sum + (value - mean) ** 2, 0) / PARTS_ALONE;
  }
  return variance;
}

/** A quantile of a sample and its standard error. */
export interface Quantile {
  readonly value: number;
  readonly error: number;
}

/** Quantile of sorted values, between the two next to it in a straight line (Hyndman and Fan 1996, type 7). */
function sortedQuantile(sorted: Float64Array, share: number): number {
  const at = share * (sorted.length - 1);
  const i = Math.min(Math.floor(at), sorted.length - 2);
  if (i < 0) return sorted[0] ?? Number.NaN;
  const from = sorted[i] ?? 0;
  return from + (at - i) * ((sorted[i + 1] ?? from) - from);
}

/** Quantiles (shares between 0 and 1) of sampled values, each with its error from the scatter between the sets. */
export function quantilesOf(values: Float64Array, sets: number, shares: readonly number[]): readonly Quantile[] {
  const size = values.length / sets;
  const all = Float64Array.from(values).sort();
  const ofSets = Array.from({ length: sets }, (_, set) => values.slice(set * size, (set + 1) * size).sort());
  return shares.map((share) => {
    const each = ofSets.map((sorted) => sortedQuantile(sorted, share));
    const mean = each.reduce((sum, value) => sum + value, 0) / sets;
    const scatter = each.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (sets - 1);
    return { value: sortedQuantile(all, share), error: Math.sqrt(scatter / sets) };
  });
}

/**
 * Mean of sampled values, with its error: from the scatter between the sets, and what they share. Each set takes the middle of the
 * same equal parts of a draw, which cuts a little off long tails; that is less than the standard deviation over the points of a set.
 */
export function meanOf(values: Float64Array, sets: number): Quantile {
  const size = values.length / sets;
  const average = (part: Float64Array): number => part.reduce((sum, value) => sum + value, 0) / part.length;
  const each = Array.from({ length: sets }, (_, set) => average(values.subarray(set * size, (set + 1) * size)));
  const value = average(values);
  const scatter = each.reduce((sum, mean) => sum + (mean - value) ** 2, 0) / (sets - 1);
  const variance = values.reduce((sum, one) => sum + (one - value) ** 2, 0) / values.length;
  return { value, error: Math.hypot(Math.sqrt(scatter / sets), Math.sqrt(variance) / size) };
}
