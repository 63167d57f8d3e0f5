import { newtonPolynomial } from '../../numerics/interpolate.ts';
import { findRoot } from '../../numerics/root.ts';
import { preparedWithPumpSpeed } from '../rig/change.ts';
import type { RigCurve } from '../rig/curve.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import { rigCurve } from '../rig/sweep.ts';
import type { GasLoad } from './load.ts';
import { timeIfReached } from './rig-figures.ts';

/** Part of the time that twice the pump must save to be called a help; our choice. */
export const HELP = 0.05;
/** Pumps that are worked out, to a doubling; between them the part saved is interpolated, which moves the speed by 0.02 %, at most 0.15 %. */
const STEPS = 2;
/** A pump is looked for up to twelve doublings above that of the rig. */
const MOST_UP = 12 * STEPS;
/** Below it, a pump that doubling helps is always found; this ends the search where times are no numbers. */
const MOST_DOWN = 64 * STEPS;
/** Narrower than this many steps, nothing is interpolated: 0.3 % of the speed. */
const CLOSE = 1 / 128;
/** How closely the interpolation is solved, as a part of the steps that it is between. */
const ROOT = 1e-3;

/** A pull-down; SI. The volume cancels out where the load is steady. */
interface Pull {
  readonly start: number;
  readonly target: number;
  readonly load: GasLoad;
  /** the curve behind a pump of another speed (m3/s), for a caller that keeps them: the same few serve all targets */
  readonly curveAt?: (speed: number, make: () => RigCurve) => RigCurve;
}

/** The rig with other pumps, by steps of the speed from its own. */
interface Pumps {
  speedAt(step: number): number;
  /** s; undefined where the target is out of reach */
  timeAt(step: number): number | undefined;
  /** part of the time that doubling saves, all of it where the target is out of reach without; undefined where it is with, too */
  savedAt(step: number): number | undefined;
  helps(step: number): boolean;
}

/** Each pump is worked out once. */
function pumpsOf(rig: PreparedRig, { start, target, load, curveAt }: Pull): Pumps {
  const times = new Map<number, number | undefined>();
  const speedAt = (step: number): number => rig.pump.speed * 2 ** (step / STEPS);
  const timeAt = (step: number): number | undefined => {
    if (!times.has(step)) {
      const speed = speedAt(step);
      const make = (): RigCurve => rigCurve(preparedWithPumpSpeed(rig, speed));
      times.set(step, timeIfReached(curveAt?.(speed, make) ?? make(), { volume: 1, start, target, load }));
    }
    return times.get(step);
  };
  const savedAt = (step: number): number | undefined => {
    const fast = timeAt(step + STEPS);
    if (fast === undefined) return undefined;
    const slow = timeAt(step);
    return slow === undefined ? 1 : 1 - fast / slow;
  };
  return { speedAt, timeAt, savedAt, helps: (step) => (savedAt(step) ?? 1) >= HELP };
}

/** A whole number of doublings near the answer, as if the parts had one conductance C at all pressures: S = C(1/(2 HELP) - 1). */
function firstGuess({ speedAt, timeAt }: Pumps, e0: number, e1: number): number {
  const speed = speedAt(0);
  const restriction = (timeAt(0) ?? Number.NaN) / Math.log(e0 / e1) - 1 / speed;
  const doublings = Math.floor(Math.log2((1 / (2 * HELP) - 1) / (restriction * speed)));
  if (!Number.isFinite(doublings)) return 0;
  return Math.min(MOST_UP, Math.max(-MOST_DOWN, doublings * STEPS));
}

/** The step that doubling still helps while it does not a doubling further on, looked for from `first`; undefined where there is none. */
function lastThatHelps({ helps }: Pumps, first: number): number | undefined {
  let low = first;
  if (helps(low)) {
    while (low < MOST_UP && helps(low + STEPS)) low += STEPS;
    return low < MOST_UP ? low : undefined;
  }
  while (low >= -MOST_DOWN && !helps(low)) low -= STEPS;
  return low >= -MOST_DOWN ? low : undefined;
}

/** Where between `low` and `low + width` doubling saves just `HELP`: a cubic through the steps around. */
function stepOfHelp({ timeAt, savedAt }: Pumps, low: number, width: number): number {
  const steps: number[] = [];
  const excess: number[] = [];
  for (const step of [low - width, low, low + width, low + 2 * width]) {
    const saved = savedAt(step);
    // a pump that falls short of the target has a corner there
    if (saved === undefined || timeAt(step) === undefined) continue;
    steps.push(step);
    excess.push(saved - HELP);
  }
  return findRoot((step) => newtonPolynomial(steps, excess, step), low, low + width, { absolute: ROOT * width });
}

/**
 * Pump speed from which on doubling it would shorten the dry pull-down by less than `HELP`, with the same parts in front of the
 * pump, the same ultimate pressure and the same load.
 *
 * For parts of one conductance C at all pressures t ~ 1/S + 1/C, so that 1 - t(2S)/t(S) = 1/(2(1 + S/C)) and S = C(1/(2 HELP) - 1) = 9 C.
 *
 * @returns m3/s, to some 0.3 %; undefined where doubling helps at any speed (a bare pump) or the target
 * is out of reach
 */
export function helpingSpeed(rig: PreparedRig, pull: Pull): number | undefined {
  const pumps = pumpsOf(rig, pull);
  if (pumps.savedAt(0) === undefined) return undefined;
  let low = lastThatHelps(pumps, firstGuess(pumps, pull.start - rig.ultimate, pull.target - rig.ultimate));
  if (low === undefined) return undefined;
  let width = STEPS;
  // on to neighbours; and further, until the slower one of them reaches the target at all
  while (width > 1 || (pumps.timeAt(low) === undefined && width > CLOSE)) {
    width /= 2;
    if (pumps.helps(low + width)) low += width;
  }
  const step = pumps.timeAt(low) === undefined ? low + width / 2 : stepOfHelp(pumps, low, width);
  return pumps.speedAt(step);
}
