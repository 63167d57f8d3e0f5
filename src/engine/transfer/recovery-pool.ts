import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import type { RealVapour } from './real-gas-rig.ts';

/**
 * Boiling liquid in a system: its properties at its own temperature, and the vapour over it, which stands at the dew
 * pressure of the liquid's temperature and is itself as warm as the surroundings. SI.
 *
 * Zeotropic blends: the composition is that of the whole charge, vapour is drawn at the dew line (the lowest pressure
 * that the blend can have), liquid at the bubble line. Real vapour drawn off is at first richer in the light parts and
 * at a higher pressure, so that real recovery begins faster.
 */
export interface PoolPoint {
  /** Pa */
  readonly pressure: number;
  /** kg/m3 of the vapour over it, at the temperature of the surroundings */
  readonly vapourDensity: number;
  /** kg/(m3 K), of that density with the liquid's temperature */
  readonly vapourDensitySlope: number;
  readonly liquidDensity: number;
  readonly liquidDensitySlope: number;
  /** J/kg from liquid to vapour at the liquid's temperature */
  readonly latentHeat: number;
  /** J/(kg K), rise of the enthalpy of boiling liquid with its temperature */
  readonly heat: number;
}

/** K, for differences */
const SMALL = 0.005;

/** Dew pressure (Pa), below the table by Clausius and Clapeyron with the latent heat of its end (ln p straight in 1/T). */
export function poolPressure(refrigerant: Refrigerant, temperature: number): number {
  const { lowest } = refrigerant;
  if (temperature >= lowest) return refrigerant.dewPressure(Math.min(temperature, refrigerant.highest));
  const p0 = refrigerant.dewPressure(lowest);
  const warmer = lowest + 1;
  const slope = Math.log(refrigerant.dewPressure(warmer) / p0) / (1 / lowest - 1 / warmer);
  return p0 * Math.exp(slope * (1 / lowest - 1 / temperature));
}

/** Enthalpy of boiling liquid (J/kg), below the table with the heat capacity of its end: that with which the liquid cools there. */
export function poolEnthalpy(refrigerant: Refrigerant, temperature: number): number {
  const { lowest } = refrigerant;
  if (temperature >= lowest) return refrigerant.liquidEnthalpy(temperature);
  const heat = (refrigerant.liquidEnthalpy(lowest + 2 * SMALL) - refrigerant.liquidEnthalpy(lowest)) / (2 * SMALL);
  return refrigerant.liquidEnthalpy(lowest) + heat * (temperature - lowest);
}

/** All that a stage with liquid needs at the temperature (K) of the liquid. */
export function poolPoint(refrigerant: Refrigerant, vapour: RealVapour, temperature: number): PoolPoint {
  const { lowest, highest } = refrigerant;
  // below the table all but the pressure keeps the values of its end
  const t = Math.min(Math.max(temperature, lowest + SMALL), highest - SMALL);
  const slopeOf = (f: (t: number) => number): number => (f(t + SMALL) - f(t - SMALL)) / (2 * SMALL);
  const pressureAt = (at: number): number => poolPressure(refrigerant, at);
  const pressure = pressureAt(temperature);
  const top = Math.min(temperature + SMALL, highest);
  const bottom = temperature - SMALL;
  const pressureSlope = (pressureAt(top) - pressureAt(bottom)) / (top - bottom);
  return {
    pressure,
    vapourDensity: vapour.density(pressure),
    vapourDensitySlope: vapour.densitySlope(pressure) * pressureSlope,
    liquidDensity: refrigerant.liquidDensity(t),
    liquidDensitySlope: temperature < lowest ? 0 : slopeOf((at) => refrigerant.liquidDensity(at)),
    latentHeat: refrigerant.vapourEnthalpy(t) - refrigerant.liquidEnthalpy(t),
    heat: slopeOf((at) => refrigerant.liquidEnthalpy(at)),
  };
}
