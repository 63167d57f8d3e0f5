import type { PoolState } from '../dry/pool.ts';
import { poolEnthalpy } from '../dry/pool.ts';
import type { GasLoad } from '../evacuate/load.ts';
import { TRIPLE_TEMPERATURE, VAPOUR_GAS_CONSTANT } from '../gas/water.ts';

/** What holds all through a plan. SI. */
export interface Surroundings {
  /** K, of the surroundings and of all gas */
  readonly ambient: number;
  /** m3 */
  readonly volume: number;
  /** W/K from the surroundings to the water */
  readonly heat: number;
  /** J/K of metal that is as cold as the water */
  readonly metal: number;
  /** counts during pulls alone */
  readonly load: GasLoad;
}

/** What is in the system at a moment: all that is needed to go on from it. SI. */
export interface Contents {
  /** s from the start of the plan */
  readonly time: number;
  readonly state: PoolState | 'dry';
  /** Pa of the gas that was there at first; what leaks in counts to it */
  readonly first: number;
  /** Pa of gas that breaks let in */
  readonly fed: number;
  /** Pa */
  readonly vapour: number;
  /** liquid and ice, and ice, kg */
  readonly water: number;
  readonly ice: number;
  /** K, of the water */
  readonly temperature: number;
}

export function totalPressure({ first, fed, vapour }: Contents): number {
  return first + fed + vapour;
}

/** kg of vapour in the volume per Pa */
export function vapourPerPascal({ volume, ambient }: Surroundings): number {
  return volume / (VAPOUR_GAS_CONSTANT * ambient);
}

/** Enthalpy of pool and metal, J. */
export function heldEnthalpy({ metal }: Surroundings, { state, water, ice, temperature }: Contents): number {
  const pool = state === 'dry' ? 0 : poolEnthalpy(state, water, ice, temperature);
  return pool + metal * (temperature - TRIPLE_TEMPERATURE);
}

/** Sums along a plan while there is water or gas flows: kg, J, J, and Pa m3 of the first gas. */
export interface Balance {
  vapourOff: number;
  heatIn: number;
  enthalpyOff: number;
  firstOff: number;
  firstIn: number;
}
