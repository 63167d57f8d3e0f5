import { type Spread, spreadAt } from '../../engine/estimate/spread.ts';
import { Fault } from '../../faults/issue.ts';
import { shortNumber, wordsOf } from '../../faults/words.ts';
import { pchip } from '../../numerics/interpolate.ts';
import type { UnitRow } from '../../tables/units.ts';
import type { UnitJobs } from './unit-job.ts';

/**
 * How the pull of a row answers to its water and to Ambient: worked out at a few standard scores of both, ln(minutes) between them by
 * monotone cubics.
 */

/** Standard scores of a factor, rising, the same on both sides of 0. */
interface Scores {
  /** at which pulls are worked out */
  readonly worked: readonly number[];
  /** to which they are refined */
  readonly fine: readonly number[];
}

export interface ResponseScores {
  readonly water: Scores;
  readonly ambient: Scores;
  /** places of `water.worked` at which Ambient is changed too; first and last are among them */
  readonly anchors: readonly number[];
  readonly spreads: { readonly water: Spread | undefined; readonly ambient: Spread | undefined };
}

/** 2 n + 1 scores from -n steps to n steps; 0 is met without rounding. */
function evenScores(n: number, step: number): readonly number[] {
  return Array.from({ length: 2 * n + 1 }, (_, i) => (i - n) * step);
}

const ONE: Scores = { worked: [0], fine: [0] };
/** As many wet rows are worked out finely: a dry-out takes some 50 us (npm run bench). */
export const FINE_ROWS = 200;
const FINE = { water: evenScores(4, 0.6), ambient: evenScores(2, 1.2), anchors: [0, 1, 2, 3, 4, 5, 6, 7, 8] };
/**
 * 11 pulls a row. Moves a percentile of one row's pull by less than 3 %, its mean by 0.5 %, with a spread of 0.5 on water and of 5 K on
 * ambient (measured against 25 x 25 pulls on rows of 6 to 300 L with 5 to 500 g).
 */
const COARSE = { water: evenScores(2, 1.2), ambient: evenScores(1, 2), anchors: [0, 2, 4] };
/** Scores of the refined pulls, close enough for straight lines between them: 0.3 % where ln(minutes) rises by 0.9 a score. */
const FINE_WATER = evenScores(20, 0.17);
const FINE_AMBIENT = evenScores(8, 0.43);

function isSpread(spread: Spread | undefined): boolean {
  return spread !== undefined && (spread.below > 0 || spread.above > 0);
}

/** @param wetRows how many rows that have water will be asked for */
export function responseScores(
  water: Spread | undefined,
  ambient: Spread | undefined,
  wetRows: number,
): ResponseScores {
  const grid = wetRows <= FINE_ROWS ? FINE : COARSE;
  const watered = isSpread(water);
  return {
    water: watered ? { worked: grid.water, fine: FINE_WATER } : ONE,
    ambient: isSpread(ambient) ? { worked: grid.ambient, fine: FINE_AMBIENT } : ONE,
    anchors: watered ? grid.anchors : [0],
    spreads: { water, ambient },
  };
}

/**
 * Minutes at the fine scores: a line of ambient scores for each score of water, one after another; one number where neither
 * factor acts on the row. Or the first fault on the way.
 */
export function pullResponse(unit: UnitRow, jobs: UnitJobs, scores: ResponseScores): ArrayLike<number> | Fault {
  const { spreads } = scores;
  const ownWater = jobs.waterOf(unit);
  const ownAmbient = jobs.ambientOf(unit);
  const wet = spreads.water !== undefined && ownWater > 0;
  const warm = spreads.ambient !== undefined && ownAmbient !== undefined;
  const water = wet ? scores.water : ONE;
  const ambient = warm ? scores.ambient : ONE;
  const anchors = wet ? scores.anchors : [0];
  let fault: Fault | undefined;
  const lnPull = (w: number, a: number): number => {
    if (fault !== undefined) return 0;
    const times = wet && spreads.water !== undefined ? spreadAt(spreads.water, w) : undefined;
    const shift = warm && spreads.ambient !== undefined ? spreadAt(spreads.ambient, a) : undefined;
    const changed = {
      ...unit,
      water: times === undefined ? unit.water : ownWater * times,
      ambient: shift === undefined ? unit.ambient : (ownAmbient ?? 0) + shift,
    };
    const pull = jobs.pull(changed, unit.rig);
    if (!(pull instanceof Fault)) return Math.log(pull);
    fault = told(pull, unit, times, shift);
    return 0;
  };
  // along water at the median of Ambient, and what Ambient changes of it at some waters
  const along = water.worked.map((w) => lnPull(w, 0));
  const changes = anchors.map((at) =>
    refine(
      ambient,
      ambient.worked.map((a) => (a === 0 ? 0 : lnPull(water.worked[at] ?? 0, a) - (along[at] ?? 0))),
    ),
  );
  if (fault !== undefined) return fault;
  if (scores.water.fine.length * scores.ambient.fine.length === 1) return along.map(Math.exp);
  if (water === ONE && ambient === ONE) return along.map(Math.exp);
  const fineAlong = refine(water, along);
  const width = scores.ambient.fine.length;
  const minutes = new Float64Array(scores.water.fine.length * width);
  for (let w = 0; w < scores.water.fine.length; w++) {
    // a factor that acts on other rows but not on this one leaves it as it is
    const base = fineAlong[Math.min(w, fineAlong.length - 1)] ?? 0;
    const { lower, share } = between(anchors, water, scores.water.fine[w] ?? 0);
    const from = changes[lower] ?? [];
    const to = changes[lower + 1] ?? from;
    for (let a = 0; a < width; a++) {
      const low = from[a] ?? 0;
      minutes[w * width + a] = Math.exp(base + low + share * ((to[a] ?? 0) - low));
    }
  }
  return minutes;
}

/** Between which anchors a score of water lies, and how far through. */
function between(
  anchors: readonly number[],
  { worked }: Scores,
  score: number,
): { readonly lower: number; readonly share: number } {
  if (anchors.length < 2) return { lower: 0, share: 0 };
  const at = (anchor: number): number => worked[anchors[anchor] ?? 0] ?? 0;
  let lower = 0;
  while (lower < anchors.length - 2 && score > at(lower + 1)) lower++;
  return { lower, share: (score - at(lower)) / (at(lower + 1) - at(lower)) };
}

/** Values at the worked scores, refined, straight on beyond the ends; as they are where nothing acts. */
function refine({ worked, fine }: Scores, values: readonly number[]): readonly number[] {
  if (worked.length === 1) return values;
  const curve = pchip(worked, values);
  return fine.map((score) => curve.value(score));
}

/** The fault with what was changed, so that a reader sees why a row that works by itself does not here. */
function told(fault: Fault, unit: UnitRow, times: number | undefined, shift: number | undefined): Fault {
  const changes = [
    ...(times === undefined || times === 1 ? [] : [`${shortNumber(Number(times.toPrecision(3)))} times its water`]),
    ...(shift === undefined || shift === 0
      ? []
      : [`Ambient ${shift > 0 ? '+' : ''}${shortNumber(Number(shift.toPrecision(3)))} °C`]),
  ];
  if (changes.length === 0) return fault;
  const { what, todo } = wordsOf(fault.issue);
  const issue = {
    kind: 'no-solution',
    reason: `"${unit.name}" has no answer with ${changes.join(' and ')}, which its factors allow: ${what.replace(/\.$/u, '')}`,
    todo: `Narrow the factor, or mend the row. ${todo}`,
  } as const;
  return new Fault(issue, { table: 'units', row: unit.row });
}
