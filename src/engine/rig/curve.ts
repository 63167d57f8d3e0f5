import type { PreparedRig } from './prepare.ts';

/**
 * One curve per rig, gas and temperature: effective pumping speed at the system against system pressure, with the
 * pull-down integral on it. SI.
 *
 * With e = p - pu, the excess of the system pressure over the pump's ultimate, the throughput is written Q = K(e) e.
 * K stays finite and smooth where S_eff goes to zero, so ln K is tabulated over ln e, and
 *
 *     S_eff(p) = K e / p,     Theta(p) = Int dp / Q = Int d(ln e) / K.
 *
 * The nodes come from marching the rig at rising pump inlet pressures; where the cubic between two nodes misses a march
 * half-way by more than the tolerance, that march becomes a node and both halves are looked at again.
 */
export interface RigCurve {
  readonly rig: PreparedRig;
  /** lowest system pressure without a gas load, Pa */
  readonly ultimate: number;
  /** ln of the excess pressure (Pa) at the nodes */
  readonly x: Float64Array;
  /** ln K at the nodes, K in m3/s */
  readonly lnK: Float64Array;
  /** d ln K / d ln e at the nodes */
  readonly slope: Float64Array;
  /** Theta at the nodes from the first node on, s/m3 */
  readonly theta: Float64Array;
  /** marches that the curve cost */
  readonly marches: number;
}

/** Highest system pressure of a curve, Pa: above any start pressure of an evacuation or nitrogen break. */
export const CURVE_TOP = 1e6;
