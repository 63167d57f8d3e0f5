import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import type { GasState } from '../../../src/engine/gas/state.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';

/**
 * Second implementation of a dry-out, for parts in series behind a pump S0 (1 - pu/p). It shares the passages with the
 * engine and nothing else: no curve, no table over pressure, other formulas for water (from memory: Murphy and Koop, Q. J.
 * R. Meteorol. Soc. 131 (2005) 1539), straight lines for latent heats, one enthalpy for liquid and ice in which freezing
 * comes out by itself, and small explicit steps: pump for a moment, then let pool and vapour come to rest.
 */

const R = 8.314462618;
const WATER = 0.018015268;
const MELTING = 273.16;
const FUSION = 333.5e3;
const LIQUID = 4195;

export function vapourPressure(T: number): number {
  const ln = Math.log(T);
  if (T < MELTING) return Math.exp(9.550426 - 5723.265 / T + 3.53068 * ln - 0.00728332 * T);
  const bend = Math.tanh(0.0415 * (T - 218.8)) * (53.878 - 1331.22 / T - 9.44523 * ln + 0.014025 * T);
  return Math.exp(54.842763 - 6763.22 / T - 4.21 * ln + 0.000367 * T + bend);
}

/** J/kg of vapour from liquid at the melting point */
export const vapourEnthalpy = (T: number): number => 2501e3 + 1850 * (T - MELTING);

/** Temperature of a pool by its enthalpy per kg; ice by a mean heat capacity. */
export function poolTemperature(h: number): number {
  if (h > 0) return MELTING + h / LIQUID;
  if (h > -FUSION) return MELTING;
  return MELTING + (h + FUSION) / 2020;
}
export function poolEnthalpy(T: number): number {
  return T >= MELTING ? LIQUID * (T - MELTING) : -FUSION + 2020 * (T - MELTING);
}

/** Molar mass by mole fraction, viscosity by Wilke's rule, heat capacities by mole fraction; written out for two gases. */
export function mixture(air: GasState, vapour: GasState, y: number): GasState {
  const phi = (e1: number, e2: number, m1: number, m2: number): number =>
    (1 + (e1 / e2) ** 0.5 * (m2 / m1) ** 0.25) ** 2 / (8 * (1 + m1 / m2)) ** 0.5;
  const [ea, ev, ma, mv] = [air.viscosity, vapour.viscosity, air.molarMass, vapour.molarMass];
  const viscosity = ea / (1 + (y / (1 - y)) * phi(ea, ev, ma, mv)) + ev / (1 + ((1 - y) / y) * phi(ev, ea, mv, ma));
  const molarMass = (1 - y) * ma + y * mv;
  const cv = (1 - y) / (air.heatCapacityRatio - 1) + y / (vapour.heatCapacityRatio - 1);
  const specificGasConstant = R / molarMass;
  return {
    ...air,
    name: `mixture ${y}`,
    viscosity,
    molarMass,
    specificGasConstant,
    heatCapacityRatio: (cv + 1) / cv,
    probableSpeed: Math.sqrt(2 * specificGasConstant * air.temperature),
  };
}

const CELLS = 100;

/** Throughput at a pressure and composition: the march behind the pump, found by halving, between two compositions. */
export function flowOf(rig: Rig, air: GasState, vapour: GasState): (p: number, y: number) => number {
  const { speed, ultimate } = rig.pump;
  const known = new Map<number, (inlet: number, most: number) => number>();
  const marchAt = (cell: number): ((inlet: number, most: number) => number) => {
    let found = known.get(cell);
    if (found === undefined) {
      const gas = mixture(air, vapour, Math.min(1 - 1e-6, Math.max(1e-6, cell / CELLS)));
      const passages = rig.parts.map((part) => preparePassage(part.passage, gas));
      found = (inlet, most) => {
        let p = inlet;
        for (const passage of passages) {
          p = passage.upstreamPressure(speed * (inlet - ultimate), p);
          if (p > most) break;
        }
        return p;
      };
      known.set(cell, found);
    }
    return found;
  };
  const flowAt = (cell: number, p: number): number => {
    const systemFrom = marchAt(cell);
    let low = ultimate;
    let high = p;
    for (let i = 0; i < 30; i++) {
      const inlet = 0.5 * (low + high);
      if (systemFrom(inlet, p) > p) high = inlet;
      else low = inlet;
    }
    return speed * (0.5 * (low + high) - ultimate);
  };
  return (p, y) => {
    if (p <= ultimate) return 0;
    const cell = Math.min(CELLS - 1, Math.floor(y * CELLS));
    const share = y * CELLS - cell;
    return (1 - share) * flowAt(cell, p) + share * flowAt(cell + 1, p);
  };
}

export interface BruteForce {
  readonly dry: number;
  readonly toTarget: number;
  readonly coldest: number;
  readonly froze: boolean;
  readonly steps: number;
}

export function bruteForce(
  rig: Rig,
  air: GasState,
  vapour: GasState,
  system: { volume: number; water: number; heat: number; start: number; target: number; leak?: number },
  part = 2e-3,
): BruteForce {
  const { volume, heat, start, target, leak = 0 } = system;
  const T0 = air.temperature;
  const flow = flowOf(rig, air, vapour);
  const perPascal = (volume * WATER) / (R * T0);
  let pv = vapourPressure(T0);
  let pa = start - pv;
  let m = system.water;
  let h = poolEnthalpy(T0);
  let t = 0;
  let coldest = T0;
  let froze = T0 < MELTING;
  let dry = Number.NaN;
  for (let steps = 0; steps < 2e6; steps++) {
    const p = pa + pv;
    if (m <= 0 && p <= target) return { dry, toTarget: t - dry, coldest, froze, steps };
    const y = pv / p;
    const q = flow(p, y);
    const T = poolTemperature(h);
    // a fixed part of what changes fastest: the content of the volume, the pool, or 0.02 K of it
    const out = (perPascal * y * q) / volume;
    const drive = Math.abs(heat * (T0 - T) - 2.6e6 * out);
    let dt = (20 * part * volume * p) / q;
    if (m > 0) {
      dt = Math.min(dt, (part * m) / out + 1e-3, (10 * part * (m * 2000 + 2.6e6 * perPascal * pv * 0.08)) / drive);
    } else dt = Math.min(dt, (part * volume * p) / q);
    if (pa > 0.01 * p) dt = Math.min(dt, (2 * part * volume * p) / q);
    t += dt;
    pa = Math.max(0, pa + ((leak - (1 - y) * q) * dt) / volume);
    pv -= (y * q * dt) / volume;
    if (m <= 0) continue;
    // pool and vapour come to rest: the pool's enthalpy per kg at which both balances hold
    const before = m * h + heat * (T0 - T) * dt;
    const off = vapourEnthalpy(T);
    let low = -FUSION - 2020 * 120;
    let high = LIQUID * (T0 - MELTING + 1);
    for (let i = 0; i < 50; i++) {
      const middle = 0.5 * (low + high);
      const risen = perPascal * (vapourPressure(poolTemperature(middle)) - pv);
      if ((m - risen) * middle > before - risen * off) high = middle;
      else low = middle;
    }
    const next = 0.5 * (low + high);
    const pressure = vapourPressure(poolTemperature(next));
    const risen = perPascal * (pressure - pv);
    if (risen >= m) {
      pv += m / perPascal;
      m = 0;
      dry = t;
      continue;
    }
    pv = pressure;
    m -= risen;
    h = next;
    coldest = Math.min(coldest, poolTemperature(h));
    if (h < 0) froze = true;
  }
  throw new Error('the small steps ran out');
}
