import { TRIPLE_TEMPERATURE } from '../../gas/water.ts';
import { LONGEST } from '../stages.ts';
import { type Course, noSlopes, ratesAt, type Slopes, type Stage, type State } from './rates.ts';
import { type Reached, step } from './step.ts';

/**
 * The march through one stage of a dry-out by `step`, to where the stage ends. The end is not interpolated: the last step is
 * made again with a length at which the event is met, so that it is as good as any other step.
 */

/**
 * Errors of one step that are let pass: ln of the pressure, the same once dry (of what stands above the lowest pressure), K, part
 * of the water. With the bounds on steps below they leave the times within 1e-3 and the lowest temperature within 0.05 K.
 */
const PRESSURE_ERROR = 3e-4;
const DRY_ERROR = 2e-4;
const TEMPERATURE_ERROR = 0.02;
const WATER_ERROR = 5e-5;
/** Most that ln p may fall by gas drawn off in one step: estimates of the error from wider ones are too often small by chance. */
const FALL = 0.4;
/** How near an event is met: K, part of the water or of the target. */
const NEAR_TEMPERATURE = 1e-3;
const NEAR = 1e-5;

const SAFETY = 0.9;
const SHRINK_MOST = 0.2;
const GROW_MOST = 4;
/** First step of a stage, as a part of the time in which the fastest unknown would change by its own scale. */
const FIRST = 0.1;
const MOST_TRIES = 600;
const MOST_LOCATIONS = 30;
/** Steps up to this many time constants of the pool are smooth enough for a cubic between their ends. */
const SMOOTH = 4;

/** What is gathered on the way, and how many steps were tried. */
export interface Track {
  coldest: number;
  wettest: number;
  tries: number;
}

/** How a stage ended: by its first or second event, or not at all. */
export type Ending = 0 | 1 | 'none';

/** What scales the errors and events of a stage. */
export interface Scales {
  /** kg at the start */
  readonly water: number;
  /** Pa */
  readonly target: number;
  readonly lowest: number;
}

/** Value that falls to zero at the end of a stage: event 0 or 1. */
function eventAt(stage: Stage, which: 0 | 1, { x0, x1, x2 }: State, target: number): number {
  switch (stage) {
    case 'liquid':
      return which === 0 ? x2 : x1 - TRIPLE_TEMPERATURE;
    case 'ice':
      return which === 0 ? x2 : TRIPLE_TEMPERATURE - x1;
    case 'freezing':
      return which === 0 ? x2 - x1 : x1;
    case 'dry':
      return which === 0 ? Math.exp(x0) + Math.exp(x1) - target : 1;
  }
}

/** Error of the step in parts of what is let pass. */
function errorOf(stage: Stage, here: Slopes, to: Reached, { water, lowest }: Scales): number {
  const pressure = here.gas + here.vapour;
  if (stage === 'dry') {
    const above = Math.max(pressure - lowest, 1e-9 * pressure);
    const miss = Math.abs(here.gas * to.e0 + here.vapour * to.e1) / above;
    return Math.max(miss, (Math.abs(to.e0) * here.gas) / pressure) / DRY_ERROR;
  }
  const gas = (Math.abs(to.e0) * here.gas) / (pressure * PRESSURE_ERROR);
  const second = Math.abs(to.e1) / (stage === 'freezing' ? WATER_ERROR * water : TEMPERATURE_ERROR);
  return Math.max(gas, second, Math.abs(to.e2) / (WATER_ERROR * water));
}

function firstStep(stage: Stage, here: Slopes, { water }: Scales): number {
  const pressure = here.gas + here.vapour;
  const second = Math.abs(here.r1) / (stage === 'freezing' ? water : stage === 'dry' ? 1 : 10);
  const fastest = Math.max((Math.abs(here.r0) * here.gas) / pressure, second, Math.abs(here.r2) / water);
  return FIRST / fastest;
}

const reached: Reached = {
  ...{ time: Number.NaN, x0: Number.NaN, x1: Number.NaN, x2: Number.NaN },
  ...{ e0: Number.NaN, e1: Number.NaN, e2: Number.NaN },
};
let here: Slopes = noSlopes();
let there: Slopes = noSlopes();

/** Vapour pressure at the pump inlet, Pa, for a throughput (Pa m3/s) and mole fraction of vapour. */
export type AtPump = (throughput: number, fraction: number) => number;

/** Lowest value between two places h apart with values a, b and slopes; only asked where the slope turns from fall to rise. */
function lowestBetween(a: number, b: number, slopeA: number, slopeB: number, h: number): number {
  const rise = (b - a) / h;
  // slope of the cubic: slopeA + t (2 c + 3 d t), t from 0 to 1
  const c = 3 * rise - 2 * slopeA - slopeB;
  const d = slopeA + slopeB - 2 * rise;
  const root = Math.sqrt(Math.max(0, c * c - 3 * d * slopeA));
  const t = -slopeA / (c + root);
  if (!(t > 0 && t < 1)) return Math.min(a, b);
  return a + h * t * (slopeA + t * (c + t * d));
}

/** Marches `state` to the end of its stage. */
export function marchStage(
  course: Course,
  stage: Stage,
  state: State,
  scales: Scales,
  track: Track,
  atPump: AtPump,
): Ending {
  const { target } = scales;
  const pool = stage === 'liquid' || stage === 'ice';
  ratesAt(course, stage, state, true, here);
  let h = firstStep(stage, here, scales);
  let before0 = eventAt(stage, 0, state, target);
  let before1 = eventAt(stage, 1, state, target);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    track.tries++;
    const most = (FALL * (here.gas + here.vapour)) / (Math.abs(here.r0) * here.gas);
    if (h > most) h = most;
    step(course, stage, state, here, h, reached);
    const error = errorOf(stage, here, reached, scales);
    if (!(error <= 1)) {
      h *= error < 1e6 ? Math.max(SHRINK_MOST, SAFETY / Math.cbrt(error)) : SHRINK_MOST;
      continue;
    }
    let ending: Ending = 'none';
    const after0 = eventAt(stage, 0, reached, target);
    const after1 = eventAt(stage, 1, reached, target);
    const hit0 = after0 <= 0 && before0 > 0;
    const hit1 = after1 <= 0 && before1 > 0;
    if ((after0 < 0 && before0 <= 0) || (after1 < 0 && before1 <= 0)) return after0 < 0 && before0 <= 0 ? 0 : 1;
    let length = h;
    if (hit0 || hit1) {
      const first: 0 | 1 = hit0 && (!hit1 || before0 / (before0 - after0) <= before1 / (before1 - after1)) ? 0 : 1;
      length = locate(
        course,
        stage,
        state,
        scales,
        track,
        first,
        h,
        first === 0 ? before0 : before1,
        first === 0 ? after0 : after1,
      );
      const other = eventAt(stage, first === 0 ? 1 : 0, reached, target);
      if (other < 0 && (first === 0 ? hit1 : hit0)) {
        ending = first === 0 ? 1 : 0;
        const from = first === 0 ? before1 : before0;
        length = locate(course, stage, state, scales, track, ending, length, from, other);
      } else ending = first;
      if (!(length >= 0)) return 'none';
    }
    if (stage !== 'dry') {
      ratesAt(course, stage, reached, true, there);
      if (pool) {
        if (here.r1 < 0 && there.r1 > 0 && -length * here.j11 < SMOOTH) {
          const low = lowestBetween(state.x1, reached.x1, here.r1, there.r1, length);
          if (low < track.coldest) track.coldest = low;
        }
        if (reached.x1 < track.coldest) track.coldest = reached.x1;
      }
      watchPump(track, atPump);
    } else ratesAt(course, stage, reached, true, there);
    state.time = reached.time;
    state.x0 = reached.x0;
    state.x1 = reached.x1;
    state.x2 = reached.x2;
    // the last step may be the one that takes long
    if (!(state.time < LONGEST)) return 'none';
    if (ending !== 'none') return ending;
    const swap = here;
    here = there;
    there = swap;
    before0 = after0;
    before1 = after1;
    h *= error > 0 ? Math.min(GROW_MOST, Math.max(SHRINK_MOST, SAFETY / Math.cbrt(error))) : GROW_MOST;
  }
  return 'none';
}

function watchPump(track: Track, atPump: AtPump): void {
  // no inlet stands above the system
  if (there.vapour <= track.wettest) return;
  const wet = atPump(there.throughput, there.vapour / (there.gas + there.vapour));
  if (wet > track.wettest) track.wettest = wet;
}

/**
 * Makes the step again with lengths at which an event comes to zero, by the Illinois variant of false position; NaN where it
 * does not come near. `reached` is where it ends.
 */
function locate(
  course: Course,
  stage: Stage,
  state: State,
  { water, target }: Scales,
  track: Track,
  which: 0 | 1,
  most: number,
  before: number,
  after: number,
): number {
  const near = stage === 'dry' ? NEAR * target : stage !== 'freezing' && which === 1 ? NEAR_TEMPERATURE : NEAR * water;
  let low = 0;
  let high = most;
  let atLow = before;
  let atHigh = after;
  let side = 0;
  for (let i = 0; i < MOST_LOCATIONS; i++) {
    const h = (low * atHigh - high * atLow) / (atHigh - atLow);
    track.tries++;
    step(course, stage, state, here, h, reached);
    const value = eventAt(stage, which, reached, target);
    if (Math.abs(value) <= near) return h;
    if (value > 0) {
      low = h;
      atLow = value;
      if (side === 1) atHigh *= 0.5;
      side = 1;
    } else {
      high = h;
      atHigh = value;
      if (side === -1) atLow *= 0.5;
      side = -1;
    }
  }
  return Number.NaN;
}
