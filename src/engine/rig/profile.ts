import { knudsen, regime } from '../flow/regime.ts';
import type { RigCurve } from './curve.ts';
import type { March, PartFlow } from './march.ts';
import { operateAt } from './operate.ts';

/** A part at one working point, as a person reads it. SI. */
export interface PartProfile {
  readonly name: string;
  readonly kind: string;
  readonly upstream: number;
  readonly downstream: number;
  /** part of the pressure difference between the system and the pump inlet; the shares add up to 1 */
  readonly share: number;
  /** throughput over pressure difference, all `count` passages together, m3/s; undefined where nothing flows */
  readonly conductance: number | undefined;
  readonly regime: string;
  /** at the downstream end, no more than the speed of sound, m/s */
  readonly velocity: number;
  /** mean free path over bore at the mean pressure */
  readonly knudsen: number;
}

export interface RigProfile {
  readonly system: number;
  readonly pumpInlet: number;
  readonly throughput: number;
  readonly pumpSpeed: number;
  /** in order from the pump to the system */
  readonly parts: readonly PartProfile[];
}

/**
 * Share of one part in the whole loss. In a branch the loss of the branch counts once: each way has the part of it that
 * flows its way, and within the way each part its part of the pressure difference.
 */
function shareOf(flow: PartFlow, whole: number): number {
  const drop = flow.upstream - flow.downstream;
  return whole > 0 ? (drop * flow.fraction) / whole : 0;
}

function partProfile(flow: PartFlow, point: March, curve: RigCurve): PartProfile {
  const { gas } = curve.rig;
  const { stage, upstream, downstream, throughput } = flow;
  const { bore } = stage.passage;
  const area = (Math.PI / 4) * bore ** 2 * stage.count;
  const sound = Math.sqrt(gas.heatCapacityRatio * gas.specificGasConstant * gas.temperature);
  const drop = upstream - downstream;
  const mean = 0.5 * (upstream + downstream);
  return {
    name: stage.part.name,
    kind: stage.part.kind,
    upstream,
    downstream,
    share: shareOf(flow, point.system - point.pumpInlet),
    conductance: drop > 0 ? throughput / drop : undefined,
    regime: regime(knudsen(gas, bore, mean)),
    velocity: throughput > 0 ? Math.min(sound, throughput / (Math.max(downstream, 1e-300) * area)) : 0,
    knudsen: knudsen(gas, bore, mean),
  };
}

/** The rig at a system pressure (Pa), part by part. */
export function rigProfile(curve: RigCurve, systemPressure: number): RigProfile {
  const point = operateAt(curve, systemPressure);
  return {
    system: point.system,
    pumpInlet: point.pumpInlet,
    throughput: point.throughput,
    pumpSpeed: point.pumpInlet > 0 ? point.throughput / point.pumpInlet : 0,
    parts: point.parts.map((flow) => partProfile(flow, point, curve)),
  };
}

/** The part with the largest share of the loss at a system pressure; undefined for a bare pump. */
export function limitingPart(curve: RigCurve, systemPressure: number): { name: string; share: number } | undefined {
  const point = operateAt(curve, systemPressure);
  let worst: { name: string; share: number } | undefined;
  for (const flow of point.parts) {
    const share = shareOf(flow, point.system - point.pumpInlet);
    if (worst === undefined || share > worst.share) worst = { name: flow.stage.part.name, share };
  }
  return worst;
}
