import { newtonPolynomial } from '../../numerics/interpolate.ts';
import { type GasLoad, isSteady } from '../evacuate/load.ts';
import type { NetworkPullDown } from './pulldown.ts';

/** Largest error that sharing may bring, as a part of the shortest time, or of a fifth of the longest where that is more. */
const SHARED_WITHIN = 2e-4;
const LEAST_PART = 0.2;
/** The error of sharing is below this, times the square of the unevenness and the time in which the gas falls by a factor of e. */
const ERROR_FACTOR = 2;
/** The first moments are over when the gas has fallen to this part; what they make uneven counts. */
const SETTLED = 0.8;
/** Points of the course around a moment through which it is interpolated, on each side. */
const EACH_SIDE = 2;

/**
 * Pull-down of a network from any start pressure by a march from the next rung of a ladder of start pressures, which whoever
 * calls may keep. Pressures that are even at the start soon run in the order that lines and rig force on them, and from
 * then on all that is left of the start is how much gas there was: times count from the moment at which the march
 * from the rung held as much gas as the network does at `start`. What the first moments make of it is of second order in
 * the unevenness that the first moments bring: where that is small, some 1 to 1.6 times its square, times the time in which
 * the gas falls by a factor of e (measured against marches of their own). Where twice that is not small against the times,
 * where the load changes with time, and where a node never gets there, the march from `start` itself is taken.
 *
 * @param start pressure everywhere at the start, Pa
 * @param target of the pull-down, Pa
 * @param march the pull-down from another start pressure (Pa), all else the same
 */
export function pullDownByRungs(
  start: number,
  target: number,
  load: GasLoad,
  march: (start: number) => NetworkPullDown,
): NetworkPullDown {
  const rung = rungAbove(start);
  if (!(target < start) || !isSteady(load) || !Number.isFinite(rung) || rung === start) return march(start);
  return orUndefined(() => counted(march(rung), start)) ?? march(start);
}

/** The lowest power of two that is not below a pressure (Pa): start pressures from one to the next share a march. */
export function rungAbove(start: number): number {
  const rung = 2 ** Math.ceil(Math.log2(start));
  return rung < start ? 2 * rung : rung;
}

/** What a march finds out may be a fault of its own start alone: the march from the start that was asked for tells. */
function orUndefined<T>(work: () => T): T | undefined {
  try {
    return work();
  } catch {
    return undefined;
  }
}

/** A pull-down with its times counted from when the mean pressure was `start`; undefined where that is not close enough. */
function counted(pull: NetworkPullDown, start: number): NetworkPullDown | undefined {
  const { course } = pull;
  const after = course.findIndex(({ mean }) => mean <= start);
  const around = course.slice(Math.max(0, after - EACH_SIDE), after + EACH_SIDE);
  const [from, to] = [course[after - 1], course[after]];
  if (from === undefined || to === undefined) return undefined;
  const began = newtonPolynomial(
    around.map(({ mean }) => Math.log(mean)),
    around.map(({ time }) => time),
    Math.log(start),
  );
  const shortest = Math.min(...pull.times) - began;
  const pace = (to.time - from.time) / Math.log(from.mean / to.mean);
  const settled = course.findIndex(({ mean }) => mean <= SETTLED * start);
  const first = course.slice(after - 1, settled < 0 ? undefined : settled + 1);
  const error = ERROR_FACTOR * Math.max(...first.map(({ unevenness }) => unevenness)) ** 2 * pace;
  const slowest = pull.slowest - began;
  // a node by the rig may be under the target while the rest is not under the start
  if (!(shortest > 0) || !Number.isFinite(slowest)) return undefined;
  if (!(error <= SHARED_WITHIN * Math.max(shortest, LEAST_PART * slowest))) return undefined;
  return { ...pull, times: pull.times.map((time) => time - began), slowest };
}
