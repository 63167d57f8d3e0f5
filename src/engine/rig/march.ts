import { raise } from '../../faults/issue.ts';
import type { Leg, PartStage, PreparedRig } from './prepare.ts';
import { pumpThroughputAt } from './pump.ts';
import { splitFlow } from './split.ts';

/**
 * The march: from a pump inlet pressure the throughput is known, and each part in turn gives the pressure in front of
 * it. Quasi-steady: the same throughput passes every stage. No iteration over a rig in series. SI.
 */

/** A part at one working point; `throughput` is what passes all its `count` passages together, Pa m3/s. */
export interface PartFlow {
  readonly stage: PartStage;
  readonly throughput: number;
  readonly downstream: number;
  readonly upstream: number;
  /** part of the rig's whole throughput that goes this way, 1 outside branches */
  readonly fraction: number;
}

export interface March {
  readonly throughput: number;
  readonly pumpInlet: number;
  readonly system: number;
  /** in order from the pump to the system */
  readonly parts: readonly PartFlow[];
}

/**
 * System pressure (Pa) for a pump inlet `excess` (Pa) above the ultimate pressure: the quick march, pressures between
 * the parts not kept.
 */
export function systemPressureAt(rig: PreparedRig, excess: number): number {
  const throughput = pumpThroughputAt(rig.pump, rig.ultimate, excess);
  let pressure = rig.ultimate + excess;
  for (const stage of rig.stages)
    pressure =
      stage.kind === 'part'
        ? stage.passage.upstreamPressure(throughput / stage.count, pressure)
        : splitFlow(stage.legs, throughput, pressure).upstream;
  return pressure;
}

/** The parts of every like way of a leg; `legThroughput` is what all of them carry together. */
function legParts(leg: Leg, legThroughput: number, downstream: number, whole: number): PartFlow[] {
  const throughput = legThroughput / leg.ways.length;
  const fraction = whole > 0 ? throughput / whole : 1 / leg.ways.length;
  return leg.ways.flatMap((stages) => {
    let pressure = downstream;
    return stages.map((stage) => {
      const upstream = stage.passage.upstreamPressure(throughput / stage.count, pressure);
      const flow: PartFlow = { stage, throughput, downstream: pressure, upstream, fraction };
      pressure = upstream;
      return flow;
    });
  });
}

/**
 * The whole working point for a pump inlet `excess` (Pa) above the ultimate pressure: throughput, system pressure and
 * the pressures on both sides of every part.
 */
export function marchFrom(rig: PreparedRig, excess: number): March {
  const throughput = pumpThroughputAt(rig.pump, rig.ultimate, excess);
  const pumpInlet = rig.ultimate + excess;
  let pressure = pumpInlet;
  const parts: PartFlow[] = [];
  for (const stage of rig.stages) {
    if (stage.kind === 'part') {
      const upstream = stage.passage.upstreamPressure(throughput / stage.count, pressure);
      parts.push({ stage, throughput, downstream: pressure, upstream, fraction: 1 });
      pressure = upstream;
    } else {
      const split = splitFlow(stage.legs, throughput, pressure);
      for (const { leg, throughput: carried } of split.legs)
        parts.push(...legParts(leg, carried, pressure, throughput));
      pressure = split.upstream;
    }
  }
  return { throughput, pumpInlet, system: pressure, parts };
}

/** The working point for a pump inlet pressure (Pa). At or below the ultimate pressure nothing flows. */
export function march(rig: PreparedRig, pumpInletPressure: number): March {
  return marchFrom(rig, Math.max(0, pumpInletPressure - rig.ultimate));
}

/** Raises the fault of a rig in which no pressure drives gas through some part, with the part's name. */
export function raiseBlocked(rig: PreparedRig, excess: number): never {
  const part = marchFrom(rig, excess).parts.find((flow) => !Number.isFinite(flow.upstream))?.stage.part;
  return raise({
    kind: 'wrong',
    argument: part === undefined ? `rig "${rig.rig.name}"` : `part "${part.name}" of rig "${rig.rig.name}"`,
    found: 'so narrow that no flow through it can be counted',
    allowed: 'a passage that gas gets through',
    todo: 'Check its bore, length or flow coefficient, and their units.',
  });
}
