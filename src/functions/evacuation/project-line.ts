import type { GasState } from '../../engine/gas/state.ts';
import { keepingOf } from '../../engine/keep.ts';
import { rigPort } from '../../engine/network/network.ts';
import { type NetworkPullDown, networkPullDown } from '../../engine/network/pulldown.ts';
import { pullDownByRungs } from '../../engine/network/shared-start.ts';
import { DRAWN_ROUGHNESS } from '../../engine/network/tube-law.ts';
import type { Rig, RigPart } from '../../engine/rig/rig.ts';
import { type Fault, raise } from '../../faults/issue.ts';
import { shortNumber } from '../../faults/words.ts';
import type { Conditions } from '../../tables/conditions.ts';
import type { Run } from '../../tables/runs.ts';
import { CLOSENESS, contentOf, type Graph, graphOf, nodeNamed, refuseIslands } from '../network/graph.ts';
import { curveOf, loadOf } from '../rig/curves.ts';
import { orFault } from './project-plans.ts';

/** What the runs of one unit do to its evacuation. SI. */
export interface LineEnd {
  /** s until every point of every line is at the target */
  readonly seconds: number;
  /** name of the node that is last */
  readonly node: string;
  /** the rig with the pipes from the port to that node in front of it */
  readonly longRig: Rig;
}

/** One unit's lines and what is asked of them. SI. */
export interface LineTask {
  readonly runs: readonly Run[];
  readonly port: string;
  /** m3 that the unit holds beside its runs; it stands at the port */
  readonly rest: number;
  readonly target: number;
}

/** Networks worked out since the program began, for tests of shared work. */
export const lineWork = { networks: 0 };

/** Answers and longer rigs of one rig record; they go with it. */
const MOST_OF_RIG = 512;
const keepEnd = keepingOf<Rig, LineEnd | Fault>(MOST_OF_RIG);
const keepMarch = keepingOf<Rig, NetworkPullDown>(MOST_OF_RIG);
const keepLongRig = keepingOf<Rig, Rig>(MOST_OF_RIG);

/**
 * The pull-down of a unit's runs as a network with the rig at its port, by the engine of EVAC.NETWORK. The same runs, rig
 * and conditions are worked out once; the key is all that the answer depends on.
 */
export function lineEnd(rig: Rig, gas: GasState, conditions: Conditions, task: LineTask): LineEnd | Fault {
  const { startPressure } = conditions;
  const { runs, port, rest, target } = task;
  const network = JSON.stringify([contentOf(runs), port, rest, target, loadOf(conditions), gas.name, gas.temperature]);
  const key = `${startPressure} ${network}`;
  return keepEnd(rig, key, () => orFault(() => workedOut(rig, gas, conditions, task, network)));
}

/** @param key all that the march depends on, but the rig and its start pressure */
function workedOut(
  rig: Rig,
  gas: GasState,
  conditions: Conditions,
  { runs, port, rest, target }: LineTask,
  key: string,
): LineEnd {
  const graph = graphOf({ runs }, gas);
  const start = nodeNamed(graph, port);
  refuseIslands(graph, [start]);
  const volumes = graph.volumes.map((volume, node) => (node === start ? volume + rest : volume));
  const { lines } = graph;
  const load = loadOf(conditions);
  const pull = pullDownByRungs(conditions.startPressure, target, load, (from) =>
    keepMarch(rig, `${from} ${key}`, () => {
      lineWork.networks += 1;
      const network = { volumes, lines, ports: [rigPort(start, curveOf(rig, gas))] };
      return networkPullDown(network, from, target, load, CLOSENESS);
    }),
  );
  if (!Number.isFinite(pull.slowest))
    raise({
      kind: 'no-solution',
      reason: `the far end does not get below ${shortNumber(pull.highest)} Pa within a year`,
      todo: 'Set a higher target, find the leak, or connect the rig nearer to the far end.',
    });
  const last = pull.times.reduce((most, time, node) => (time > (pull.times[most] ?? 0) ? node : most), start);
  return {
    seconds: pull.slowest,
    node: graph.names[last] ?? '',
    longRig: longRigOf(rig, pathParts(graph, runs, start, last)),
  };
}

function longRigOf(rig: Rig, path: readonly RigPart[]): Rig {
  if (path.length === 0) return rig;
  return keepLongRig(rig, JSON.stringify(path), () => ({ ...rig, parts: [...rig.parts, ...path] }));
}

/**
 * The pipes of the way of least length over bore to the fourth from one node to another, in order, as parts of a rig. Pipes
 * between the same two nodes are in parallel. Side branches only help and are left out.
 */
function pathParts({ names, lines, lineRows }: Graph, runs: readonly Run[], from: number, to: number): RigPart[] {
  const byRow = new Map(runs.map((run) => [run.row, run]));
  const boreOf = (line: number): number => byRow.get(lineRows[line] ?? 0)?.bore ?? 0;
  const cost = lines.map(({ length, count }, i) => length / (count * boreOf(i) ** 4));
  const distance = names.map((_, node) => (node === from ? 0 : Number.POSITIVE_INFINITY));
  const before: (number | undefined)[] = names.map(() => undefined);
  const open = new Set(names.keys());
  while (open.size > 0) {
    let at = to;
    let least = Number.POSITIVE_INFINITY;
    for (const node of open)
      if ((distance[node] ?? 0) < least) {
        least = distance[node] ?? 0;
        at = node;
      }
    if (at === to || !open.delete(at)) break;
    lines.forEach((line, i) => {
      const other = line.from === at ? line.to : line.to === at ? line.from : undefined;
      const far = least + (cost[i] ?? 0);
      if (other === undefined || !(far < (distance[other] ?? 0))) return;
      distance[other] = far;
      before[other] = at;
    });
  }
  const hops: RigPart[][] = [];
  let at = to;
  for (let next = before[at]; at !== from && next !== undefined; at = next, next = before[at]) {
    const [a, b] = [at, next];
    const pipes = lines.flatMap((line, i) =>
      (line.from === a && line.to === b) || (line.from === b && line.to === a) ? [i] : [],
    );
    hops.push(
      pipes.map((i) => ({
        name: `pipe ${names[b] ?? ''} to ${names[a] ?? ''}`,
        kind: 'tube',
        passage: {
          kind: 'tube',
          bore: boreOf(i),
          length: lines[i]?.length ?? 0,
          loss: 0,
          roughness: DRAWN_ROUGHNESS,
        },
        count: lines[i]?.count ?? 1,
        ...(pipes.length > 1 ? { branch: `line ${a} ${b}` } : {}),
      })),
    );
  }
  return hops.reverse().flat();
}
