import type { WetSystem } from '../../engine/dry/dry-out.ts';
import { type RigSurface, rigSurface } from '../../engine/dry/rig-surface.ts';
import { gasState } from '../../engine/gas/gas.ts';
import type { GasState } from '../../engine/gas/state.ts';
import { keepingOf } from '../../engine/keep.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import type { Conditions } from '../../tables/conditions.ts';
import { curveOf, loadOf } from '../rig/curves.ts';

/** Surfaces of one rig record; they go with it. The curves below them are shared by content. */
const MOST_OF_RIG = 16;
const keep = keepingOf<Rig, RigSurface>(MOST_OF_RIG);

/** The gas of the conditions at Ambient: what a wet system holds. */
export function gasAtAmbient({ gas, ambientTemperature }: Conditions): GasState {
  return ambientTemperature === gas.temperature ? gas : gasState(gas.name, ambientTemperature);
}

/** The rig's curve over composition for the gas of the conditions at Ambient: built once for all that ask for it. */
export function surfaceOf(rig: Rig, conditions: Conditions): RigSurface {
  return surfaceFor(rig, gasAtAmbient(conditions));
}

/** The same for any gas: what is kept hangs on all that the surface depends on. */
export function surfaceFor(rig: Rig, gas: GasState): RigSurface {
  const key = `${gas.temperature} ${gas.molarMass} ${gas.viscosity} ${gas.name}`;
  return keep(rig, key, () => rigSurface(rig, gas, gasState('water vapour', gas.temperature), curveOf));
}

export function wetSystem(volume: number, water: number, conditions: Conditions): WetSystem {
  const { heat, metal, startPressure: start, target } = conditions;
  return { volume, water, heat, metal, start, target, load: loadOf(conditions) };
}
