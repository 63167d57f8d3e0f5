import { raise } from '../../faults/issue.ts';
import { quadrature } from '../../numerics/quadrature.ts';
import { findRoot } from '../../numerics/root.ts';
import { CURVE_TOP, type RigCurve } from '../rig/curve.ts';
import { excessConductance, pressureAtTheta, thetaAt, throughputAt } from '../rig/speed.ts';
import { secondsUnderFadingLoad } from './fading.ts';
import { type GasLoad, isSteady, lastingLoad, NO_LOAD } from './load.ts';

/**
 * Pull-down of a volume through a rig: V dp/dt = -S_eff(p) p + Q_load(t). Gas in the volume stays at its temperature.
 * SI: m3, Pa, s.
 */

/** Width of a panel of ln(p - p_low) in the pull-down integral under a steady load. */
const PANEL = 0.25;

/** System pressure (Pa) at which the rig carries off just `throughput` (Pa m3/s); `CURVE_TOP` where it never does. */
export function pressureForThroughput(curve: RigCurve, throughput: number): number {
  if (throughput <= 0) return curve.ultimate;
  if (throughputAt(curve, CURVE_TOP) <= throughput) return CURVE_TOP;
  const foot = Math.log(throughput / excessConductance(curve, Number.NEGATIVE_INFINITY));
  const first = curve.x[0] ?? 0;
  if (foot <= first) return curve.ultimate + Math.exp(foot);
  const x = findRoot(
    (at) => Math.log(excessConductance(curve, at)) + at - Math.log(throughput),
    first,
    Math.log(CURVE_TOP - curve.ultimate),
  );
  return curve.ultimate + Math.exp(x);
}

/** Lowest system pressure that the rig reaches, Pa: the pump's ultimate, or where the load balances the pump. */
export function lowestPressure(curve: RigCurve, load: GasLoad = NO_LOAD): number {
  return pressureForThroughput(curve, lastingLoad(load));
}

/**
 * Int dp / (Q(p) - Q_load) from p1 to p0 under a steady load, s/m3: the pull-down time per volume. Without a load it
 * is the difference of Theta; with one, (p - p_low)/(Q - Q_load) is smooth over ln(p - p_low), down to p_low itself.
 */
function thetaUnderLoad(curve: RigCurve, load: number, lowest: number, p0: number, p1: number): number {
  if (load <= 0) return thetaAt(curve, p0) - thetaAt(curve, p1);
  const from = Math.log(p1 - lowest);
  const to = Math.log(p0 - lowest);
  const integrand = (x: number): number => {
    const above = Math.exp(x);
    return above / (throughputAt(curve, lowest + above) - load);
  };
  return quadrature(integrand, from, to, Math.max(1, Math.ceil((to - from) / PANEL)));
}

/**
 * Seconds from p0 down to p1 (Pa), or infinity where the rig never gets there.
 */
export function secondsTo(curve: RigCurve, volume: number, p0: number, p1: number, load: GasLoad = NO_LOAD): number {
  const lowest = lowestPressure(curve, load);
  if (p1 <= lowest) return Number.POSITIVE_INFINITY;
  if (p1 >= p0) return 0;
  if (isSteady(load)) return volume * thetaUnderLoad(curve, load.leak + load.outgassing, lowest, p0, p1);
  return secondsUnderFadingLoad(curve, volume, p0, [p1], load)[0] ?? Number.POSITIVE_INFINITY;
}

/** Raises the fault that fits a volume, start and target that cannot be a pull-down. */
export function checkPullDown(curve: RigCurve, volume: number, p0: number, p1: number, load: GasLoad = NO_LOAD): void {
  if (!(volume > 0)) raise({ kind: 'limit', argument: 'Volume', value: volume, rule: 'above', limit: 0, unit: 'm3' });
  if (!(p1 > 0)) raise({ kind: 'limit', argument: 'Target', value: p1, rule: 'above', limit: 0, unit: 'Pa' });
  if (!(p1 < p0))
    raise({
      kind: 'order',
      upper: 'Start pressure',
      upperValue: p0,
      lower: 'Target',
      lowerValue: p1,
      unit: 'Pa',
    });
  const lowest = lowestPressure(curve, load);
  if (p1 <= lowest)
    raise({
      kind: 'out-of-reach',
      targetPa: p1,
      lowestPa: lowest,
      because:
        lastingLoad(load) > 0
          ? 'leak and outgassing balance what the rig carries off there'
          : 'it is the ultimate pressure of the pump',
    });
}

/**
 * Time of a pull-down, s: t = V (Theta(p0) - Theta(p1)) without a load.
 *
 * @param volume m3
 * @param p0 start pressure, Pa
 * @param p1 target pressure, Pa
 * @throws order where the target is not below the start; out-of-reach, with the lowest pressure that can be reached
 */
export function pullDownTime(curve: RigCurve, volume: number, p0: number, p1: number, load: GasLoad = NO_LOAD): number {
  checkPullDown(curve, volume, p0, p1, load);
  return finite(secondsTo(curve, volume, p0, p1, load), curve, p1, load);
}

/** The seconds, or the fault of a pull-down that does not end in time. */
function finite(seconds: number, curve: RigCurve, target: number, load: GasLoad): number {
  if (Number.isFinite(seconds)) return seconds;
  return raise({
    kind: 'out-of-reach',
    targetPa: target,
    lowestPa: lowestPressure(curve, load),
    because: 'outgassing keeps the pressure above the target for more than a year',
  });
}

/** One moment of a pull-down: s and Pa. */
export interface PullDownPoint {
  readonly time: number;
  readonly pressure: number;
}

/**
 * The pull-down as `points` moments (at least 2) at even steps of the logarithm of the pressure above the lowest that
 * can be reached, from p0 at time 0 to p1.
 */
export function pullDownCurve(
  curve: RigCurve,
  volume: number,
  p0: number,
  p1: number,
  points: number,
  load: GasLoad = NO_LOAD,
): PullDownPoint[] {
  checkPullDown(curve, volume, p0, p1, load);
  const lowest = lowestPressure(curve, load);
  const from = Math.log(p0 - lowest);
  const step = (Math.log(p1 - lowest) - from) / (points - 1);
  const pressures = Array.from({ length: points - 1 }, (_, i) =>
    i === points - 2 ? p1 : lowest + Math.exp(from + (i + 1) * step),
  );
  const times = isSteady(load)
    ? pressures.map((pressure) => secondsTo(curve, volume, p0, pressure, load))
    : secondsUnderFadingLoad(curve, volume, p0, pressures, load);
  finite(times.at(-1) ?? 0, curve, p1, load);
  return [{ time: 0, pressure: p0 }, ...pressures.map((pressure, i) => ({ time: times[i] ?? 0, pressure }))];
}

/** Pressure (Pa) after `time` (s) of pulling a volume from p0 without a gas load. */
export function pressureAfter(curve: RigCurve, volume: number, p0: number, time: number): number {
  return pressureAtTheta(curve, thetaAt(curve, p0) - time / volume);
}
