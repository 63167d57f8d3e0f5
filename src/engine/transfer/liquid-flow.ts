import { findRoot } from '../../numerics/root.ts';
import { churchill } from '../flow/friction.ts';
import { chokedConstant } from '../flow/nozzle.ts';
import type { Passage, PreparedPassage } from '../flow/passage.ts';
import { SONIC_REFERENCE } from '../flow/sonic.ts';
import { liquidCriticalFactor } from '../flow/valve.ts';
import { MOLAR_GAS_CONSTANT } from '../gas/constants.ts';
import type { GasState } from '../gas/state.ts';
import type { Refrigerant } from '../refrigerant/refrigerant.ts';
import { type PreparedRig, prepareRig, type Stage } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { upstreamOfStages } from './real-gas-rig.ts';

/** A liquid at one temperature. SI. */
export interface LiquidState {
  /** kg/m3 */
  readonly density: number;
  /** Pa s */
  readonly viscosity: number;
  /** Pa; where it begins to boil */
  readonly vapourPressure: number;
  /** Pa */
  readonly criticalPressure: number;
}

/** Refrigerant liquid at a temperature (K) as it flows. */
export function liquidState(refrigerant: Refrigerant, temperature: number): LiquidState {
  return {
    density: refrigerant.liquidDensity(temperature),
    viscosity: refrigerant.liquidViscosity(temperature),
    vapourPressure: refrigerant.bubblePressure(temperature),
    criticalPressure: refrigerant.criticalPressure,
  };
}

/** mdot = Kv sqrt(rho dp)/36000 in SI. Source: definition of Kv, IEC 60534-1. */
const KV_SI = 36000;
const AIR = { molarMass: 0.0289655, heatCapacityRatio: 1.4 } as const;
const TURBULENT_FLOOR = 1e-30;

/** Effective area Cd A (m2) that passes the choked air flow of a sonic conductance; liquid through it by Cd A sqrt(2 rho dp). */
function sonicArea(sonicConductance: number): number {
  const { density, temperature } = SONIC_REFERENCE;
  const root = Math.sqrt((MOLAR_GAS_CONSTANT * temperature) / AIR.molarMass);
  return (sonicConductance * density * root) / chokedConstant(AIR.heatCapacityRatio);
}

/**
 * Pressure drop (Pa) of liquid at `flow` (kg/s, >= 0) through one passage without boiling.
 *
 *     tube:    dp = (f L/D + K) G^2/(2 rho), f by Churchill, G = mdot/A
 *     opening: dp = (mdot/(Cd A))^2/(2 rho)
 *     valve:   dp = (36000 mdot/Kv)^2/rho, IEC 60534-2-1, turbulent
 *     sonic conductance: the opening that passes the same choked air
 *
 * Source: Darcy and Weisbach; IEC 60534-2-1.
 */
export function liquidDrop(passage: Passage, liquid: LiquidState, flow: number): number {
  if (!(flow > 0)) return 0;
  const { density } = liquid;
  switch (passage.kind) {
    case 'tube': {
      const flux = flow / ((Math.PI / 4) * passage.bore ** 2);
      const reynolds = Math.max((flux * passage.bore) / liquid.viscosity, TURBULENT_FLOOR);
      const friction = churchill(reynolds, passage.roughness / passage.bore);
      return ((friction * passage.length) / passage.bore + passage.loss) * (flux ** 2 / (2 * density));
    }
    case 'opening': {
      const area = passage.dischargeCoefficient * (Math.PI / 4) * passage.bore ** 2;
      return (flow / area) ** 2 / (2 * density);
    }
    case 'sonic':
      return (flow / sonicArea(passage.sonicConductance)) ** 2 / (2 * density);
    case 'valve':
      return ((KV_SI * flow) / passage.kv) ** 2 / density;
  }
}

const BY_HALVES = 1e-12;

/** A passage made ready for liquid: what it calls throughput is kg/s. */
function prepareLiquid(passage: Passage, gas: GasState, liquid: LiquidState): PreparedPassage {
  return {
    passage,
    gas,
    bore: passage.kind === 'tube' || passage.kind === 'opening' ? passage.bore : 0,
    upstreamPressure: (flow, downstream) => downstream + liquidDrop(passage, liquid, flow),
    throughput(upstream, downstream) {
      const drop = upstream - downstream;
      if (!(drop > 0)) return 0;
      let high = 1e-6;
      while (liquidDrop(passage, liquid, high) < drop) high *= 2;
      return findRoot((flow) => liquidDrop(passage, liquid, flow) - drop, 0, high, { relative: BY_HALVES });
    },
  };
}

/** A rig made ready for liquid; march it with kg/s (`upstreamOfStages`). The gas is only carried along. */
export function prepareLiquidRig(rig: Rig, gas: GasState, liquid: LiquidState): PreparedRig {
  return prepareRig(rig, gas, (passage) => prepareLiquid(passage, gas, liquid));
}

export interface LiquidFlow {
  /** kg/s */
  readonly flow: number;
  /** true where the liquid boils on its way and a lower pressure behind would draw no more */
  readonly choked: boolean;
}

/**
 * Mass flow of liquid through all parts of a rig from `upstream` to `downstream` (Pa), with choked flashing:
 *
 *     sum of the drops of all parts = min(p1 - p2, p1 - F_F p_v),  F_F = 0.96 - 0.28 sqrt(p_v/p_c)
 *
 * The rig is taken as one restriction whose recovery factor F_L is 1: the pressure falls all along, and below F_F p_v the
 * flow no longer grows.
 *
 * Limits: no boiling is counted before that; saturated liquid that boils early in a long hose flows less, subcooled
 * liquid agrees. Heights are left out.
 * Source: IEC 60534-2-1 for F_F; Darcy and Weisbach for the drops.
 */
export function liquidFlow(
  stages: readonly Stage[],
  liquid: LiquidState,
  upstream: number,
  downstream: number,
): LiquidFlow {
  const { vapourPressure, criticalPressure } = liquid;
  const boiling = liquidCriticalFactor(vapourPressure, criticalPressure) * vapourPressure;
  const choked = downstream < boiling;
  const drop = upstream - Math.max(downstream, boiling);
  if (!(drop > 0)) return { flow: 0, choked };
  return { flow: liquidFlowForDrop(stages, drop), choked };
}

const FIRST_FLOW = 1e-3;

/** kg/s that all stages pass with a drop (Pa, above 0); bare of stages there is no limit. */
export function liquidFlowForDrop(stages: readonly Stage[], drop: number): number {
  if (stages.length === 0) return Number.POSITIVE_INFINITY;
  const dropOf = (ln: number): number => upstreamOfStages(stages, Math.exp(ln), 0);
  let low = Math.log(FIRST_FLOW);
  let high = low;
  while (dropOf(high) < drop) high += 2;
  while (dropOf(low) > drop) low -= 2;
  if (low === high) return FIRST_FLOW;
  return Math.exp(findRoot((ln) => Math.log(dropOf(ln) / drop), low, high, { absolute: 1e-11 }));
}
