import { raise } from '../../faults/issue.ts';
import { hermite } from '../../numerics/interpolate.ts';
import { findRoot } from '../../numerics/root.ts';
import { type GasLoad, isSteady, LEVEL_BEFORE, NO_LOAD } from '../evacuate/load.ts';
import { balanceOf } from './balance.ts';
import { marchNetwork, type NetworkMarch, type NetworkStep } from './march.ts';
import { meshOf } from './mesh.ts';
import type { Network } from './network.ts';

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

/** Pressure of a point within a step, by the cubic through both ends. */
function within({ from, to, before, after, rateBefore, rateAfter }: NetworkStep, point: number, time: number): number {
  return hermite(time, from, to, before[point] ?? 0, after[point] ?? 0, rateBefore[point] ?? 0, rateAfter[point] ?? 0);
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
    return waiting === 0;
  };
  const march = marchNetwork(balanceOf(mesh, network.ports, load), pressures, LONGEST, onStep, {
    ...(relative === undefined ? {} : { relative }),
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

  let slowest = 0;
  times.forEach((time, i) => {
    if (time > (times[slowest] ?? 0)) slowest = i;
  });
  const inner = mesh.chains.findIndex(({ points: chain }) => chain.indexOf(slowest) > 0);
  const chain = mesh.chains[inner]?.points;
  const slowestAt =
    slowest < nodes || chain === undefined
      ? { node: slowest }
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
    march,
  };
}
