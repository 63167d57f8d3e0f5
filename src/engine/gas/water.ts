import { MOLAR_GAS_CONSTANT } from './constants.ts';

/**
 * Water, its ice and their vapour near and below room temperature. SI: K, Pa, J/kg, kg/m3.
 *
 * Enthalpies count from liquid at the triple point and hang together: what melting, evaporating and warming take adds up
 * the same on every way (Kirchhoff), so that an energy balance over them closes.
 */

/** kg/mol. Source: IAPWS-95. */
export const WATER_MOLAR_MASS = 0.01801527;
/** J/(kg K) */
export const VAPOUR_GAS_CONSTANT = MOLAR_GAS_CONSTANT / WATER_MOLAR_MASS;

/** Triple point. Source: IAPWS R14-08(2011). */
export const TRIPLE_TEMPERATURE = 273.16;
export const TRIPLE_PRESSURE = 611.657;

/** kg/m3 at 20 C and 0 C. Source: IAPWS-95; IAPWS R10-06(2009). */
export const LIQUID_DENSITY = 998.2;
export const ICE_DENSITY = 916.7;

const CRITICAL_TEMPERATURE = 647.096;
const CRITICAL_PRESSURE = 22.064e6;
/** Coefficients of the powers 1, 1.5, 3, 3.5, 4 and 7.5. Source: IAPWS SR1-86(1992); Wagner and Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783. */
const A1 = -7.85951783;
const A15 = 1.84408259;
const A3 = -11.7866497;
const A35 = 22.6807411;
const A4 = -15.9618719;
const A75 = 1.80122502;

/** Source: IAPWS R14-08(2011), eq. 6; Wagner et al., J. Phys. Chem. Ref. Data 40 (2011) 043103. */
const ICE_TERMS = [
  [-21.2144006, 0.00333333333],
  [27.3203819, 1.20666667],
  [-6.1059813, 1.70333333],
] as const;

/** A vapour pressure and its logarithm's slope d ln p/dT (1/K). */
export interface Saturation {
  readonly pressure: number;
  readonly slope: number;
}

/** Over liquid, 273.16-647 K (a little below as supercooled): ln(p/pc) = (Tc/T) sum a (1 - T/Tc)^n. */
export function overLiquid(temperature: number): Saturation {
  const tau = 1 - temperature / CRITICAL_TEMPERATURE;
  // powers by products: this stands in the innermost loop of a dry-out
  const root = Math.sqrt(tau);
  const tau2 = tau * tau;
  const tau3 = tau2 * tau;
  const tau6 = tau3 * tau3;
  const sum = tau * (A1 + A15 * root) + tau3 * (A3 + A35 * root + A4 * tau) + A75 * tau6 * tau * root;
  const rise = A1 + 1.5 * A15 * root + tau2 * (3 * A3 + 3.5 * A35 * root + 4 * A4 * tau) + 7.5 * A75 * tau6 * root;
  const ratio = CRITICAL_TEMPERATURE / temperature;
  return { pressure: CRITICAL_PRESSURE * Math.exp(ratio * sum), slope: (-ratio * sum - rise) / temperature };
}

/** Over ice, 50-273.16 K: ln(p/pt) = (1/theta) sum a theta^b, theta = T/Tt. */
export function overIce(temperature: number): Saturation {
  const ln = Math.log(temperature / TRIPLE_TEMPERATURE);
  let sum = 0;
  let rise = 0;
  for (let i = 0; i < ICE_TERMS.length; i++) {
    const [a, b] = ICE_TERMS[i] ?? [0, 0];
    const term = a * Math.exp((b - 1) * ln);
    sum += term;
    rise += (b - 1) * term;
  }
  return { pressure: TRIPLE_PRESSURE * Math.exp(sum), slope: rise / temperature };
}

/** Vapour pressure (Pa) over what stands at a temperature: ice below the triple point, liquid above. */
export function saturationPressure(temperature: number): number {
  return (temperature < TRIPLE_TEMPERATURE ? overIce(temperature) : overLiquid(temperature)).pressure;
}

/** Temperature (K) at which water boils or ice sublimes under a pressure (Pa, 1e-6 Pa to 1e7 Pa): the inverse. */
export function saturationTemperature(pressure: number): number {
  const over = pressure < TRIPLE_PRESSURE ? overIce : overLiquid;
  let temperature = TRIPLE_TEMPERATURE;
  for (let i = 0; i < 100; i++) {
    const { pressure: at, slope } = over(temperature);
    // Newton on ln p against 1/T, which is nearly a straight line
    const inverse = 1 / temperature - Math.log(pressure / at) / (slope * temperature * temperature);
    const next = 1 / inverse;
    if (Math.abs(next - temperature) < 1e-10 * temperature) return next;
    temperature = next;
  }
  return temperature;
}

/** J/kg at the triple point. Source: IAPWS-95; IAPWS R10-06(2009). */
const EVAPORATION_AT_TRIPLE = 2500.9e3;
export const LATENT_MELTING = 333.4e3;

/**
 * Latent heat of evaporation: 2500.9 - 2.3665 t - 7.85e-6 t^3 kJ/kg, t in K above the triple point. Fitted to the steam
 * tables' values (IAPWS-95) from 0 to 100 C, within 0.03 %.
 */
export function latentEvaporation(temperature: number): number {
  const t = temperature - TRIPLE_TEMPERATURE;
  return EVAPORATION_AT_TRIPLE - t * (2366.5 + 7.85e-3 * t * t);
}

/** J/(kg K): vapour at low pressure. Source: ideal gas of IAPWS-95, 1.85-1.87 from -40 to 20 C, from memory. */
const VAPOUR_HEAT = 1860;

const ICE_HEAT = 2096.8;
/** J/(kg K2) */
const ICE_HEAT_SLOPE = 7.3;

/** Specific heat of ice, J/(kg K): a straight line, good to 1 % from 200 to 273 K. Source: IAPWS R10-06(2009), from memory. */
export function iceHeat(temperature: number): number {
  return ICE_HEAT + ICE_HEAT_SLOPE * (temperature - TRIPLE_TEMPERATURE);
}

/** Enthalpy of ice, J/kg: the integral of `iceHeat` from the melting point down. */
export function iceEnthalpy(temperature: number): number {
  const t = temperature - TRIPLE_TEMPERATURE;
  return -LATENT_MELTING + t * (ICE_HEAT + 0.5 * ICE_HEAT_SLOPE * t);
}

/** Latent heat of sublimation, J/kg: that of the triple point carried down by the heat capacities of vapour and ice. */
export function latentSublimation(temperature: number): number {
  const t = temperature - TRIPLE_TEMPERATURE;
  return EVAPORATION_AT_TRIPLE + VAPOUR_HEAT * t - iceEnthalpy(temperature);
}

/** c = 4178 + 39.6 exp(-t/10 K), J/(kg K). Source: steam tables from 0 to 60 C, from memory, within 0.2 %. */
const LIQUID_HEAT = 4178;
const LIQUID_HEAT_EXCESS = 39.6;
const LIQUID_HEAT_FADE = 10;

/** Specific heat of liquid water, J/(kg K). */
export function liquidHeat(temperature: number): number {
  return LIQUID_HEAT + LIQUID_HEAT_EXCESS * Math.exp((TRIPLE_TEMPERATURE - temperature) / LIQUID_HEAT_FADE);
}

/** Enthalpy of liquid water, J/kg: the integral of `liquidHeat` from the triple point. */
export function liquidEnthalpy(temperature: number): number {
  const t = temperature - TRIPLE_TEMPERATURE;
  return LIQUID_HEAT * t - LIQUID_HEAT_EXCESS * LIQUID_HEAT_FADE * Math.expm1(-t / LIQUID_HEAT_FADE);
}

/** Mass of vapour (kg/m3) that a pressure of it means at a temperature; ideal gas. */
export function vapourDensity(pressure: number, temperature: number): number {
  return pressure / (VAPOUR_GAS_CONSTANT * temperature);
}
