import { integrateToEvent } from '../../numerics/to-event.ts';
import { POOLS, type PoolState, vapourEnthalpy } from '../dry/pool.ts';
import { loadAt } from '../evacuate/load.ts';
import { LATENT_MELTING, TRIPLE_TEMPERATURE, VAPOUR_GAS_CONSTANT } from '../gas/water.ts';
import { type Balance, type Contents, type Surroundings, vapourPerPascal } from './contents.ts';

/** What gas does meanwhile: it is pumped out, let in, or stands. Throughputs in Pa m3/s at a pressure (Pa). */
export type Flow =
  | { readonly kind: 'out'; readonly throughput: (pressure: number, vapourFraction: number) => number }
  | { readonly kind: 'in'; readonly throughput: (pressure: number) => number }
  | { readonly kind: 'none' };

/** Where a stage may end before the pool changes: at a pressure (Pa), at a time (s). */
export interface Until {
  readonly pressure?: number;
  readonly time: number;
}

export interface WetEnd {
  readonly contents: Contents;
  readonly why: 'pool' | 'pressure' | 'time';
}

/** Relative tolerance of a step, and absolute ones for a relative one of 1: Pa, K. */
const TOLERANCE = 2e-7;
const SMALL_PRESSURE = 100;
const SMALL_TEMPERATURE = 10;
const MOST_STEPS = 20_000;

/**
 * One stage with a pool: until the pool changes its state or is gone, the pressure is there, or the time is over.
 *
 * Unknowns: all gas but vapour; the pool's temperature, or while freezing or thawing its ice; the pool's mass. The vapour
 * stands at the saturation pressure p_s of the pool's temperature. With Q_out, Q_in the throughputs and y = p_s/p
 *
 *     V p_gas' = Q_in + Q_load - (1 - y) Q_out,   m_out' = y Q_out/(R_v T),   m_pool' = -m_out' - (V/(R_v T)) p_s',
 *     (m_pool c + C_metal + L V (dp_s/dT_pool)/(R_v T)) T_pool' = UA (T - T_pool) - L m_out',
 *     L_f m_ice' = L m_out' - UA (T - T_pool).
 *
 * What goes out is well mixed, so without a load the two gases keep their ratio.
 *
 * @param balance where given, the sums are unknowns of their own and are added to it
 * @param see is given the contents at the end of each step
 */
export function wetStage(
  around: Surroundings,
  flow: Flow,
  start: Contents,
  until: Until,
  balance?: Balance,
  see?: (contents: Contents) => void,
): WetEnd | undefined {
  const { ambient, volume, heat, metal, load } = around;
  const state: PoolState = start.state === 'dry' ? 'liquid' : start.state;
  const pool = POOLS[state];
  const freezing = state === 'freezing';
  const perPascal = vapourPerPascal(around);
  const loaded = flow.kind === 'out' && (load.leak > 0 || load.outgassing > 0);
  const gasAtStart = start.first + start.fed;
  const firstShare = gasAtStart > 0 ? start.first / gasAtStart : 1;
  const sums = loaded ? 4 : 3;
  const temperatureOf = (y: Float64Array): number => (freezing ? TRIPLE_TEMPERATURE : (y[1] ?? 0));
  const firstOf = (y: Float64Array): number => {
    if (flow.kind !== 'out') return start.first;
    return loaded ? Math.max(0, (y[0] ?? 0) - (y[3] ?? 0)) : firstShare * Math.max(0, y[0] ?? 0);
  };

  const rates = (t: number, y: Float64Array, rate: Float64Array): void => {
    const gas = Math.max(0, y[0] ?? 0);
    const temperature = temperatureOf(y);
    const { pressure: vapour, slope } = pool.saturation(temperature);
    const pressure = gas + vapour;
    const fraction = vapour / pressure;
    const out = flow.kind === 'out' ? flow.throughput(pressure, fraction) : 0;
    const into = flow.kind === 'in' ? flow.throughput(pressure) : 0;
    const leaking = loaded ? loadAt(load, t) : 0;
    const off = (fraction * out) / (VAPOUR_GAS_CONSTANT * ambient);
    const latent = pool.latent(temperature);
    const heatIn = heat * (ambient - temperature);
    const surplus = heatIn - latent * off;
    const filling = perPascal * vapour * slope;
    const held = Math.max(0, y[2] ?? 0) * pool.heat(temperature) + metal + latent * filling;
    const evaporated = freezing ? off : off + (filling * surplus) / held;
    const gasOut = (1 - fraction) * out;
    rate[0] = (leaking + into - gasOut) / volume;
    rate[1] = freezing ? -surplus / LATENT_MELTING : surplus / held;
    rate[2] = -evaporated;
    if (loaded) rate[3] = gas > 0 ? (-gasOut * (y[3] ?? 0)) / (gas * volume) : 0;
    if (balance === undefined) return;
    rate[sums] = off;
    rate[sums + 1] = heatIn;
    rate[sums + 2] = evaporated * vapourEnthalpy(state, temperature);
    rate[sums + 3] = gas > 0 ? (gasOut * firstOf(y)) / gas : 0;
    rate[sums + 4] = leaking;
  };

  const contentsOf = (time: number, y: Float64Array): Contents => {
    const temperature = temperatureOf(y);
    const water = Math.max(0, y[2] ?? 0);
    const first = firstOf(y);
    return {
      time,
      state,
      first,
      fed: Math.max(0, (y[0] ?? 0) - first),
      vapour: pool.saturation(temperature).pressure,
      water,
      ice: freezing ? Math.max(0, y[1] ?? 0) : state === 'ice' ? water : 0,
      temperature,
    };
  };

  const left = (_: number, y: Float64Array): number => y[2] ?? 0;
  const events = freezing
    ? [(t: number, y: Float64Array) => left(t, y) - (y[1] ?? 0), (_: number, y: Float64Array) => y[1] ?? 0]
    : [left, (_: number, y: Float64Array) => (y[1] ?? 0) - TRIPLE_TEMPERATURE];
  const { pressure: wanted } = until;
  if (wanted !== undefined) events.push((_, y) => (y[0] ?? 0) + pool.saturation(temperatureOf(y)).pressure - wanted);

  const begin = [gasAtStart, freezing ? start.ice : start.temperature, start.water];
  const small = [SMALL_PRESSURE, freezing ? start.water : SMALL_TEMPERATURE, start.water];
  if (loaded) {
    begin.push(start.fed);
    small.push(SMALL_PRESSURE);
  }
  if (balance !== undefined) {
    const joules = start.water * LATENT_MELTING;
    begin.push(0, 0, 0, 0, 0);
    small.push(start.water, joules, joules, SMALL_PRESSURE * volume, SMALL_PRESSURE * volume);
  }
  const { t, y, event, stuck } = integrateToEvent(rates, start.time, begin, until.time, {
    relative: TOLERANCE,
    absolute: small.map((size) => TOLERANCE * size),
    mostSteps: MOST_STEPS,
    events,
    onStep: (_, to, at) => see?.(contentsOf(to, at(to))),
  });
  if (stuck) return undefined;
  if (balance !== undefined) {
    balance.vapourOff += y[sums] ?? 0;
    balance.heatIn += y[sums + 1] ?? 0;
    balance.enthalpyOff += y[sums + 2] ?? 0;
    balance.firstOff += y[sums + 3] ?? 0;
    balance.firstIn += y[sums + 4] ?? 0;
  }
  const end = contentsOf(t, y);
  see?.(end);
  if (event === undefined) return { contents: end, why: 'time' };
  if (event === 2) return { contents: end, why: 'pressure' };
  return { contents: changed(end, event === 0), why: 'pool' };
}

/** The pool's next state: `first` where what the first event watches, liquid or all water, is gone. */
function changed(end: Contents, first: boolean): Contents {
  if (end.state === 'freezing')
    return first ? { ...end, state: 'ice', ice: end.water } : { ...end, state: 'liquid', ice: 0 };
  if (first) return { ...end, state: 'dry', water: 0, ice: 0 };
  return { ...end, state: 'freezing', temperature: TRIPLE_TEMPERATURE };
}
