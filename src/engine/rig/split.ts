import { findRoot } from '../../numerics/root.ts';
import type { Leg, PartStage } from './prepare.ts';

/** Pressure in front of parts in series (Pa) when `throughput` (Pa m3/s) leaves them against `downstream` (Pa). */
export function upstreamOfParts(stages: readonly PartStage[], throughput: number, downstream: number): number {
  let pressure = downstream;
  for (const stage of stages) pressure = stage.passage.upstreamPressure(throughput / stage.count, pressure);
  return pressure;
}

/** What a leg carries, all its ways together, Pa m3/s. */
export interface LegFlow {
  readonly leg: Leg;
  readonly throughput: number;
}

export interface Split {
  /** Pa, the same in front of every way */
  readonly upstream: number;
  readonly legs: readonly LegFlow[];
}

/** Width at which the search for the split stops, as a part of the flow. */
const SPLIT_TOLERANCE = 1e-10;

/**
 * Shares `throughput` (Pa m3/s) between ways in parallel so that every way has the same pressure in front of it, all
 * of them discharging against `downstream` (Pa). The first way's pressure rises with its share and the others' falls,
 * so the share is one monotone root; more than two ways are split one after another.
 */
export function splitFlow(legs: readonly Leg[], throughput: number, downstream: number): Split {
  const [first, ...others] = legs;
  if (first === undefined) return { upstream: downstream, legs: [] };
  const upstreamOf = (flow: number): number =>
    upstreamOfParts(first.ways[0] ?? [], flow / first.ways.length, downstream);
  if (others.length === 0 || throughput <= 0)
    return {
      upstream: throughput > 0 ? upstreamOf(throughput) : downstream,
      legs: legs.map((leg, i) => ({ leg, throughput: i === 0 ? throughput : 0 })),
    };
  const imbalance = (share: number): number =>
    upstreamOf(share * throughput) - splitFlow(others, (1 - share) * throughput, downstream).upstream;
  const share = findRoot(imbalance, 0, 1, { absolute: SPLIT_TOLERANCE });
  const rest = splitFlow(others, (1 - share) * throughput, downstream);
  return {
    upstream: Math.max(upstreamOf(share * throughput), rest.upstream),
    legs: [{ leg: first, throughput: share * throughput }, ...rest.legs],
  };
}
