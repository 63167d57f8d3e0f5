import { hermite } from '../../numerics/interpolate.ts';
import { CURVE_TOP, type RigCurve } from './curve.ts';
import { raiseBlocked, systemPressureAt } from './march.ts';
import type { PreparedRig } from './prepare.ts';
import { pumpThroughputAt } from './pump.ts';
import { thetaWithin } from './speed.ts';

/** Lowest excess pressure at the first node, Pa; K is level below it (molecular, or steady at the ultimate). */
const CURVE_FOOT = 1e-4;
/** The first node's excess as a part of the ultimate pressure. */
const FOOT_OF_ULTIMATE = 1e-4;
/** Step of ln(pump excess) of the first sweep. */
const FIRST_STEP = 0.9;
/** Largest miss of ln K half-way between nodes; the halves that remain miss by some eighth of it. */
const MISS = 1e-4;
const MOST_PASSES = 7;
const MOST_SWEEP = 400;

interface Node {
  /** ln of the pump inlet's excess pressure */
  readonly v: number;
  readonly x: number;
  readonly lnK: number;
}

/** Slopes by the parabola through each node and its neighbours. */
function slopesOf(x: ArrayLike<number>, y: ArrayLike<number>): Float64Array {
  const n = x.length;
  const slopes = new Float64Array(n);
  if (n < 2) return slopes;
  const at = (values: ArrayLike<number>, i: number): number => values[i] ?? 0;
  const rise = (i: number): number => (at(y, i + 1) - at(y, i)) / (at(x, i + 1) - at(x, i));
  for (let i = 1; i < n - 1; i++) {
    const before = at(x, i) - at(x, i - 1);
    const after = at(x, i + 1) - at(x, i);
    slopes[i] = (rise(i - 1) * after + rise(i) * before) / (before + after);
  }
  slopes[0] = 0; // K is level below the first node
  slopes[n - 1] = rise(n - 2);
  return slopes;
}

/**
 * Builds the curve of a prepared rig.
 *
 * @returns a table good to a relative 1e-3 in S_eff and better from 1e-3 Pa to `CURVE_TOP`
 * @throws a fault that names the part through which no pressure drives gas
 */
export function rigCurve(rig: PreparedRig): RigCurve {
  const ultimate = rig.ultimate;
  let marches = 0;
  const nodeAt = (v: number): Node => {
    marches += 1;
    const excess = Math.exp(v);
    const throughput = pumpThroughputAt(rig.pump, ultimate, excess);
    const system = systemPressureAt(rig, excess);
    // (system - inlet) + excess instead of system - ultimate keeps the digits of a small excess
    const x = Math.log(system - (ultimate + excess) + excess);
    const lnK = Math.log(throughput) - x;
    if (!Number.isFinite(x) || !Number.isFinite(lnK)) raiseBlocked(rig, excess);
    return { v, x, lnK };
  };

  const foot = Math.log(Math.max(CURVE_FOOT, FOOT_OF_ULTIMATE * ultimate));
  let first = nodeAt(foot);
  // down here the system's excess is proportional to the inlet's, so one correction finds the foot
  for (let i = 0; i < 4 && Math.abs(first.x - foot) > 0.5; i++) first = nodeAt(first.v + foot - first.x);
  const top = Math.log(CURVE_TOP);
  let nodes: Node[] = [first];
  for (let last = first, i = 0; last.x < top && i < MOST_SWEEP; i++) {
    last = nodeAt(last.v + FIRST_STEP);
    nodes.push(last);
  }

  let open = new Set<Node>(nodes.slice(0, -1));
  for (let pass = 0; pass < MOST_PASSES && open.size > 0; pass++) {
    const xs = nodes.map((node) => node.x);
    const ys = nodes.map((node) => node.lnK);
    const slopes = slopesOf(xs, ys);
    const refined: Node[] = [];
    const next = new Set<Node>();
    nodes.forEach((node, i) => {
      refined.push(node);
      const after = nodes[i + 1];
      if (after === undefined || !open.has(node)) return;
      const middle = nodeAt(0.5 * (node.v + after.v));
      const cubic = hermite(middle.x, node.x, after.x, node.lnK, after.lnK, slopes[i] ?? 0, slopes[i + 1] ?? 0);
      refined.push(middle);
      if (Math.abs(cubic - middle.lnK) > MISS) {
        next.add(node);
        next.add(middle);
      }
    });
    nodes = refined;
    open = next;
  }

  const x = Float64Array.from(nodes, (node) => node.x);
  const lnK = Float64Array.from(nodes, (node) => node.lnK);
  const slope = slopesOf(x, lnK);
  const theta = new Float64Array(x.length);
  const curve: RigCurve = { rig, ultimate, x, lnK, slope, theta, marches };
  for (let i = 0; i + 1 < x.length; i++) theta[i + 1] = (theta[i] ?? 0) + thetaWithin(curve, i, x[i + 1] ?? 0);
  return curve;
}
