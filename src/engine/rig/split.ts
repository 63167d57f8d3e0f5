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

/** Largest difference between the legs' pressure drops, relative. */
const MISS = 1e-10;
/** The same where the drop is lost in the digits of the pressure. */
const ROUNDING = 1e-14;
/** Width at which the search by halving stops, as a part of the flow. */
const SHARE_TOLERANCE = 1e-12;
const MOST_STEPS = 30;
const FIRST_NUDGE = 1e-3;
/** Most that one step may change a leg's flow, as a factor. */
const MOST_CHANGE = 4;

function upstreamOfLeg(leg: Leg, throughput: number, downstream: number): number {
  return upstreamOfParts(leg.ways[0] ?? [], throughput / leg.ways.length, downstream);
}

/**
 * Shares `throughput` (Pa m3/s) between ways in parallel so that every way has the same pressure in front of it, all
 * of them discharging against `downstream` (Pa). Each leg's pressure rises with its flow: secant steps of all legs
 * together find the flows, and where they do not, the split is halved out leg by leg, which always ends.
 */
export function splitFlow(legs: readonly Leg[], throughput: number, downstream: number): Split {
  const [only] = legs;
  if (only === undefined) return { upstream: downstream, legs: [] };
  if (!(throughput > 0)) return { upstream: downstream, legs: legs.map((leg) => ({ leg, throughput: 0 })) };
  if (legs.length === 1)
    return { upstream: upstreamOfLeg(only, throughput, downstream), legs: [{ leg: only, throughput }] };
  return splitBySecants(legs, throughput, downstream) ?? splitByHalving(legs, throughput, downstream);
}

/**
 * With w = U^2 in front of a leg, which is straight in the flow for laminar flow, each leg is taken as the line through
 * its last two points; the flows that meet one w and add up to the whole are then known. Undefined if it does not settle.
 */
function splitBySecants(legs: readonly Leg[], throughput: number, downstream: number): Split | undefined {
  const square = (leg: Leg, flow: number): number => upstreamOfLeg(leg, flow, downstream) ** 2;
  const flows = legs.map(() => throughput / legs.length);
  const squares = legs.map((leg, i) => square(leg, flows[i] ?? 0));
  const slopes = legs.map((leg, i) => {
    const flow = flows[i] ?? 0;
    const nudge = flow * FIRST_NUDGE;
    return (square(leg, flow + nudge) - (squares[i] ?? 0)) / nudge;
  });
  for (let step = 0; step < MOST_STEPS; step++) {
    const most = Math.sqrt(Math.max(...squares));
    const least = Math.sqrt(Math.min(...squares));
    const whole = flows.reduce((sum, flow) => sum + flow, 0);
    const settled = most - least <= Math.max(MISS * (most - downstream), ROUNDING * most);
    if (settled && Math.abs(whole - throughput) <= MISS * throughput)
      return { upstream: most, legs: legs.map((leg, i) => ({ leg, throughput: flows[i] ?? 0 })) };
    let conductance = 0;
    let offset = 0;
    slopes.forEach((slope, i) => {
      conductance += 1 / slope;
      offset += (squares[i] ?? 0) / slope - (flows[i] ?? 0);
    });
    const common = (throughput + offset) / conductance;
    if (!Number.isFinite(common)) return undefined;
    legs.forEach((leg, i) => {
      const flow = flows[i] ?? 0;
      const before = squares[i] ?? 0;
      const wanted = flow + (common - before) / (slopes[i] ?? 1);
      const next = Math.min(Math.max(wanted, flow / MOST_CHANGE), flow * MOST_CHANGE, throughput);
      const after = square(leg, next);
      // a step too small to tell a slope keeps the one it has
      if (Math.abs(next - flow) > 1e-7 * flow) {
        const slope = (after - before) / (next - flow);
        if (slope > 0) slopes[i] = slope;
      }
      flows[i] = next;
      squares[i] = after;
    });
  }
  return undefined;
}

/** The first leg's pressure rises with its share and the others' falls: one monotone root, leg by leg. */
export function splitByHalving(legs: readonly Leg[], throughput: number, downstream: number): Split {
  const [first, ...others] = legs;
  if (first === undefined) return { upstream: downstream, legs: [] };
  if (others.length === 0)
    return { upstream: upstreamOfLeg(first, throughput, downstream), legs: [{ leg: first, throughput }] };
  const imbalance = (share: number): number =>
    upstreamOfLeg(first, share * throughput, downstream) -
    splitByHalving(others, (1 - share) * throughput, downstream).upstream;
  const share = findRoot(imbalance, 0, 1, { absolute: SHARE_TOLERANCE });
  const rest = splitByHalving(others, (1 - share) * throughput, downstream);
  return {
    upstream: Math.max(upstreamOfLeg(first, share * throughput, downstream), rest.upstream),
    legs: [{ leg: first, throughput: share * throughput }, ...rest.legs],
  };
}
