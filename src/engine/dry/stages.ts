import type { Derivative, OdeOptions } from '../../numerics/ode.ts';
import { quadrature } from '../../numerics/quadrature.ts';
import { integrateStiff } from '../../numerics/rodas.ts';
import { type GasLoad, loadAt } from '../evacuate/load.ts';
import { LATENT_MELTING, TRIPLE_TEMPERATURE, VAPOUR_GAS_CONSTANT } from '../gas/water.ts';
import { POOLS, type PoolState, poolEnthalpy, vapourEnthalpy } from './pool.ts';
import { mixtureThroughput, type RigSurface } from './rig-surface.ts';

/**
 * The stages of a dry-out, each an initial value problem that ends where the pool changes its state. SI.
 */

/** What holds through all stages. */
export interface Surroundings {
  readonly surface: RigSurface;
  /** m3 */
  readonly volume: number;
  /** W/K from the surroundings to the water */
  readonly heat: number;
  /** J/K of the metal that is as cold as the water */
  readonly metal: number;
  readonly load: GasLoad;
  /** relative tolerance of a step */
  readonly tolerance: number;
}

/** A moment: all that is needed to go on from it. */
export interface Moment {
  /** s */
  readonly time: number;
  readonly state: PoolState | 'dry';
  /** partial pressures, Pa */
  readonly gas: number;
  readonly vapour: number;
  /** liquid and ice together, and ice, kg */
  readonly water: number;
  readonly ice: number;
  /** K, of the pool; of the gas where there is no pool */
  readonly temperature: number;
}

/** Sums along a way, for the balances: kg that left by the rig, J that came in, J that went off with vapour. */
export interface Balance {
  carriedOff: number;
  heatIn: number;
  enthalpyOff: number;
}

/** Gives the moments of a stage: the ends of the steps, and places within each step where `places` is above 1. */
export interface Watch {
  readonly places: number;
  readonly see: (moment: Moment) => void;
}

/** Longest dry-out that is followed, s. */
export const LONGEST = 366 * 86400;
/** Relative tolerance of a step. */
export const FINE = 2e-7;
/** Absolute tolerances for a relative one of 1: Pa, K. */
const SMALL_PRESSURE = 100;
const SMALL_TEMPERATURE = 10;
const MOST_STEPS = 20_000;
/** Vapour (kg) in the volume per Pa. */
export function vapourPerPascal({ surface, volume }: Surroundings): number {
  return volume / (VAPOUR_GAS_CONSTANT * surface.temperature);
}

/**
 * One stage with a pool, from a moment to where the pool changes its state or is gone; undefined where it lasts too long.
 *
 * Unknowns: partial pressure of the gas; the pool's temperature, or while freezing its ice; the pool's mass. The vapour
 * stands at the saturation pressure p_s of the pool's temperature, so that
 *
 *     m_out' = y Q/(R_v T),   m_pool' = -m_out' - (V/(R_v T)) p_s',   V p_gas' = Q_load - (1 - y) Q,
 *     (m_pool c + C_metal + L V (dp_s/dT_pool)/(R_v T)) T_pool' = UA (T - T_pool) - L m_out',
 *     L_f m_ice' = L m_out' - UA (T - T_pool).
 *
 * @param balance where given, the sums are unknowns of their own and are added to it
 */
export function poolStage(
  around: Surroundings,
  start: Moment,
  balance: Balance | undefined,
  watch: Watch,
): Moment | undefined {
  const { surface, volume, heat, metal, load, tolerance } = around;
  const ambient = surface.temperature;
  const state: PoolState = start.state === 'dry' ? 'liquid' : start.state;
  const pool = POOLS[state];
  const freezing = state === 'freezing';
  const perPascal = vapourPerPascal(around);
  const temperatureOf = (y: Float64Array): number => (freezing ? TRIPLE_TEMPERATURE : (y[1] ?? 0));

  const rates = (t: number, y: Float64Array, out: Float64Array): void => {
    const gas = Math.max(0, y[0] ?? 0);
    const temperature = temperatureOf(y);
    const { pressure: vapour, slope } = pool.saturation(temperature);
    const pressure = gas + vapour;
    const fraction = vapour / pressure;
    const throughput = mixtureThroughput(surface, pressure, fraction);
    const off = (fraction * throughput) / (VAPOUR_GAS_CONSTANT * ambient);
    const latent = pool.latent(temperature);
    const heatIn = heat * (ambient - temperature);
    const surplus = heatIn - latent * off;
    const filling = perPascal * vapour * slope;
    const mass = Math.max(0, y[2] ?? 0);
    const held = mass * pool.heat(temperature) + metal + latent * filling;
    out[0] = (loadAt(load, t) - (1 - fraction) * throughput) / volume;
    out[1] = freezing ? -surplus / LATENT_MELTING : surplus / held;
    const evaporated = freezing ? off : off + (filling * surplus) / held;
    out[2] = -evaporated;
    if (balance === undefined) return;
    out[3] = off;
    out[4] = heatIn;
    out[5] = evaporated * vapourEnthalpy(state, temperature);
  };

  const momentOf = (time: number, y: Float64Array): Moment => {
    const temperature = temperatureOf(y);
    const vapour = pool.saturation(temperature).pressure;
    const water = Math.max(0, y[2] ?? 0);
    const ice = freezing ? Math.max(0, y[1] ?? 0) : state === 'ice' ? water : 0;
    return { time, state, gas: Math.max(0, y[0] ?? 0), vapour, water, ice, temperature };
  };

  const left = (_: number, y: Float64Array): number => y[2] ?? 0;
  const events = freezing
    ? [(t: number, y: Float64Array) => left(t, y) - (y[1] ?? 0), (_: number, y: Float64Array) => y[1] ?? 0]
    : [left, (_: number, y: Float64Array) => (y[1] ?? 0) - TRIPLE_TEMPERATURE];

  const pooled = [start.gas, freezing ? start.ice : start.temperature, start.water];
  const small = [SMALL_PRESSURE, freezing ? start.water : SMALL_TEMPERATURE, start.water].map(
    (size) => tolerance * size,
  );
  const joules = tolerance * start.water * LATENT_MELTING;
  const options = {
    relative: tolerance,
    absolute: balance === undefined ? small : [...small, tolerance * start.water, joules, joules],
    mostSteps: MOST_STEPS,
  };
  const last = { time: start.time, y: balance === undefined ? pooled : [...pooled, 0, 0, 0] };
  const result = integrateStiff(rates, start.time, last.y, LONGEST, {
    ...options,
    events,
    onStep: (from, to, at) => {
      const y = at(to);
      // the step that an event ends is walked again below
      if (events.some((event, i) => Math.abs(event(to, y)) <= 1e-9 * (i === 0 ? start.water : 1))) {
        last.time = from;
        last.y = Array.from(at(from));
      } else watchStep(watch, from, to, (time) => momentOf(time, at(time)));
    },
  });
  const ending = events[result.event ?? -1];
  if (ending === undefined) return undefined;
  const { time, y } = walkTo(rates, last.time, last.y, result.t, ending, options);
  if (balance !== undefined) {
    balance.carriedOff += y[3] ?? 0;
    balance.heatIn += y[4] ?? 0;
    balance.enthalpyOff += y[5] ?? 0;
  }
  const end = momentOf(time, y);
  watch.see(end);
  const gone = result.event === 0;
  if (freezing) {
    // without liquid only ice is left, without ice only liquid
    return gone ? { ...end, state: 'ice', ice: end.water } : { ...end, state: 'liquid', ice: 0 };
  }
  if (gone) return { ...end, state: 'dry', water: 0, ice: 0 };
  return { ...end, state: 'freezing', temperature: TRIPLE_TEMPERATURE };
}

/** Most corrections of the time of an event. */
const MOST_WALKS = 8;

/**
 * The state where `event` is zero, near a time that interpolation within a step gave. Within a long step of a stiff problem
 * the cubic through both ends can be far off, so the way there is walked again and its end corrected by Newton's method.
 */
function walkTo(
  rates: Derivative,
  from: number,
  start: readonly number[],
  near: number,
  event: (t: number, y: Float64Array) => number,
  options: OdeOptions,
): { readonly time: number; readonly y: Float64Array } {
  const slope = new Float64Array(start.length);
  let time = near;
  let y = Float64Array.from(start);
  let at = from;
  for (let i = 0; i < MOST_WALKS; i++) {
    // on from the last place where that was not too far
    if (time < at) {
      at = from;
      y = Float64Array.from(start);
    }
    if (time > at) y = Float64Array.from(integrateStiff(rates, at, y, time, options).y);
    at = time;
    rates(time, y, slope);
    const value = event(time, y);
    const small = 1e-6;
    const ahead = y.map((one, k) => one + small * (slope[k] ?? 0));
    const step = (-small * value) / (event(time, ahead) - value);
    if (!Number.isFinite(step) || Math.abs(step) <= 1e-9 * (1 + time - from)) break;
    time = Math.max(from, time + step);
  }
  return { time: at, y };
}

/** Places within a step are kept between its ends: the cubic there may swing where a part of the problem is stiff. */
function watchStep({ places, see }: Watch, from: number, to: number, at: (time: number) => Moment): void {
  const b = at(to);
  if (places > 1) {
    const a = at(from);
    const within = (low: number, value: number, high: number): number =>
      Math.min(Math.max(value, Math.min(low, high)), Math.max(low, high));
    for (let i = 1; i < places; i++) {
      const moment = at(from + ((to - from) * i) / places);
      see({
        ...moment,
        gas: within(a.gas, moment.gas, b.gas),
        vapour: within(a.vapour, moment.vapour, b.vapour),
        water: within(a.water, moment.water, b.water),
        ice: within(a.ice, moment.ice, b.ice),
        temperature: within(a.temperature, moment.temperature, b.temperature),
      });
    }
  }
  see(b);
}

/** Enthalpy of pool and metal at a moment, J. */
export function heldEnthalpy({ metal }: Surroundings, { state, water, ice, temperature }: Moment): number {
  const pool = state === 'dry' ? 0 : poolEnthalpy(state, water, ice, temperature);
  return pool + metal * (temperature - TRIPLE_TEMPERATURE);
}

/** The last stage: gas and vapour without a pool down to a target pressure (Pa); undefined where it lasts too long. */
export function dryStage(around: Surroundings, start: Moment, target: number, watch: Watch): Moment | undefined {
  const { surface, volume, load } = around;
  const pressure = start.gas + start.vapour;
  if (pressure <= target) return start;
  if (watch.places === 1 && load.leak === 0 && load.outgassing === 0) return unloaded(around, start, target);
  const rates = (t: number, y: Float64Array, out: Float64Array): void => {
    const gas = Math.max(0, y[0] ?? 0);
    const vapour = Math.max(0, y[1] ?? 0);
    const pressure = gas + vapour;
    const fraction = pressure > 0 ? vapour / pressure : 0;
    const throughput = mixtureThroughput(surface, pressure, fraction);
    out[0] = (loadAt(load, t) - (1 - fraction) * throughput) / volume;
    out[1] = (-fraction * throughput) / volume;
  };
  const momentOf = (time: number, y: Float64Array): Moment => {
    const temperature = surface.temperature;
    return { time, state: 'dry', gas: y[0] ?? 0, vapour: y[1] ?? 0, water: 0, ice: 0, temperature };
  };
  const result = integrateStiff(rates, start.time, [start.gas, start.vapour], start.time + LONGEST, {
    relative: FINE,
    absolute: 1e-3 * FINE * target,
    mostSteps: MOST_STEPS,
    events: [(_, y) => (y[0] ?? 0) + (y[1] ?? 0) - target],
    onStep: (from, to, at) => watchStep(watch, from, to, (time) => momentOf(time, at(time))),
  });
  return result.status === 'event' ? momentOf(result.t, result.y) : undefined;
}

/** Width of a panel of ln(p - pu) in the integral of the last stage. */
const PANEL = 0.4;

/** The last stage without a load: the composition stays, so the time is V Int dp/Q as for one gas. */
function unloaded({ surface, volume }: Surroundings, start: Moment, target: number): Moment {
  const pressure = start.gas + start.vapour;
  const fraction = start.vapour / pressure;
  const from = Math.log(target - surface.ultimate);
  const to = Math.log(pressure - surface.ultimate);
  const integrand = (x: number): number => {
    const excess = Math.exp(x);
    return excess / mixtureThroughput(surface, surface.ultimate + excess, fraction);
  };
  const seconds = volume * quadrature(integrand, from, to, Math.max(1, Math.ceil((to - from) / PANEL)));
  return {
    ...start,
    time: start.time + seconds,
    gas: (1 - fraction) * target,
    vapour: fraction * target,
    temperature: surface.temperature,
  };
}
