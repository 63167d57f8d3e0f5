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
    return (here.gas * Math.abs(to.e0) + here.vapour * Math.abs(to.e1)) / (above * DRY_ERROR);
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

/** Lowest value of the cubic between two places h apart with values a, b and slopes of which the first falls and the second rises. */
export function lowestBetween(a: number, b: number, slopeA: number, slopeB: number, h: number): number {
  const rise = (b - a) / h;
  // slope of the cubic: slopeA + t (2 c + 3 d t), t from 0 to 1
  const c = 3 * rise - 2 * slopeA - slopeB;
  const d = slopeA + slopeB - 2 * rise;
  // it is zero once from 0 to 1
  const t = -slopeA / (c + Math.sqrt(c * c - 3 * d * slopeA));
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
    h = Math.min(h, most);
    step(course, stage, state, here, h, reached);
    const error = errorOf(stage, here, reached, scales);
    // a step so long that it leaves all numbers has no error
    const change = error >= 0 ? Math.min(GROW_MOST, Math.max(SHRINK_MOST, SAFETY / Math.cbrt(error))) : SHRINK_MOST;
    if (!(error <= 1)) {
      h *= change;
      continue;
    }
    const after0 = eventAt(stage, 0, reached, target);
    const after1 = eventAt(stage, 1, reached, target);
    if (after0 < 0 && before0 <= 0) return 0;
    if (after1 < 0 && before1 <= 0) return 1;
    let ending: Ending = 'none';
    let length = h;
    if (after0 < 0 || after1 < 0) {
      const first0 = after1 >= 0 || before0 / (before0 - after0) <= before1 / (before1 - after1);
      ending = after0 < 0 && first0 ? 0 : 1;
      length = locate(course, stage, state, scales, track, ending, h);
      const other = ending === 0 ? 1 : 0;
      if (eventAt(stage, other, reached, target) < 0) {
        ending = other;
        length = locate(course, stage, state, scales, track, other, length);
      }
    }
    if (!(reached.time < LONGEST)) return 'none';
    ratesAt(course, stage, reached, true, there);
    if (pool) {
      const turns = here.r1 < 0 && there.r1 > 0 && -length * here.j11 < SMOOTH;
      const low = turns ? lowestBetween(state.x1, reached.x1, here.r1, there.r1, length) : reached.x1;
      track.coldest = Math.min(track.coldest, low);
    }
    if (stage !== 'dry') watchPump(track, atPump);
    state.time = reached.time;
    state.x0 = reached.x0;
    state.x1 = reached.x1;
    state.x2 = reached.x2;
    if (ending !== 'none') return ending;
    const swap = here;
    here = there;
    there = swap;
    before0 = after0;
    before1 = after1;
    h *= change;
  }
  return 'none';
}

function watchPump(track: Track, atPump: AtPump): void {
  // no inlet stands above the system
  if (there.vapour <= track.wettest) return;
  track.wettest = Math.max(track.wettest, atPump(there.throughput, there.vapour / (there.gas + there.vapour)));
}

/**
 * Makes the step that went past an event again, `most` long, with lengths at which the event comes to zero, by the Illinois
 * variant of false position. Gives the length, and `reached` is where it ends: at no time where it does not come near.
 */
function locate(
  course: Course,
  stage: Stage,
  state: State,
  { water, target }: Scales,
  track: Track,
  which: 0 | 1,
  most: number,
): number {
  const near = stage === 'dry' ? NEAR * target : stage !== 'freezing' && which === 1 ? NEAR_TEMPERATURE : NEAR * water;
  let low = 0;
  let high = most;
  let atLow = eventAt(stage, which, state, target);
  let atHigh = eventAt(stage, which, reached, target);
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
  reached.time = Number.NaN;
  return Number.NaN;
}
