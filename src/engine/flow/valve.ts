import type { WorkCount } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';
import type { Passage, PreparedPassage } from './passage.ts';
import { solveRestriction } from './restriction.ts';
import { areaForChoked } from './sonic.ts';

/** Kv for a Cv of 1 (US gallons a minute at 1 psi). Source: IEC 60534-1 / ISA-75.01. */
export const KV_PER_CV = 0.865;
/** Pressure drop ratio at which air chokes, where none is given. Source: IEC 60534-2-1, typical globe valves 0.65-0.75. */
export const DEFAULT_PRESSURE_DROP_RATIO = 0.7;
/** mdot = Kv sqrt(rho dp)/36000 in SI, from Kv's definition: m3/h of water (1000 kg/m3) at 1 bar. */
const KV_SI = 36000;
const AIR_RATIO = 1.4;
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/**
 * Reduced gas flow Y sqrt(x) of a valve at x = 1 - p2/p1: mdot = (Kv/36000) Y sqrt(x) p1/sqrt(R_s T),
 * Y = 1 - x/(3 F_gamma x_T), x held at F_gamma x_T (choked), F_gamma = gamma/1.4.
 * Source: IEC 60534-2-1, compressible fluids, no fittings, turbulent.
 */
export function valveExpansion(x: number, pressureDropRatio: number, gamma: number): number {
  const limit = (gamma / AIR_RATIO) * pressureDropRatio;
  const held = Math.min(x, limit);
  return (1 - held / (3 * limit)) * Math.sqrt(held);
}

/**
 * A valve known by Kv, carried on into rarefied flow (see `restriction.ts`) with the area of an opening that passes the
 * same choked flow of air at a discharge coefficient of 0.8.
 * Limits: at ordinary pressures IEC 60534-2-1 for a perfect gas without fittings; rarefied part an estimate by the area.
 */
export function prepareValve(
  passage: Extract<Passage, { kind: 'valve' }>,
  gas: GasState,
  count?: WorkCount,
): PreparedPassage {
  const { kv, pressureDropRatio } = passage;
  const factor = (ROOT_TWO_PI * kv) / KV_SI;
  const area = areaForChoked(factor * valveExpansion(1, pressureDropRatio, AIR_RATIO));
  const restriction = {
    area,
    continuum: (x: number) => (factor / area) * valveExpansion(x, pressureDropRatio, gas.heatCapacityRatio),
  };
  return { passage, gas, bore: Math.sqrt((4 * area) / Math.PI), ...solveRestriction(restriction, gas, count) };
}

/**
 * Liquid critical pressure ratio factor F_F = 0.96 - 0.28 sqrt(p_v/p_c); pressures in one unit.
 * Source: IEC 60534-2-1.
 */
export function liquidCriticalFactor(vapourPressure: number, criticalPressure: number): number {
  return 0.96 - 0.28 * Math.sqrt(vapourPressure / criticalPressure);
}

export interface Liquid {
  /** kg/m3 */
  readonly density: number;
  /** Pa */
  readonly vapourPressure: number;
  /** Pa */
  readonly criticalPressure: number;
}

/**
 * Mass flow (kg/s) of a liquid through a valve: (Kv/36000) sqrt(rho dp), dp held at F_L^2 (p1 - F_F p_v) where the
 * liquid chokes by flashing. Pressures Pa.
 * @param recovery F_L, without unit
 * Source: IEC 60534-2-1, incompressible fluids, no fittings, turbulent.
 */
export function valveLiquid(
  kv: number,
  liquid: Liquid,
  upstream: number,
  downstream: number,
  recovery: number,
): number {
  const factor = liquidCriticalFactor(liquid.vapourPressure, liquid.criticalPressure);
  const choked = recovery * recovery * (upstream - factor * liquid.vapourPressure);
  const drop = Math.min(upstream - downstream, choked);
  return drop > 0 ? (kv / KV_SI) * Math.sqrt(liquid.density * drop) : 0;
}
