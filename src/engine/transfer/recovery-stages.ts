import { integrate } from '../../numerics/dormand-prince.ts';
import type { Derivative, OdeOptions } from '../../numerics/ode.ts';
import { GAUSS_5, gauss } from '../../numerics/quadrature.ts';
import { integrateStiff } from '../../numerics/rodas.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import type { MachineCurve } from './machine.ts';
import type { RealVapour } from './real-gas-rig.ts';
import { poolEnthalpy, poolPoint } from './recovery-pool.ts';

/**
 * The stages of a recovery: with liquid, an initial value problem that ends where the liquid is gone; with vapour alone,
 * an integral. SI.
 */

export interface RecoverySystem {
  readonly refrigerant: Refrigerant;
  /** vapour at the temperature of the surroundings */
  readonly vapour: RealVapour;
  readonly curve: MachineCurve;
  /** m3 */
  readonly volume: number;
  /** W/K from the surroundings to the liquid */
  readonly heat: number;
  /** J/K of the metal that is as cold as the liquid */
  readonly metal: number;
}

/** A moment of a recovery. */
export interface RecoveryMoment {
  /** s */
  readonly time: number;
  readonly state: 'liquid' | 'vapour';
  /** Pa */
  readonly pressure: number;
  /** kg; all that is in the system, and the liquid of it */
  readonly mass: number;
  readonly liquid: number;
  /** K, of the liquid; of the vapour where there is none */
  readonly temperature: number;
  /** kg/s that leave */
  readonly flow: number;
  /** Pa at the machine's suction, or at the cylinder while it is pushed there */
  readonly suction: number;
}

/** Sums along the way: kg and J that left, J that came in from outside, J given off by the metal. */
export interface RecoveryBalance {
  out: number;
  heatIn: number;
  enthalpyOut: number;
}

export type WatchRecovery = (moment: RecoveryMoment) => void;

/** Longest recovery that is followed, s. */
export const LONGEST = 366 * 86400;
/** Mass closes to 1e-6 with it in all of a thousand recoveries, carbon dioxide's to its triple point among them; 1e-8 left four of them outside. */
const TOLERANCE = 2e-9;
const SMALL_TEMPERATURE = 0.1;
const MOST_STEPS = 2000;
/** Moments that a watcher is given within each step. */
const PLACES = 3;
/** The liquid's end is looked for down to this part of the first liquid. */
const LAST_DROP = 1e-9;

/** How liquid and vapour leave at a liquid temperature: kg/s each. */
export interface Draw {
  readonly vapour: number;
  readonly liquid: number;
  readonly suction: number;
}

/**
 * With liquid in the system, from a moment to where the liquid is gone. m_l the liquid, F and W what leaves as vapour and
 * as liquid, e what boils, r = rho_v/rho_l:
 *
 *     m_l' = -W - e,     e (1 - r) = F + r W + A T',     A = V_v drho_v/dT + m_l (rho_v/rho_l^2) drho_l/dT,
 *     (m_l dh_l/dT + C_metal) T' = UA (T_amb - T) - L e.
 *
 * @returns the last moment, or undefined where the liquid is not gone within a year
 */
export function liquidStage(
  system: RecoverySystem,
  start: RecoveryMoment,
  draw: (temperature: number, pressure: number) => Draw,
  balance: RecoveryBalance,
  watch: WatchRecovery,
  coldest: { readonly temperature: number; readonly raise: () => never },
): RecoveryMoment | undefined {
  const { refrigerant, vapour, volume, heat, metal } = system;
  const ambient = vapour.gas.temperature;
  const rates: Derivative = (_t, y, out) => {
    const liquid = Math.max(0, y[0] ?? 0);
    const temperature = Math.min(y[1] ?? 0, ambient);
    const point = poolPoint(refrigerant, vapour, temperature);
    const leaves = draw(temperature, point.pressure);
    const r = point.vapourDensity / point.liquidDensity;
    const space = volume - liquid / point.liquidDensity;
    const holding = space * point.vapourDensitySlope + (liquid * r * point.liquidDensitySlope) / point.liquidDensity;
    const heatIn = heat * (ambient - (y[1] ?? 0));
    const wanted = (leaves.vapour + r * leaves.liquid) / (1 - r);
    const capacity = liquid * point.heat + metal + (point.latentHeat * holding) / (1 - r);
    const rate = (heatIn - point.latentHeat * wanted) / capacity;
    const boils = wanted + (holding * rate) / (1 - r);
    out[0] = -leaves.liquid - boils;
    out[1] = rate;
    out[2] = leaves.vapour + leaves.liquid;
    out[3] = heatIn;
    // what leaves the liquid: its vapour, and liquid as it is
    const base = poolEnthalpy(refrigerant, temperature);
    out[4] = boils * (base + point.latentHeat) + leaves.liquid * base;
  };
  const momentAt = (t: number, y: Float64Array): RecoveryMoment => {
    const liquid = Math.max(0, y[0] ?? 0);
    const temperature = Math.min(y[1] ?? 0, ambient);
    const point = poolPoint(refrigerant, vapour, temperature);
    const leaves = draw(temperature, point.pressure);
    return {
      time: start.time + t,
      state: 'liquid',
      pressure: point.pressure,
      mass: liquid + (volume - liquid / point.liquidDensity) * point.vapourDensity,
      liquid,
      temperature,
      flow: leaves.vapour + leaves.liquid,
      suction: leaves.suction,
    };
  };
  const all = start.liquid;
  const options: OdeOptions = {
    relative: TOLERANCE,
    absolute: [TOLERANCE * all, TOLERANCE * SMALL_TEMPERATURE * 10, TOLERANCE * all, TOLERANCE * 1e3, TOLERANCE * 1e3],
    mostSteps: MOST_STEPS,
    events: [(_t, y) => (y[0] ?? 0) - LAST_DROP * all, (_t, y) => (y[1] ?? 0) - coldest.temperature],
    onStep: (from, to, at) => {
      for (let k = 1; k <= PLACES; k++) {
        const time = from + ((to - from) * k) / PLACES;
        watch(momentAt(time, at(time)));
      }
    },
  };
  const begin = [all, start.temperature, 0, 0, 0];
  let result = integrate(rates, 0, begin, LONGEST, options);
  // a cold pool that waits for heat makes the rest stiff
  if (result.status === 'stuck') result = integrateStiff(rates, result.t, result.y, LONGEST, options);
  if (result.event === 1) coldest.raise();
  balance.out += result.y[2] ?? 0;
  balance.heatIn += result.y[3] ?? 0;
  balance.enthalpyOut += result.y[4] ?? 0;
  return result.status === 'event' ? momentAt(result.t, result.y) : undefined;
}

const PANELS = 48;

/**
 * Vapour alone, at the temperature of the surroundings, down to a pressure: the closed form
 *
 *     t = V Int (drho/dp) dp/mdot = V Int (drho/dp)/K d ln(p - p_lowest),  mdot = K (p - p_lowest),
 *
 * by quadrature on the curve of machine and rig (with constant K and drho/dp it is V drho/dp ln(e0/e1)/K).
 *
 * @returns the last moment
 */
export function vapourStage(
  { vapour, curve, volume }: RecoverySystem,
  start: RecoveryMoment,
  level: number,
  watch: WatchRecovery,
): RecoveryMoment {
  const { lowest, suction } = curve;
  const momentAt = (time: number, pressure: number): RecoveryMoment => {
    const flow = curve.flow(pressure);
    return {
      time,
      state: 'vapour',
      pressure,
      mass: volume * vapour.density(pressure),
      liquid: 0,
      temperature: vapour.gas.temperature,
      flow,
      suction: flow > 0 ? suction.pressure(flow) : lowest,
    };
  };
  if (!(start.pressure > level)) {
    const moment = momentAt(start.time, start.pressure);
    watch(moment);
    return moment;
  }
  const top = Math.log(start.pressure - lowest);
  const step = (Math.log(level - lowest) - top) / PANELS;
  const perLn = (x: number): number => -vapour.densitySlope(lowest + Math.exp(x)) / curve.conductance(x);
  let moment = momentAt(start.time, start.pressure);
  watch(moment);
  for (let i = 0; i < PANELS; i++) {
    const time = moment.time + volume * gauss(perLn, top + i * step, top + (i + 1) * step, GAUSS_5);
    moment = momentAt(time, i === PANELS - 1 ? level : lowest + Math.exp(top + (i + 1) * step));
    watch(moment);
  }
  return moment;
}
