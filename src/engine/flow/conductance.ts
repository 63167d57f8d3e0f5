import type { GasState } from '../gas/state.ts';
import { MOLECULAR_POISEUILLE, poiseuille } from './poiseuille.ts';
import { rarefaction } from './regime.ts';
import { transmission } from './transmission.ts';
import { VISCOUS_END } from './tube-integrals.ts';

/**
 * Conductance of a tube at a mean pressure for a small pressure difference, m3/s: the limit dQ/dp of the tube equation
 * without flow inertia,
 *
 *   C = pi a^3 v0 G_P(delta)/(2 L_eff(delta)),  L_eff = m (8a/3)/alpha(L/a) + (1 - m)(L + 3 pi a/8),  m = 1/(1 + delta)
 *
 * @param bore m
 * @param length m, >= 0
 * @param pressure mean pressure, Pa, >= 0
 * Limits: laminar to molecular flow; entrance losses and turbulence need a finite difference (`prepareTube`).
 * Source: linearised kinetic theory (Sharipov and Seleznev 1998); end corrections Clausing/Berman and Sampson.
 */
export function tubeConductance(gas: GasState, bore: number, length: number, pressure: number): number {
  const radius = bore / 2;
  const delta = rarefaction(gas, bore, pressure);
  const m = 1 / (1 + delta);
  const molecular = (8 * radius) / 3 / transmission(length / radius);
  const effective = m * molecular + (1 - m) * (length + VISCOUS_END * radius);
  const flow = delta > 0 ? poiseuille(delta) : MOLECULAR_POISEUILLE;
  return (Math.PI * radius ** 3 * gas.probableSpeed * flow) / (2 * effective);
}

/** Passages one behind another: 1/C = sum of 1/C_i. Needs positive conductances, at least one. */
export function inSeries(conductances: readonly number[]): number {
  return 1 / conductances.reduce((sum, c) => sum + 1 / c, 0);
}

/** Passages side by side: C = sum of C_i. */
export function inParallel(conductances: readonly number[]): number {
  return conductances.reduce((sum, c) => sum + c, 0);
}
