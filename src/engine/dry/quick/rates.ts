import { type GasLoad, isSteady, LEVEL_BEFORE, loadAt } from '../../evacuate/load.ts';
import { LATENT_MELTING, TRIPLE_PRESSURE, TRIPLE_TEMPERATURE } from '../../gas/water.ts';
import type { PoolState } from '../pool.ts';
import { type FlowPatches, type Throughput, throughputOn } from './flow-patches.ts';
import { ICE_CELLS, LIQUID_CELLS, type WaterAt, waterOn } from './water-cells.ts';

/**
 * Rates of a dry-out and their slopes in closed form. SI.
 *
 * Unknowns: (0) the logarithm of the partial pressure of the gas, which falls in nearly a straight line where the pressure itself
 * would decay; (1) the pool's temperature, while freezing its ice, once dry the logarithm of the vapour's partial pressure;
 * (2) the pool's mass.
 */

/** What holds through all stages of one unit. */
export interface Course {
  readonly patches: FlowPatches;
  readonly ambient: number;
  readonly volume: number;
  readonly heat: number;
  readonly metal: number;
  readonly load: GasLoad;
  /** kg of vapour in the volume per Pa; and per Pa m3 */
  readonly perPascal: number;
  readonly perThroughput: number;
}

export type Stage = PoolState | 'dry';

/** A state: time (s) and the three unknowns. Handed on as a record, so that no number is boxed on the way. */
export interface State {
  time: number;
  x0: number;
  x1: number;
  x2: number;
}

/** A state with its rates, their slopes (row by unknown; 02 is always zero) and what else is asked of it. */
export interface Slopes {
  r0: number;
  r1: number;
  r2: number;
  j00: number;
  j01: number;
  j10: number;
  j11: number;
  j12: number;
  j20: number;
  j21: number;
  j22: number;
  /** slope of rate 0 with time */
  later: number;
  gas: number;
  vapour: number;
  throughput: number;
  /** change of the throughput with time */
  throughputRate: number;
  /** change of the mole fraction of vapour with time */
  fractionRate: number;
}

export function noSlopes(): Slopes {
  const n = Number.NaN;
  return {
    ...{ r0: n, r1: n, r2: n, j00: n, j01: n, j10: n, j11: n, j12: n, j20: n, j21: n, j22: n, later: n },
    ...{ gas: n, vapour: n, throughput: n, throughputRate: n, fractionRate: n },
  };
}

const flow: Throughput = { value: Number.NaN, byPressure: Number.NaN, byFraction: Number.NaN };
const water: WaterAt = {
  pressure: Number.NaN,
  slope: Number.NaN,
  bend: Number.NaN,
  heat: Number.NaN,
  heatSlope: Number.NaN,
  latent: Number.NaN,
  latentSlope: Number.NaN,
};
const LATENT_AT_TRIPLE = ((): number => {
  waterOn(LIQUID_CELLS, TRIPLE_TEMPERATURE, water);
  return water.latent;
})();

/**
 * Fills `out` at a time and state. The equations are those of `stages.ts`; with p_g = exp(u)
 *
 *     u' = Q_load/(V p_g) - Q/(V p).
 *
 * @param withSlopes false: the rates only
 */
export function ratesAt(
  course: Course,
  stage: Stage,
  { time, x0, x1, x2 }: State,
  withSlopes: boolean,
  out: Slopes,
): void {
  const { volume, load, perPascal, perThroughput } = course;
  const gas = Math.exp(x0);
  let vapour: number;
  let slope = 0;
  if (stage === 'liquid' || stage === 'ice') {
    waterOn(stage === 'liquid' ? LIQUID_CELLS : ICE_CELLS, x1, water);
    vapour = water.pressure;
    slope = water.slope;
  } else if (stage === 'freezing') vapour = TRIPLE_PRESSURE;
  else {
    vapour = Math.exp(x1);
    slope = 1;
  }
  const pressure = gas + vapour;
  const fraction = vapour / pressure;
  throughputOn(course.patches, pressure, fraction, withSlopes, flow);
  const q = flow.value;
  const entering = loadAt(load, time);
  const speed = q / pressure;
  // without a load the gas may be gone to nothing
  const filling = entering === 0 ? 0 : entering / gas;
  out.r0 = (filling - speed) / volume;
  const mixed = fraction * (1 - fraction);
  const q0 = flow.byPressure * gas - flow.byFraction * mixed;
  const q1 = (flow.byPressure * vapour + flow.byFraction * mixed) * slope;
  if (withSlopes) {
    out.j00 = (-filling - (q0 - speed * gas) / pressure) / volume;
    out.j01 = (-q1 + speed * vapour * slope) / (pressure * volume);
    out.later =
      isSteady(load) || time < LEVEL_BEFORE ? 0 : (-load.exponent * (entering - load.leak)) / (time * gas * volume);
    out.gas = gas;
    out.vapour = vapour;
    out.throughput = q;
  }
  if (stage === 'dry') {
    out.r1 = -speed / volume;
    out.r2 = 0;
    if (!withSlopes) return;
    out.j10 = -(q0 - speed * gas) / (pressure * volume);
    out.j11 = out.j01;
    out.j12 = 0;
    out.j20 = 0;
    out.j21 = 0;
    out.j22 = 0;
    return;
  }
  const off = perThroughput * fraction * q;
  const off0 = perThroughput * (fraction * q0 - mixed * q);
  if (stage === 'freezing') {
    const melting = course.heat * (course.ambient - TRIPLE_TEMPERATURE);
    out.r1 = (LATENT_AT_TRIPLE * off - melting) / LATENT_MELTING;
    out.r2 = -off;
    if (!withSlopes) return;
    out.j10 = (LATENT_AT_TRIPLE * off0) / LATENT_MELTING;
    out.j11 = 0;
    out.j12 = 0;
    out.j20 = -off0;
    out.j21 = 0;
    out.j22 = 0;
    out.throughputRate = q0 * out.r0;
    out.fractionRate = -mixed * out.r0;
    return;
  }
  const { latent, latentSlope, heat } = water;
  const mass = Math.max(x2, 0);
  const vapourSlope = perPascal * vapour * slope;
  const held = mass * heat + course.metal + latent * vapourSlope;
  const warming = (course.heat * (course.ambient - x1) - latent * off) / held;
  out.r1 = warming;
  out.r2 = -off - vapourSlope * warming;
  if (!withSlopes) return;
  const off1 = perThroughput * (fraction * q1 + mixed * slope * q);
  const vapourBend = perPascal * vapour * (slope * slope + water.bend);
  const heldSlope = mass * water.heatSlope + latentSlope * vapourSlope + latent * vapourBend;
  const j10 = (-latent * off0) / held;
  const j11 = (-course.heat - latentSlope * off - latent * off1 - warming * heldSlope) / held;
  const j12 = x2 > 0 ? (-warming * heat) / held : 0;
  out.j10 = j10;
  out.j11 = j11;
  out.j12 = j12;
  out.j20 = -off0 - vapourSlope * j10;
  out.j21 = -off1 - vapourBend * warming - vapourSlope * j11;
  out.j22 = -vapourSlope * j12;
  out.throughputRate = q0 * out.r0 + q1 * warming;
  out.fractionRate = mixed * (slope * warming - out.r0);
}
