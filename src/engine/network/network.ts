import type { RigCurve } from '../rig/curve.ts';
import { throughputAt, throughputSlope } from '../rig/speed.ts';
import type { LineLaw } from './law.ts';

/**
 * Lines between nodes, volumes at nodes, sinks of gas at ports. SI. Lines are long narrows in which gas is spread; a
 * node is one pressure.
 */
export interface Line {
  /** indices of nodes */
  readonly from: number;
  readonly to: number;
  /** m, > 0 */
  readonly length: number;
  /** equal lines side by side */
  readonly count: number;
  readonly law: LineLaw;
}

/** What draws gas at a node: throughput (Pa m3/s) at the node's pressure, and its slope (m3/s). */
export interface Port {
  readonly node: number;
  throughput(pressure: number): number;
  slope(pressure: number): number;
  /** the pressure that it reaches on its own, Pa */
  readonly ultimate: number;
}

export interface Network {
  /** volume at each node apart from that of the lines, m3 */
  readonly volumes: readonly number[];
  readonly lines: readonly Line[];
  readonly ports: readonly Port[];
}

/** A rig at a node, by its curve: the same rig and gas share one curve. */
export function rigPort(node: number, curve: RigCurve): Port {
  const { ultimate } = curve;
  return {
    node,
    ultimate,
    throughput: (pressure) => throughputAt(curve, pressure),
    slope(pressure) {
      if (pressure <= ultimate) return 0;
      const excess = pressure - ultimate;
      return (throughputAt(curve, pressure) / excess) * throughputSlope(curve, Math.log(excess));
    },
  };
}
