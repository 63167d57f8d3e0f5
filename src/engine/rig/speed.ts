import { raise } from '../../faults/issue.ts';
import { hermite, hermiteSlope, panelOf } from '../../numerics/interpolate.ts';
import { GAUSS_5 } from '../../numerics/quadrature.ts';
import { CURVE_TOP, type RigCurve } from './curve.ts';
import { pumpExcess } from './pump.ts';

/** Floor of d ln Q / d ln e where it guides a Newton step; the true value never falls under some 1/2. */
const LEAST_SLOPE = 0.05;

/**
 * Reading a rig's curve: effective pumping speed, throughput and the pull-down integral at a pressure. SI.
 */

function lnKWithin(curve: RigCurve, i: number, x: number): number {
  const { lnK, slope } = curve;
  return hermite(
    x,
    curve.x[i] ?? 0,
    curve.x[i + 1] ?? 0,
    lnK[i] ?? 0,
    lnK[i + 1] ?? 0,
    slope[i] ?? 0,
    slope[i + 1] ?? 0,
  );
}

/** Int d(ln e)/K from node i to x within its interval. */
export function thetaWithin(curve: RigCurve, i: number, x: number): number {
  const half = 0.5 * (x - (curve.x[i] ?? 0));
  const middle = x - half;
  let sum = 0;
  for (let k = 0; k < 5; k++)
    sum += (GAUSS_5.weights[k] ?? 0) * Math.exp(-lnKWithin(curve, i, middle + half * (GAUSS_5.nodes[k] ?? 0)));
  return sum * half;
}

function inside(curve: RigCurve, pressure: number): number {
  if (!(pressure <= CURVE_TOP))
    raise({
      kind: 'model-range',
      model: 'the rig',
      argument: 'Pressure',
      value: pressure,
      min: curve.ultimate,
      max: CURVE_TOP,
      unit: 'Pa',
    });
  return Math.log(pressure - curve.ultimate);
}

/** K = Q/e at an excess pressure given by its logarithm, m3/s; level outside the nodes. */
export function excessConductance(curve: RigCurve, lnExcess: number): number {
  const foot = curve.x[0] ?? 0;
  if (lnExcess <= foot) return Math.exp(curve.lnK[0] ?? 0);
  const top = curve.x[curve.x.length - 1] ?? 0;
  if (lnExcess >= top) return Math.exp(curve.lnK[curve.lnK.length - 1] ?? 0);
  return Math.exp(lnKWithin(curve, panelOf(curve.x, lnExcess), lnExcess));
}

/** d ln Q / d ln e, above zero. */
export function throughputSlope(curve: RigCurve, lnExcess: number): number {
  const foot = curve.x[0] ?? 0;
  if (lnExcess <= foot) return 1;
  const i = panelOf(curve.x, lnExcess);
  const { lnK, slope } = curve;
  const rise = hermiteSlope(
    lnExcess,
    curve.x[i] ?? 0,
    curve.x[i + 1] ?? 0,
    lnK[i] ?? 0,
    lnK[i + 1] ?? 0,
    slope[i] ?? 0,
    slope[i + 1] ?? 0,
  );
  return Math.max(LEAST_SLOPE, 1 + rise);
}

/** Throughput Q = S_eff p that leaves the system at pressure p (Pa), Pa m3/s; zero at and below the ultimate. */
export function throughputAt(curve: RigCurve, pressure: number): number {
  if (pressure <= curve.ultimate) return 0;
  const x = inside(curve, pressure);
  return excessConductance(curve, x) * (pressure - curve.ultimate);
}

/** Effective pumping speed at the system, m3/s; zero at and below the ultimate pressure. */
export function effectiveSpeed(curve: RigCurve, pressure: number): number {
  return pressure <= curve.ultimate ? 0 : throughputAt(curve, pressure) / pressure;
}

/**
 * What a free-air meter on the open end reads: throughput at ambient pressure over ambient pressure, m3/s of air at
 * ambient conditions.
 */
export function meterReading(curve: RigCurve, ambientPressure: number): number {
  return effectiveSpeed(curve, ambientPressure);
}

/**
 * Theta = Int d(ln e)/K up to a system pressure (Pa, above the ultimate), s/m3. Only differences mean anything: the
 * pull-down of a volume V from p0 to p1 without a gas load takes V (Theta(p0) - Theta(p1)).
 */
export function thetaAt(curve: RigCurve, pressure: number): number {
  const x = inside(curve, pressure);
  const foot = curve.x[0] ?? 0;
  if (x <= foot) return (x - foot) * Math.exp(-(curve.lnK[0] ?? 0));
  const i = panelOf(curve.x, x);
  return (curve.theta[i] ?? 0) + thetaWithin(curve, i, x);
}

/** The system pressure (Pa) at which Theta has a value (s/m3): the inverse of `thetaAt`. */
export function pressureAtTheta(curve: RigCurve, theta: number): number {
  const foot = curve.x[0] ?? 0;
  if (theta <= 0) return curve.ultimate + Math.exp(foot + theta * Math.exp(curve.lnK[0] ?? 0));
  const i = panelOf(curve.theta, theta);
  let low = curve.x[i] ?? 0;
  let high = curve.x[i + 1] ?? low;
  const within = theta - (curve.theta[i] ?? 0);
  let x = low + ((high - low) * within) / ((curve.theta[i + 1] ?? 1) - (curve.theta[i] ?? 0));
  for (let k = 0; k < 40; k++) {
    const miss = thetaWithin(curve, i, x) - within;
    if (miss > 0) high = x;
    else low = x;
    const step = miss * Math.exp(lnKWithin(curve, i, x));
    if (Math.abs(step) < 1e-13) break;
    x -= step;
    if (!(x >= low && x <= high)) x = 0.5 * (low + high);
  }
  return curve.ultimate + Math.exp(x);
}

/** Pressure at the pump inlet (Pa) while the system stands at a pressure (Pa). */
export function pumpInletAt(curve: RigCurve, pressure: number): number {
  return curve.ultimate + pumpExcess(curve.rig.pump, throughputAt(curve, pressure));
}
