import { quadrature } from '../../numerics/quadrature.ts';
import { mixtureThroughput, type RigSurface, vapourAtPump } from '../dry/rig-surface.ts';
import type { RigCurve } from '../rig/curve.ts';
import { thetaAt, throughputAt } from '../rig/speed.ts';

/** How a rig pumps one gas, with vapour in it or without. SI. */
export interface Outflow {
  /** the curve of the gas without vapour */
  readonly dry: RigCurve;
  /** Pa m3/s at a pressure (Pa) and mole fraction of vapour */
  readonly throughput: (pressure: number, fraction: number) => number;
  /** s/m3 from one pressure down to another at one composition */
  readonly secondsPerVolume: (from: number, to: number, fraction: number) => number;
  /** Pa of vapour at the pump inlet */
  readonly vapourAtPump: (pressure: number, fraction: number) => number;
}

/** Gas without vapour: the rig's own curve. */
export function dryOutflow(curve: RigCurve): Outflow {
  return {
    dry: curve,
    throughput: (pressure) => throughputAt(curve, pressure),
    secondsPerVolume: (from, to) => thetaAt(curve, from) - thetaAt(curve, to),
    vapourAtPump: () => 0,
  };
}

/** Width of a panel of ln(p - pu) in the pull-down integral. */
const PANEL = 0.25;

export function wetOutflow(surface: RigSurface): Outflow {
  const { ultimate } = surface;
  return {
    dry: surface.dry,
    throughput: (pressure, fraction) => mixtureThroughput(surface, pressure, fraction),
    secondsPerVolume: (from, to, fraction) => {
      const low = Math.log(to - ultimate);
      const high = Math.log(from - ultimate);
      const integrand = (x: number): number => {
        const excess = Math.exp(x);
        return excess / mixtureThroughput(surface, ultimate + excess, fraction);
      };
      return quadrature(integrand, low, high, Math.max(1, Math.ceil((high - low) / PANEL)));
    },
    vapourAtPump: (pressure, fraction) => vapourAtPump(surface, pressure, fraction),
  };
}
