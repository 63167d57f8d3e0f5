import type { RigCurve } from '../rig/curve.ts';
import { excessConductance, throughputSlope } from '../rig/speed.ts';
import { type GasLoad, loadAt } from './load.ts';

/**
 * Pull-down against a gas load that changes with time. With e = p - pu and y = ln e,
 *
 *     dy/dt = Q_load(t) / (V e) - K(e) / V.
 *
 * Once the load carries the pressure, y follows it far more slowly than the volume would empty, so the equation is stiff:
 * a linearly implicit pair of orders 2 and 3 is used, one slope each step, no iteration.
 * Source: Shampine and Reichelt, SIAM J. Sci. Comput. 18 (1997) 1-22, section 3.
 */

/** Longest pull-down that is followed, s: one year. */
const LONGEST = 365 * 86_400;
/** Largest error of ln(excess pressure) in one step. */
const STEP_ERROR = 1e-6;
const D = 1 / (2 + Math.SQRT2);
const E32 = 6 + Math.SQRT2;
const MOST_STEPS = 200_000;

/** Seconds from p0 to p1 (Pa) under a load that fades; infinity where it takes longer than a year. */
export function secondsUnderFadingLoad(curve: RigCurve, volume: number, p0: number, p1: number, load: GasLoad): number {
  const rate = (t: number, y: number): number =>
    loadAt(load, t) / (volume * Math.exp(y)) - excessConductance(curve, y) / volume;
  const end = Math.log(p1 - curve.ultimate);
  let y = Math.log(p0 - curve.ultimate);
  let t = 0;
  let f0 = rate(t, y);
  let h = Math.min(1, 0.01 / Math.abs(f0));
  for (let step = 0; step < MOST_STEPS && t < LONGEST; step++) {
    // d(rate)/dy: the load's term, and K's by its slope on the curve
    const jacobian =
      -loadAt(load, t) / (volume * Math.exp(y)) -
      ((throughputSlope(curve, y) - 1) * excessConductance(curve, y)) / volume;
    const dt = 1e-6 * Math.max(1, t);
    const drift = (rate(t + dt, y) - f0) / dt;
    const w = 1 - h * D * jacobian;
    const k1 = (f0 + h * D * drift) / w;
    const f1 = rate(t + 0.5 * h, y + 0.5 * h * k1);
    const k2 = (f1 - k1) / w + k1;
    const next = y + h * k2;
    const f2 = rate(t + h, next);
    const k3 = (f2 - E32 * (k2 - f1) - 2 * (k1 - f0) + h * D * drift) / w;
    const error = Math.abs((h / 6) * (k1 - 2 * k2 + k3)) / STEP_ERROR;
    if (!(error <= 1)) {
      h *= Math.max(0.2, Number.isFinite(error) ? 0.8 * error ** (-1 / 3) : 0.2);
      continue;
    }
    if (next <= end) return t + crossing(h, y, next, f0, f2, end);
    t += h;
    y = next;
    f0 = f2;
    h *= Math.min(4, 0.8 * Math.max(error, 1e-6) ** (-1 / 3));
  }
  return Number.POSITIVE_INFINITY;
}

/** Time within a step of width h at which the cubic through both ends and slopes passes `end`. */
function crossing(h: number, y0: number, y1: number, f0: number, f1: number, end: number): number {
  let low = 0;
  let high = 1;
  for (let i = 0; i < 60; i++) {
    const s = 0.5 * (low + high);
    const r = 1 - s;
    const y = r * r * ((1 + 2 * s) * y0 + s * h * f0) + s * s * ((3 - 2 * s) * y1 - r * h * f1);
    if (y > end) low = s;
    else high = s;
  }
  return h * high;
}
