import { findRoot } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import type { Machine, Rig } from '../rig/rig.ts';
import { liquidFlow, liquidState, prepareLiquidRig } from './liquid-flow.ts';
import { volumetricEfficiency } from './machine.ts';

/**
 * Liquid on its way out of a system: through the rig into the machine, or past it into the cylinder. SI.
 */

/** kg/s, and the pressure (Pa) at the far end of the rig. */
export interface LiquidDraw {
  readonly flow: number;
  readonly end: number;
}

/** Density (kg/m3) of liquid of temperature `from` after throttling to a pressure, liquid and vapour at one speed. */
function throttledDensity(refrigerant: Refrigerant, from: number, pressure: number): number {
  const lowestPressure = refrigerant.bubblePressure(refrigerant.lowest);
  const temperature = pressure > lowestPressure ? refrigerant.bubbleTemperature(pressure) : refrigerant.lowest;
  const liquid = refrigerant.liquidEnthalpy(temperature);
  const latent = refrigerant.vapourEnthalpy(temperature) - liquid;
  const share = Math.min(1, Math.max(0, (refrigerant.liquidEnthalpy(from) - liquid) / latent));
  // thinner below the table, as a perfect gas at one temperature
  const vapour = refrigerant.saturatedVapourDensity(temperature) * Math.min(1, pressure / lowestPressure);
  return 1 / (share / vapour + (1 - share) / refrigerant.liquidDensity(temperature));
}

/**
 * Liquid mode: boiling liquid of a temperature (K) flows through the rig into the machine's suction. The flow is the least
 * of what the rig passes (choked where it flashes), what the machine sweeps at its suction pressure (throttled liquid with
 * its flash vapour, volume by volume), and the machine's liquid rate where it states one.
 */
export function liquidToMachine(
  rig: Rig,
  machine: Machine,
  refrigerant: Refrigerant,
  gas: GasState,
  temperature: number,
  discharge: number,
): LiquidDraw {
  const liquid = liquidState(refrigerant, temperature);
  const { stages } = prepareLiquidRig(rig, gas, liquid);
  const upstream = liquid.vapourPressure;
  if (!(upstream > machine.ultimate)) return { flow: 0, end: machine.ultimate };
  const most = machine.liquidRate ?? Number.POSITIVE_INFINITY;
  const rigFlow = (suction: number): number => liquidFlow(stages, liquid, upstream, suction).flow;
  const swept = (suction: number): number =>
    machine.displacement *
    volumetricEfficiency(machine, suction, discharge, gas.heatCapacityRatio) *
    throttledDensity(refrigerant, temperature, suction);
  if (stages.length === 0) return { flow: Math.min(swept(upstream), most), end: upstream };
  // F_F is at least 0.68, so that half the vapour pressure is well below the choke
  const low = 0.5 * upstream;
  const excess = (suction: number): number => Math.min(swept(suction), most) - Math.min(rigFlow(suction), most);
  if (excess(low) >= 0) return { flow: Math.min(rigFlow(low), most), end: low };
  const end = findRoot(excess, low, upstream, { relative: 1e-10 });
  return { flow: Math.min(swept(end), most), end };
}

/**
 * Highest pressure to which a machine pushes, Pa: the usual high-pressure cut-out, 550 psi gauge. Common practice, no source.
 */
export const PUSH_LIMIT = 3.9e6;

/**
 * Push-pull: the machine draws vapour from the cylinder and pushes it into the system, and the liquid, which is pushed out
 * by it, flows through the rig into the cylinder. The system pressure p1 is where both volumes are alike:
 *
 *     mdot_liquid(p1, p_cyl)/rho_l = displacement eta(p_cyl, p1) p_cyl Z(p1)/(p1 Z(p_cyl))
 *
 * no lower than the liquid's own vapour pressure and no higher than the machine's cut-out.
 *
 * Limits: system and cylinder keep their temperatures; vapour that condenses on the liquid is not counted; the vapour line
 * is wide.
 */
export function liquidByPush(
  rig: Rig,
  machine: Machine,
  refrigerant: Refrigerant,
  gas: GasState,
  temperature: number,
  cylinderTemperature: number,
): LiquidDraw & { readonly system: number } {
  const liquid = liquidState(refrigerant, temperature);
  const { stages } = prepareLiquidRig(rig, gas, liquid);
  const cylinder = refrigerant.dewPressure(cylinderTemperature);
  const density = refrigerant.saturatedVapourDensity(cylinderTemperature);
  const own = Math.max(liquid.vapourPressure, cylinder);
  const most = Math.max(own, PUSH_LIMIT);
  const dew = refrigerant.dewPressure(temperature);
  const pushedDensity = (pressure: number): number =>
    refrigerant.vapourDensity(temperature, Math.min(pressure, dew)) * Math.max(1, pressure / dew);
  const out = (system: number): number => liquidFlow(stages, liquid, system, cylinder).flow;
  const pushed = (system: number): number =>
    (machine.displacement *
      volumetricEfficiency(machine, cylinder, system, gas.heatCapacityRatio) *
      density *
      liquid.density) /
    pushedDensity(system);
  if (stages.length === 0) return { flow: pushed(own), end: cylinder, system: own };
  const excess = (system: number): number => out(system) - pushed(system);
  const system = excess(own) >= 0 ? own : excess(most) <= 0 ? most : findRoot(excess, own, most, { relative: 1e-12 });
  return { flow: out(system), end: cylinder, system };
}
