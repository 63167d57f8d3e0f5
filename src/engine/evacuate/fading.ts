import type { Derivative, OdeResult } from '../../numerics/ode.ts';
import { integrateStiff } from '../../numerics/rodas.ts';
import { findRoot } from '../../numerics/root.ts';
import type { RigCurve } from '../rig/curve.ts';
import { excessConductance } from '../rig/speed.ts';
import { type GasLoad, LEVEL_BEFORE, loadAt } from './load.ts';

/**
 * Pull-down against a gas load that changes with time. With e = p - pu and y = ln e,
 *
 *     dy/dt = Q_load(t) / (V e) - K(e) / V.
 *
 * Once the load carries the pressure, y follows it far more slowly than the volume would empty: a stiff equation.
 */

/** Longest pull-down that is followed, s: one year. */
const LONGEST = 365 * 86_400;
/** Largest error of ln(excess pressure) in one step. */
const STEP_ERROR = 1e-6;

/**
 * Seconds from p0 to each of the falling target pressures (Pa) under a load that fades; infinity for those that take
 * longer than a year.
 */
export function secondsUnderFadingLoad(
  curve: RigCurve,
  volume: number,
  p0: number,
  targets: readonly number[],
  load: GasLoad,
): number[] {
  const levels = targets.map((target) => Math.log(target - curve.ultimate));
  const times: number[] = [];
  const rate: Derivative = (t, y, out) => {
    const at = y[0] ?? 0;
    out[0] = (loadAt(load, t) * Math.exp(-at) - excessConductance(curve, at)) / volume;
  };
  const passed = (from: number, to: number, at: (t: number) => Float64Array): void => {
    const end = at(to)[0] ?? 0;
    for (let level = levels[times.length]; level !== undefined && end <= level; level = levels[times.length]) {
      const above = (t: number): number => (at(t)[0] ?? 0) - (level ?? 0);
      const time = findRoot(above, from, to, { absolute: 1e-9 * (to - from) });
      times.push(Number.isNaN(time) ? to : time);
    }
  };
  const follow = (from: number, to: number, y: number): OdeResult =>
    integrateStiff(rate, from, [y], to, {
      relative: 0,
      absolute: STEP_ERROR,
      onStep: passed,
      events: [(_, now) => (now[0] ?? 0) - (levels.at(-1) ?? 0)],
    });
  // two legs: the load has a corner where its power law begins
  let last = follow(0, LEVEL_BEFORE, Math.log(p0 - curve.ultimate));
  if (last.status === 'end') last = follow(LEVEL_BEFORE, LONGEST, last.y[0] ?? 0);
  // the march stops on the last target to within a rounding, which may be a hair above it
  if (last.status === 'event') times.push(last.t);
  return targets.map((_, i) => times[i] ?? Number.POSITIVE_INFINITY);
}
