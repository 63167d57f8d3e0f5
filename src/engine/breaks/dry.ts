import { findRoot } from '../../numerics/root.ts';
import { integrateToEvent } from '../../numerics/to-event.ts';
import { loadAt } from '../evacuate/load.ts';
import { type Balance, type Contents, type Surroundings, totalPressure, vapourPerPascal } from './contents.ts';
import type { Outflow } from './outflow.ts';

const TOLERANCE = 2e-7;
const MOST_STEPS = 20_000;

/**
 * A pull without a pool down to a pressure (Pa), or until a time (s) where that comes first. Gases and vapour leave together,
 * so without a load their ratios stay and the time is one integral over the pressure.
 */
export function dryPull(
  around: Surroundings,
  outflow: Outflow,
  start: Contents,
  target: number,
  until: number,
  balance?: Balance,
): Contents | undefined {
  const { volume, load } = around;
  const pressure = totalPressure(start);
  if (pressure <= target) return start;
  if (load.leak > 0 || load.outgassing > 0) return loadedPull(around, outflow, start, target, until, balance);
  const fraction = start.vapour / pressure;
  const secondsTo = (end: number): number => volume * outflow.secondsPerVolume(pressure, end, fraction);
  const seconds = secondsTo(target);
  if (start.time + seconds <= until) return scaled(start, target / pressure, start.time + seconds, balance, around);
  const { ultimate } = outflow.dry;
  const miss = (x: number): number => secondsTo(ultimate + Math.exp(x)) - (until - start.time);
  const x = findRoot(miss, Math.log(target - ultimate), Math.log(pressure - ultimate));
  return scaled(start, (ultimate + Math.exp(x)) / pressure, until, balance, around);
}

function scaled(
  start: Contents,
  part: number,
  time: number,
  balance: Balance | undefined,
  around: Surroundings,
): Contents {
  if (balance !== undefined) {
    balance.firstOff += (1 - part) * start.first * around.volume;
    balance.vapourOff += (1 - part) * start.vapour * vapourPerPascal(around);
  }
  return { ...start, time, first: part * start.first, fed: part * start.fed, vapour: part * start.vapour };
}

function loadedPull(
  around: Surroundings,
  outflow: Outflow,
  start: Contents,
  target: number,
  until: number,
  balance: Balance | undefined,
): Contents | undefined {
  const { volume, load } = around;
  const rates = (t: number, y: Float64Array, rate: Float64Array): void => {
    const first = Math.max(0, y[0] ?? 0);
    const fed = Math.max(0, y[1] ?? 0);
    const vapour = Math.max(0, y[2] ?? 0);
    const pressure = first + fed + vapour;
    const speed = pressure > 0 ? outflow.throughput(pressure, vapour / pressure) / pressure : 0;
    const leaking = loadAt(load, t);
    rate[0] = (leaking - first * speed) / volume;
    rate[1] = (-fed * speed) / volume;
    rate[2] = (-vapour * speed) / volume;
    rate[3] = first * speed;
    rate[4] = leaking;
  };
  const small = 1e-3 * TOLERANCE * target;
  const begin = [start.first, start.fed, start.vapour, 0, 0];
  const { t, y, stuck } = integrateToEvent(rates, start.time, begin, until, {
    relative: TOLERANCE,
    absolute: [small, small, small, small * volume, small * volume],
    mostSteps: MOST_STEPS,
    events: [(_, y) => (y[0] ?? 0) + (y[1] ?? 0) + (y[2] ?? 0) - target],
  });
  if (stuck) return undefined;
  if (balance !== undefined) {
    balance.firstOff += y[3] ?? 0;
    balance.firstIn += y[4] ?? 0;
    balance.vapourOff += (start.vapour - Math.max(0, y[2] ?? 0)) * vapourPerPascal(around);
  }
  return {
    ...start,
    time: t,
    first: Math.max(0, y[0] ?? 0),
    fed: Math.max(0, y[1] ?? 0),
    vapour: Math.max(0, y[2] ?? 0),
  };
}
