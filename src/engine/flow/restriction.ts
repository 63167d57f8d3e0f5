import { findRisingRoot, type WorkCount } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';

/**
 * Flow through a short restriction in every regime. Reduced flow W = mdot sqrt(2 pi R_s T)/(A p1), pressure ratio
 * r = p2/p1, y = 1 - r, rarefaction delta = p1 a/(mu v0).
 *
 *   molecular:   W = y
 *   continuum:   W = W_h(y), given by the kind of restriction
 *   between:     W = y + dW,  1/dW = 1/(F dW_h) + r/(0.376 delta y),  dW_h = W_h - y
 *
 * F(delta) carries the flow into vacuum from molecular to continuum; the second term is creeping flow through an
 * orifice, which caps W at small pressure differences. Where dW_h <= 0 (a poor discharge coefficient at a low ratio)
 * there is nothing to cap: W = y + F dW_h.
 */
export interface Restriction {
  /** area of the molecular limit, m2 */
  readonly area: number;
  /** continuum reduced flow at y = 1 - p2/p1 */
  readonly continuum: (y: number) => number;
}

/** Source: F's coefficients are from memory, good to about 3 %; form after Sharipov, J. Fluid Mech. 518 (2004) 35-60. */
const SHAPE = { numerator: 1.2688, linear: 4.559, square: 3.094 } as const;

/**
 * W/(delta y) of creeping flow through a thin orifice, 2/(3 sqrt(pi)) = 0.376: volume flow a^3 dp/(3 mu).
 * Source: Sampson, Phil. Trans. R. Soc. A 182 (1891) 449.
 */
const CREEPING = 2 / (3 * Math.sqrt(Math.PI));

/** Share of the continuum excess that is reached at rarefaction delta: 0 molecular, 1 continuum. */
export function continuumShare(delta: number): number {
  if (delta <= 0) return 0;
  const f = (1 + SHAPE.numerator / Math.sqrt(delta)) / (1 + SHAPE.linear / delta + SHAPE.square / (delta * delta));
  return Math.min(1, f);
}

/** W at rarefaction `delta` (of the upstream pressure) and y = 1 - p2/p1. */
export function reducedFlow(continuum: (y: number) => number, delta: number, y: number): number {
  const excess = continuum(y) - y;
  const reached = continuumShare(delta) * excess;
  if (!(reached > 0)) return y + reached;
  const cap = CREEPING * delta * y;
  // reached / (1 + reached r/cap)
  return y + (reached * cap) / (cap + reached * (1 - y));
}

/** The two directions of one restriction for one gas. */
export function solveRestriction(
  { area, continuum }: Restriction,
  gas: GasState,
  count?: WorkCount,
): { upstreamPressure(q: number, p2: number): number; throughput(p1: number, p2: number): number } {
  const radius = Math.sqrt(area / Math.PI);
  const deltaPerPascal = radius / (gas.viscosity * gas.probableSpeed);
  // Q = mdot R_s T = A p1 W sqrt(R_s T/(2 pi))
  const speed = area * Math.sqrt((gas.specificGasConstant * gas.temperature) / (2 * Math.PI));
  const flow = (difference: number, downstream: number): number => {
    const upstream = downstream + difference;
    return speed * upstream * reducedFlow(continuum, upstream * deltaPerPascal, difference / upstream);
  };
  return {
    throughput(upstream, downstream) {
      return upstream > downstream ? flow(upstream - downstream, downstream) : 0;
    },
    upstreamPressure(throughput, downstream) {
      if (!(throughput > 0)) return downstream;
      // ln Q against ln(p1 - p2) is near-linear, slope about 1/2 to 1; molecular flow is the first guess
      const excess = (z: number): number => Math.log(flow(Math.exp(z), downstream) / throughput);
      const options = { slope: 0.8, absolute: 1e-11, ...(count && { count }) };
      return downstream + Math.exp(findRisingRoot(excess, Math.log(throughput / speed), options));
    },
  };
}
