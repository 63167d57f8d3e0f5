import { raise } from '../../faults/issue.ts';
import { newtonPolynomial } from '../../numerics/interpolate.ts';
import { findRoot } from '../../numerics/root.ts';
import { type GasLoad, isSteady, LEVEL_BEFORE, NO_LOAD } from '../evacuate/load.ts';
import { balanceOf } from './balance.ts';
import { marchNetwork, type NetworkMarch, type NetworkStep } from './march.ts';
import { meshOf } from './mesh.ts';
import type { Network } from './network.ts';

/** How a network stood at one moment of a pull-down. */
export interface CoursePoint {
  /** s */
  readonly time: number;
  /** Pa: all gas in the network over its volume */
  readonly mean: number;
  /** root mean square of the deviation of the pressures from the mean, by volume, as a part of the mean */
  readonly unevenness: number;
}

/** What a network does from the start pressure down to a target. SI. */
export interface NetworkPullDown {
  /** s by node; infinity for a node that does not get there */
  readonly times: readonly number[];
  /** Pa by node when the first port's node stands at the target; NaN where it never does */
  readonly atGauge: readonly number[];
  /** s until every point of every line, too, is at the target */
  readonly slowest: number;
  /** where that is: a node, or a line and the part of its length from its first node */
  readonly slowestAt: { readonly node: number } | { readonly line: number; readonly along: number };
  /** the highest pressure anywhere when the first port's node stands at the target, Pa */
  readonly highestAtGauge: number;
  /** highest pressure at the end of the march, Pa: the lowest that can be had everywhere, where the target is not reached */
  readonly highest: number;
  /** m3 by node: its own and half of the lines that meet there; m3 in all */
  readonly volumes: readonly number[];
  readonly volume: number;
  /** the network at the start and after each step */
  readonly course: readonly CoursePoint[];
  /** the march that it comes from */
  readonly march: NetworkMarch;
}

export interface NetworkOptions {
  /** factor on the number of segments */
  readonly refine?: number;
  /** see `marchNetwork` */
  readonly relative?: number;
}

/** Longest pull-down that is followed, s: one year. */
const LONGEST = 365 * 86_400;

/** Part of a time that the method can tell. */
const TELLING = 1e-3;
/** Excess over the lowest ultimate pressure, as a part of the target's, under which errors need not be smaller. */
const LEAST_EXCESS = 0.1;
/** Points of the past that are kept, besides those at both ends of a step. */
const KEPT = 2;

/**
 * Pressures between steps: the cubic of ln(p - floor) over time through the ends of the last three steps. Rates are not used:
 * where a point answers at once to its neighbours they are all rounding.
 */
function history(points: number, floor: number) {
  const logOf = (p = 0): number => Math.log(Math.max(p - floor, Number.EPSILON * p));
  const times: number[] = [];
  const past: Float64Array[] = [];
  return {
    within({ from, to, before, after }: NetworkStep, point: number, time: number): number {
      const t = [to, from, ...times];
      const y = [after, before, ...past].map((pressures) => logOf(pressures[point]));
      return floor + Math.exp(newtonPolynomial(t, y, time));
    },
    keep({ from, before }: NetworkStep): void {
      const oldest = past.length < KEPT ? new Float64Array(points) : (past.pop() ?? new Float64Array(points));
      oldest.set(before);
      past.unshift(oldest);
      times.unshift(from);
      times.length = past.length;
    },
  };
}

/**
 * Pull-down of a network of long lines: A dp/dt = d/dx(K(p) dp/dx) along each line, one pressure at each node, rigs at
 * the ports in step with the pressure at their node. Finite volumes on the graph (second order in the length of a
 * segment), implicit and adaptive in time.
 *
 * @param start pressure everywhere at the start, Pa
 * @param target Pa
 * @param load gas load, spread over the network by volume
 * Limits: one gas at one temperature; no pressure waves; no loss at bends and joints.
 * @throws order where the target is not below the start; out-of-reach where no node gets there
 */
export function networkPullDown(
  network: Network,
  start: number,
  target: number,
  load: GasLoad = NO_LOAD,
  { refine = 1, relative }: NetworkOptions = {},
): NetworkPullDown {
  if (!(target < start))
    raise({
      kind: 'order',
      upper: 'Start pressure',
      upperValue: start,
      lower: 'Target',
      lowerValue: target,
      unit: 'Pa',
    });
  const ultimate = Math.min(...network.ports.map((port) => port.ultimate));
  const outOfReach = (lowest: number, because: string): never =>
    raise({ kind: 'out-of-reach', targetPa: target, lowestPa: lowest, because });
  if (target <= ultimate) outOfReach(ultimate, 'it is the ultimate pressure of the pump');

  const mesh = meshOf(network, refine);
  const points = mesh.volumes.length;
  const { nodes } = mesh;
  const times = new Float64Array(points).fill(Number.POSITIVE_INFINITY);
  const pressures = new Float64Array(points).fill(start);
  const gauge = network.ports[0]?.node ?? 0;
  const atGauge = new Float64Array(points).fill(Number.NaN);
  let waiting = points;
  const { within, keep } = history(points, ultimate);
  const course: CoursePoint[] = [{ time: 0, mean: start, unevenness: 0 }];
  const onStep = (step: NetworkStep): boolean => {
    for (let i = 0; i < points; i++) {
      if ((step.after[i] ?? 0) > target || (times[i] ?? 0) < Number.POSITIVE_INFINITY) continue;
      const above = (time: number): number => within(step, i, time) - target;
      const root = findRoot(above, step.from, step.to, { relative: 1e-12 });
      const time = Number.isNaN(root) ? step.to : root;
      times[i] = time;
      waiting -= 1;
      if (i === gauge) for (let j = 0; j < points; j++) atGauge[j] = within(step, j, time);
    }
    keep(step);
    course.push({ time: step.to, ...evenness(mesh.volumes, step.after) });
    return waiting === 0;
  };
  const march = marchNetwork(balanceOf(mesh, network.ports, load), pressures, LONGEST, onStep, {
    ...(relative === undefined ? {} : { relative }),
    floor: ultimate,
    leastExcess: LEAST_EXCESS * (target - ultimate),
    corners: isSteady(load) ? [] : [LEVEL_BEFORE],
  });
  if (march.status === 'stuck')
    raise({
      kind: 'no-solution',
      reason: 'the pull-down of this network could not be followed to its end',
      todo: 'Check the bores, lengths and volumes of the runs, and their units.',
    });
  const highest = march.pressures.reduce((most, p) => Math.max(most, p), 0);
  const ofNodes = Array.from(times.subarray(0, nodes));
  if (ofNodes.every((time) => time === Number.POSITIVE_INFINITY))
    outOfReach(Math.min(...march.pressures), 'leak and outgassing balance what the rigs carry off there');

  const latest = (from: number, to: number): number => {
    let at = from;
    for (let i = from; i < to; i++) if ((times[i] ?? 0) > (times[at] ?? 0)) at = i;
    return at;
  };
  const slowest = latest(0, points);
  const slowestNode = latest(0, nodes);
  const inner = mesh.chains.findIndex(({ points: chain }) => chain.indexOf(slowest) > 0);
  const chain = mesh.chains[inner]?.points;
  // what is last by less than the method can tell is told of the node
  const atNode = (times[slowest] ?? 0) <= (times[slowestNode] ?? 0) * (1 + TELLING);
  const slowestAt =
    atNode || chain === undefined
      ? { node: slowestNode }
      : { line: inner, along: chain.indexOf(slowest) / (chain.length - 1) };
  const volumes = [...network.volumes];
  for (const { from, to, length, count, law } of network.lines)
    for (const end of [from, to]) volumes[end] = (volumes[end] ?? 0) + (count * law.area * length) / 2;
  return {
    times: ofNodes,
    atGauge: Array.from(atGauge.subarray(0, nodes)),
    slowest: times[slowest] ?? 0,
    slowestAt,
    highestAtGauge: atGauge.reduce((most, p) => (Number.isNaN(p) ? p : Math.max(most, p)), 0),
    highest,
    volumes,
    volume: mesh.volumes.reduce((sum, one) => sum + one, 0),
    course,
    march,
  };
}

/** Mean pressure by volume, and how far the pressures are from it. */
function evenness(volumes: Float64Array, pressures: Float64Array): { mean: number; unevenness: number } {
  let volume = 0;
  let gas = 0;
  for (let i = 0; i < volumes.length; i++) {
    volume += volumes[i] ?? 0;
    gas += (volumes[i] ?? 0) * (pressures[i] ?? 0);
  }
  const mean = gas / volume;
  let squares = 0;
  for (let i = 0; i < volumes.length; i++) squares += (volumes[i] ?? 0) * ((pressures[i] ?? 0) / mean - 1) ** 2;
  return { mean, unevenness: Math.sqrt(squares / volume) };
}
