import type { WorkCount } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';
import { chokedConstant, criticalRatio } from './nozzle.ts';
import type { Passage, PreparedPassage } from './passage.ts';
import { solveRestriction } from './restriction.ts';

/** Discharge coefficient of a port or orifice where none is given. Common practice, no source: sharp edge 0.6 to 0.84. */
export const DEFAULT_DISCHARGE = 0.8;

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/**
 * Share of the choked flow at y = 1 - p2/p1: 1 at or under the critical ratio b, an ellipse above it:
 * [1 - ((r - b)/(1 - b))^2]^m, written in y so that small differences keep their digits.
 * Source: ISO 6358-1:2013, m = 0.5 unless measured.
 */
export function ellipse(y: number, b: number, exponent = 0.5): number {
  const u = y / (1 - b);
  if (u >= 1) return 1;
  const s = u * (2 - u);
  return exponent === 0.5 ? Math.sqrt(s) : s ** exponent;
}

/**
 * A port, orifice, manifold seat or other short opening, molecular to choked (see `restriction.ts`):
 * continuum limit W_h = sqrt(2 pi) Cd psi-star times the ellipse, b the critical ratio of the gas.
 *
 * @param passage bore in m, discharge coefficient 0.1 to 1
 * Limits: a sharp thin opening; 3 % in the transition regime, as its shape factor is from memory.
 */
export function prepareOpening(
  passage: Extract<Passage, { kind: 'opening' }>,
  gas: GasState,
  count?: WorkCount,
): PreparedPassage {
  const gamma = gas.heatCapacityRatio;
  const choked = ROOT_TWO_PI * passage.dischargeCoefficient * chokedConstant(gamma);
  const b = criticalRatio(gamma);
  const restriction = {
    area: (Math.PI / 4) * passage.bore * passage.bore,
    continuum: (y: number) => choked * ellipse(y, b),
  };
  return { passage, gas, bore: passage.bore, ...solveRestriction(restriction, gas, count) };
}
