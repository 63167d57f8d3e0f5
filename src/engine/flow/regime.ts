import type { GasState } from '../gas/state.ts';

export type Regime = 'viscous' | 'slip' | 'transitional' | 'molecular';

/** Upper Knudsen numbers (on the bore) of the regimes. Source: usual limits of kinetic theory texts, e.g. Karniadakis et al. */
export const REGIME_LIMITS: readonly (readonly [Regime, number])[] = [
  ['viscous', 0.001],
  ['slip', 0.1],
  ['transitional', 10],
  ['molecular', Number.POSITIVE_INFINITY],
];

/**
 * Mean free path, m: (sqrt(pi)/2) mu v0/p, the path that belongs to the viscosity.
 * @param pressure Pa, > 0
 */
export function meanFreePath(gas: GasState, pressure: number): number {
  return (Math.sqrt(Math.PI) / 2) * ((gas.viscosity * gas.probableSpeed) / pressure);
}

/** Knudsen number on the bore, lambda/D. Bore in m, pressure in Pa; infinite at zero pressure. */
export function knudsen(gas: GasState, bore: number, pressure: number): number {
  return meanFreePath(gas, pressure) / bore;
}

/** Rarefaction delta = p a/(mu v0) of a passage of radius a = bore/2. */
export function rarefaction(gas: GasState, bore: number, pressure: number): number {
  return (pressure * bore) / (2 * gas.viscosity * gas.probableSpeed);
}

/** Flow regime by the Knudsen number on the bore. */
export function regime(kn: number): Regime {
  return REGIME_LIMITS.find(([, limit]) => kn < limit)?.[0] ?? 'molecular';
}
