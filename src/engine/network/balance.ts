import { type GasLoad, loadAt } from '../evacuate/load.ts';
import { type Elimination, type Entries, planElimination } from './elimination.ts';
import { type LinePoint, noPoint, type SegmentFlow } from './law.ts';
import type { Mesh } from './mesh.ts';
import type { Port } from './network.ts';

/** The gas balance V dp/dt = F(t, p) of every point of a mesh, with its Jacobian on the pattern of the graph. */
export interface Balance {
  readonly plan: Elimination;
  readonly volumes: Float64Array;
  /** m3 in all */
  readonly volume: number;
  /** -dF/dp after `flows` with `slopes` */
  readonly jacobian: Entries;
  /** d(drawn)/dp, ports alone, after `flows` with `slopes` */
  readonly drawSlopes: readonly { readonly node: number; slope: number }[];
  /** F into `out` (Pa m3/s); gives what the ports draw together, Pa m3/s */
  flows(time: number, pressures: Float64Array, out: Float64Array, slopes: boolean): number;
  /** gas load in all, Pa m3/s */
  loadAt(time: number): number;
  /** evaluations so far */
  readonly work: { evaluations: number };
}

export function emptyEntries(plan: Elimination): Entries {
  return {
    diagonal: new Float64Array(plan.order.length),
    upper: new Float64Array(plan.later.length),
    lower: new Float64Array(plan.later.length),
  };
}

/** The load is spread over the network by volume: nobody knows where a leak is, and walls give off gas everywhere. */
export function balanceOf(mesh: Mesh, ports: readonly Port[], load: GasLoad): Balance {
  const { volumes, chains } = mesh;
  const pairs: [number, number][] = [];
  for (const { points } of chains)
    for (let k = 0; k + 1 < points.length; k++) pairs.push([points[k] ?? 0, points[k + 1] ?? 0]);
  const plan = planElimination(volumes.length, pairs);
  const entries = Int32Array.from(pairs, ([i, j]) => plan.entryOf(i, j).entry);
  const forward = Uint8Array.from(pairs, ([i, j]) => (plan.entryOf(i, j).firstIsEarlier ? 1 : 0));
  const volume = volumes.reduce((sum, one) => sum + one, 0);
  const jacobian = emptyEntries(plan);
  const { diagonal, upper, lower } = jacobian;
  const drawSlopes = ports.map(({ node }) => ({ node, slope: 0 }));
  const work = { evaluations: 0 };
  const segment: SegmentFlow = { flow: 0, upperShare: 1, lowerShare: 1 };
  let here: LinePoint = noPoint();
  let there: LinePoint = noPoint();
  /** flow of each segment when last asked for: where the next search begins */
  const before = new Float64Array(pairs.length);

  const flows = (time: number, pressures: Float64Array, out: Float64Array, slopes: boolean): number => {
    work.evaluations += 1;
    const load1 = loadAt(load, time) / volume;
    for (let i = 0; i < out.length; i++) out[i] = load1 * (volumes[i] ?? 0);
    if (slopes) {
      diagonal.fill(0);
      upper.fill(0);
      lower.fill(0);
    }
    let s = 0;
    for (const { line, points, step } of chains) {
      const { law, count } = line;
      let a = points[0] ?? 0;
      law.at(pressures[a] ?? 0, here);
      for (let k = 1; k < points.length; k++, s++) {
        const b = points[k] ?? 0;
        law.at(pressures[b] ?? 0, there);
        const down = here.pressure >= there.pressure;
        const laminar = Math.abs(here.potential - there.potential) / step;
        segment.flow = laminar;
        segment.upperShare = 1;
        segment.lowerShare = 1;
        if (law.restrain !== undefined && laminar > 0) {
          law.restrain(laminar, down ? here : there, down ? there : here, step, before[s] ?? 0, segment);
          before[s] = segment.flow;
        }
        const flow = count * (down ? segment.flow : -segment.flow);
        out[a] = (out[a] ?? 0) - flow;
        out[b] = (out[b] ?? 0) + flow;
        if (slopes) {
          // dQ/dpA and -dQ/dpB of the flow from a to b
          const qa = (count * here.conductivity * (down ? segment.upperShare : segment.lowerShare)) / step;
          const qb = (count * there.conductivity * (down ? segment.lowerShare : segment.upperShare)) / step;
          diagonal[a] = (diagonal[a] ?? 0) + qa;
          diagonal[b] = (diagonal[b] ?? 0) + qb;
          const e = entries[s] ?? 0;
          // row a, column b holds -qb; row b, column a holds -qa
          const inRowOfA = forward[s] === 1 ? upper : lower;
          const inRowOfB = forward[s] === 1 ? lower : upper;
          inRowOfA[e] = (inRowOfA[e] ?? 0) - qb;
          inRowOfB[e] = (inRowOfB[e] ?? 0) - qa;
        }
        a = b;
        const swap = here;
        here = there;
        there = swap;
      }
    }
    let drawn = 0;
    for (let i = 0; i < ports.length; i++) {
      const port = ports[i];
      if (port === undefined) continue;
      const { node } = port;
      const throughput = port.throughput(pressures[node] ?? 0);
      drawn += throughput;
      out[node] = (out[node] ?? 0) - throughput;
      if (!slopes) continue;
      const slope = port.slope(pressures[node] ?? 0);
      diagonal[node] = (diagonal[node] ?? 0) + slope;
      const known = drawSlopes[i];
      if (known !== undefined) known.slope = slope;
    }
    return drawn;
  };
  return { plan, volumes, volume, jacobian, drawSlopes, flows, loadAt: (time) => loadAt(load, time), work };
}
