import {
  iceEnthalpy,
  iceHeat,
  LATENT_MELTING,
  latentEvaporation,
  latentSublimation,
  liquidEnthalpy,
  liquidHeat,
  overIce,
  overLiquid,
  type Saturation,
  TRIPLE_PRESSURE,
  TRIPLE_TEMPERATURE,
} from '../gas/water.ts';

/**
 * What stands in the system: liquid, liquid and ice together at the triple point (freezing, or thawing), or ice. SI.
 */
export type PoolState = 'liquid' | 'freezing' | 'ice';

/** Water of one state at a temperature: its vapour pressure, its heat capacity and what evaporating takes. */
export interface Pool {
  readonly saturation: (temperature: number) => Saturation;
  /** J/(kg K) */
  readonly heat: (temperature: number) => number;
  /** J/kg */
  readonly latent: (temperature: number) => number;
  /** J/kg, from liquid at the triple point */
  readonly enthalpy: (temperature: number) => number;
}

const AT_TRIPLE: Saturation = { pressure: TRIPLE_PRESSURE, slope: 0 };

export const POOLS: Readonly<Record<PoolState, Pool>> = {
  liquid: { saturation: overLiquid, heat: liquidHeat, latent: latentEvaporation, enthalpy: liquidEnthalpy },
  // the temperature stands still; vapour comes off the liquid, which pays for it by freezing
  freezing: { saturation: () => AT_TRIPLE, heat: liquidHeat, latent: latentEvaporation, enthalpy: () => 0 },
  ice: { saturation: overIce, heat: iceHeat, latent: latentSublimation, enthalpy: iceEnthalpy },
};

/** Enthalpy of a pool (J, from liquid at the triple point) of a mass of which `ice` is ice (both kg). */
export function poolEnthalpy(state: PoolState, mass: number, ice: number, temperature: number): number {
  return state === 'freezing' ? -ice * LATENT_MELTING : mass * POOLS[state].enthalpy(temperature);
}

/** Enthalpy of the vapour over a pool, J/kg. */
export function vapourEnthalpy(state: PoolState, temperature: number): number {
  const pool = POOLS[state];
  return pool.enthalpy(temperature) + pool.latent(temperature);
}

/** What water is at a temperature when nothing has happened to it yet. */
export function stateAtRest(temperature: number): PoolState {
  return temperature < TRIPLE_TEMPERATURE ? 'ice' : 'liquid';
}
