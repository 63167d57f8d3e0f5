import { findRoot } from '../../numerics/root.ts';
import { MOLAR_GAS_CONSTANT } from '../gas/constants.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';

/** What a closed volume holds once liquid and vapour are in equilibrium. SI. */
export interface VesselState {
  /** K */
  readonly temperature: number;
  /** Pa; infinite where liquid fills the volume */
  readonly pressure: number;
  /** kg */
  readonly liquid: number;
  readonly state: 'empty' | 'below table' | 'two phases' | 'vapour' | 'full of liquid';
}

/** J/kg of liquid at the bubble line and of vapour at the dew line: u = h - p/rho */
export function liquidEnergy(refrigerant: Refrigerant, temperature: number): number {
  const pv = refrigerant.bubblePressure(temperature) / refrigerant.liquidDensity(temperature);
  return refrigerant.liquidEnthalpy(temperature) - pv;
}

export function vapourEnergy(refrigerant: Refrigerant, temperature: number): number {
  const pv = refrigerant.dewPressure(temperature) / refrigerant.saturatedVapourDensity(temperature);
  return refrigerant.vapourEnthalpy(temperature) - pv;
}

/** Part of the mass that is vapour where a density (kg/m3) stands at a temperature (K) in two phases. */
export function quality(refrigerant: Refrigerant, temperature: number, density: number): number {
  const liquid = 1 / refrigerant.liquidDensity(temperature);
  return (1 / density - liquid) / (1 / refrigerant.saturatedVapourDensity(temperature) - liquid);
}

/** J/kg of both phases together at a temperature (K) and a mean density (kg/m3). */
export function energyInTwoPhases(refrigerant: Refrigerant, temperature: number, density: number): number {
  const liquid = liquidEnergy(refrigerant, temperature);
  const vapour = vapourEnergy(refrigerant, temperature);
  return liquid + quality(refrigerant, temperature, density) * (vapour - liquid);
}

/** Pa: bubble pressure where all is liquid, dew pressure where all is vapour, straight in the quality between them. */
function pressureInTwoPhases(refrigerant: Refrigerant, temperature: number, density: number): number {
  const bubble = refrigerant.bubblePressure(temperature);
  return bubble + quality(refrigerant, temperature, density) * (refrigerant.dewPressure(temperature) - bubble);
}

const RELATIVE = 1e-13;

/** K at which saturated vapour has a density (kg/m3), no lower than the table and no higher. */
function dewTemperatureOf(refrigerant: Refrigerant, density: number): number {
  const { lowest, highest } = refrigerant;
  const miss = (temperature: number): number => refrigerant.saturatedVapourDensity(temperature) - density;
  if (miss(lowest) >= 0) return lowest;
  if (miss(highest) <= 0) return highest;
  return findRoot(miss, lowest, highest, { relative: RELATIVE });
}

const LEAST_Z = 0.1;
const MOST_Z = 1.001;

/** Pa of vapour (kg/m3) above its dew point. */
function vapourPressureAt(refrigerant: Refrigerant, temperature: number, density: number): number {
  const dew = refrigerant.dewPressure(temperature);
  if (refrigerant.saturatedVapourDensity(temperature) <= density) return dew;
  // vapour below its critical point is denser than a perfect gas
  const perfect = (density * MOLAR_GAS_CONSTANT * temperature) / refrigerant.molarMass;
  const miss = (pressure: number): number => refrigerant.vapourDensity(temperature, pressure) / density - 1;
  return findRoot(miss, LEAST_Z * perfect, Math.min(dew, MOST_Z * perfect), { relative: 1e-12 });
}

/** Pa of vapour that fills a volume at a temperature (K) with a density (kg/m3); the dew pressure at the most. */
export function fillPressure(refrigerant: Refrigerant, temperature: number, density: number): number {
  return density > 0 ? vapourPressureAt(refrigerant, temperature, density) : 0;
}

/**
 * Equilibrium of a mass (kg) with an internal energy (J) in a volume (m3):
 *
 *     v = (1-x) v_l + x v_v,  u = (1-x)(h_l - p v_l) + x (h_v - p v_v)
 *
 * one root in the temperature, since at a fixed density the energy rises with it. Vapour without liquid warms from its dew
 * point at that density with the dilute gas's c_v = R_s/(gamma - 1).
 *
 * Limits: colder than the refrigerant's table the temperature stays at the table's lowest and the pressure falls with
 * the density. A mixture of refrigerants keeps its composition and its pressure runs straight from bubble to dew.
 */
export function vesselState(refrigerant: Refrigerant, mass: number, energy: number, volume: number): VesselState {
  const { lowest, highest } = refrigerant;
  if (!(mass > 0)) return { temperature: lowest, pressure: 0, liquid: 0, state: 'empty' };
  const density = mass / volume;
  const specific = energy / mass;
  const top = dewTemperatureOf(refrigerant, density);
  const thin = refrigerant.saturatedVapourDensity(lowest) >= density;
  const least = thin ? vapourEnergy(refrigerant, lowest) : energyInTwoPhases(refrigerant, lowest, density);
  if (specific < least) {
    const part = Math.min(1, density / refrigerant.saturatedVapourDensity(lowest));
    const vapour = Math.min(1, quality(refrigerant, lowest, density));
    const pressure = refrigerant.dewPressure(lowest) * part;
    return { temperature: lowest, pressure, liquid: mass * (1 - vapour), state: 'below table' };
  }
  const most = thin ? least : energyInTwoPhases(refrigerant, top, density);
  if (specific >= most) {
    if (density >= refrigerant.saturatedVapourDensity(highest))
      return { temperature: highest, pressure: Number.POSITIVE_INFINITY, liquid: mass, state: 'full of liquid' };
    const gasConstant = MOLAR_GAS_CONSTANT / refrigerant.molarMass;
    const temperature = top + ((specific - most) * (refrigerant.heatCapacityRatio(top) - 1)) / gasConstant;
    const pressure = vapourPressureAt(refrigerant, Math.min(temperature, highest), density);
    return { temperature, pressure, liquid: 0, state: 'vapour' };
  }
  const miss = (temperature: number): number => energyInTwoPhases(refrigerant, temperature, density) - specific;
  const temperature = findRoot(miss, lowest, top, { relative: RELATIVE });
  const vapour = quality(refrigerant, temperature, density);
  if (vapour < 0) return { temperature, pressure: Number.POSITIVE_INFINITY, liquid: mass, state: 'full of liquid' };
  const pressure = pressureInTwoPhases(refrigerant, temperature, density);
  return { temperature, pressure, liquid: mass * (1 - vapour), state: 'two phases' };
}
