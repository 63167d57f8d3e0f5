import { type Interpolant, pchip } from '../../numerics/interpolate.ts';
import { quadrature } from '../../numerics/quadrature.ts';
import { findRisingRoot } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';
import { type PartStage, prepareRig, type Stage } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { splitFlow } from '../rig/split.ts';

/**
 * Gas that is let in through a rig: the supply stands where the pump stood, at a steady pressure, and the gas goes through
 * the same parts the other way. SI.
 *
 * With u = ln(p_supply - p) the throughput is written Q = K (p_supply - p); ln K over u is smooth from the laminar end (K
 * level) to the choked one (p well below the supply, Q level).
 */
export interface FeedCurve {
  /** Pa */
  readonly supply: number;
  /** ln K over u; K in m3/s */
  readonly lnK: Interpolant;
}

/** The stages from the system to the supply: the march goes upstream, and upstream is now the end where the pump stood. */
function reversed(stages: readonly Stage[]): readonly Stage[] {
  const turn = (stage: Stage): Stage =>
    stage.kind === 'part'
      ? stage
      : { ...stage, legs: stage.legs.map((leg) => ({ ways: leg.ways.map((way): PartStage[] => [...way].reverse()) })) };
  return [...stages].reverse().map(turn);
}

function supplyFor(stages: readonly Stage[], throughput: number, system: number): number {
  let pressure = system;
  for (const stage of stages)
    pressure =
      stage.kind === 'part'
        ? stage.passage.upstreamPressure(throughput / stage.count, pressure)
        : splitFlow(stage.legs, throughput, pressure).upstream;
  return pressure;
}

/** Steps of p/p_supply down to `NEAR`, then factors of the difference down to `FOOT`; level below that. */
const RATIO_STEP = 0.025;
const NEAR = 0.05;
const FACTOR = 0.7;
const FOOT = 1e-6;
const MISS = 1e-11;

/**
 * The feed curve of a rig for one gas and supply pressure (Pa): throughput into the system over the system's pressure, in
 * every regime and choked where a part chokes. Good to some 1e-3. A rig without parts lets the gas in at once.
 */
export function feedCurve(rig: Rig, gas: GasState, supply: number): FeedCurve | undefined {
  const stages = reversed(prepareRig(rig, gas).stages);
  if (stages.length === 0) return undefined;
  const differences: number[] = [];
  for (let d = FOOT; d < NEAR; d /= FACTOR) differences.push(d);
  for (let d = NEAR; d < 1 - 0.5 * RATIO_STEP; d += RATIO_STEP) differences.push(d);
  differences.push(1);
  const u: number[] = [];
  const lnK: number[] = [];
  let lnQ = 0;
  let slope = 1;
  for (const part of differences) {
    const difference = part * supply;
    const system = supply - difference;
    const miss = (x: number): number => Math.log((supplyFor(stages, Math.exp(x), system) - system) / difference);
    lnQ = findRisingRoot(miss, lnQ, { slope, absolute: MISS });
    // from a node to the next the flow changes little
    slope = 1.5;
    u.push(Math.log(difference));
    lnK.push(lnQ - Math.log(difference));
  }
  return { supply, lnK: pchip(u, lnK) };
}

/** K (m3/s) at u, level below the first node. */
function conductance({ lnK }: FeedCurve, u: number): number {
  return Math.exp(lnK.value(Math.max(u, lnK.x[0] ?? u)));
}

/** Throughput (Pa m3/s) into a system at a pressure (Pa); nothing flows at or above the supply. */
export function feedThroughput(curve: FeedCurve, system: number): number {
  const difference = curve.supply - system;
  return difference > 0 ? difference * conductance(curve, Math.log(difference)) : 0;
}

/** Width of a panel of u in the time integral; as wide as the nodes stand where the curve bends. */
const PANEL = 0.05;

/** Time over volume (s/m3) that the feed takes from one pressure up to another (Pa): Int dp/Q = Int du/K. */
export function feedSecondsPerVolume(curve: FeedCurve, from: number, to: number): number {
  const low = Math.log(curve.supply - to);
  const high = Math.log(curve.supply - from);
  return quadrature((u) => 1 / conductance(curve, u), low, high, Math.max(1, Math.ceil((high - low) / PANEL)));
}
