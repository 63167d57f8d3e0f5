import type { Line, Network } from './network.ts';

/** A chain of points along one line: from node, inner points, to node. */
export interface Chain {
  readonly line: Line;
  /** indices of points, one more than there are segments */
  readonly points: Int32Array;
  /** length of a segment, m */
  readonly step: number;
}

/** Finite volumes: nodes first, then the inner points of the lines. Each point holds half of the segments beside it. */
export interface Mesh {
  readonly nodes: number;
  readonly volumes: Float64Array;
  readonly chains: readonly Chain[];
}

/** Segments shared out over the whole network, by length in bores. */
const SEGMENTS = 120;
/** Least and most segments of one line before refinement. */
const LEAST = 2;
const MOST = 40;

/**
 * Where gas leaves by several ports, or around a loop, the last of it stands somewhere within a line and leaves to both sides: each
 * half gets as many segments as a line with a dead end.
 */
const HALVES = 2;

/** Whether a line may empty to both of its sides. */
function emptiesBothWays({ volumes, lines, ports }: Network): boolean {
  // a tree has one line less than nodes
  return ports.length > 1 || lines.length >= volumes.length;
}

/**
 * Cuts the lines into equal segments, more of them where a line is long for its bore: that is where pressure falls.
 * @param refine factor on the number of segments of every line
 */
export function meshOf(network: Network, refine = 1): Mesh {
  const { lines } = network;
  const slender = lines.map(({ length, law }) => length / Math.sqrt(law.area));
  const whole = slender.reduce((sum, one) => sum + one, 0);
  const volumes = [...network.volumes];
  const nodes = volumes.length;
  const halves = emptiesBothWays(network) ? HALVES : 1;
  const chains = lines.map((line, i): Chain => {
    const share = Math.ceil((SEGMENTS * (slender[i] ?? 0)) / whole);
    const segments = Math.max(1, Math.round(refine * halves * Math.min(MOST, Math.max(LEAST, share))));
    const step = line.length / segments;
    const piece = line.count * line.law.area * step;
    const points = new Int32Array(segments + 1);
    for (let k = 0; k <= segments; k++) {
      const inner = k > 0 && k < segments;
      const point = inner ? volumes.push(0) - 1 : k === 0 ? line.from : line.to;
      points[k] = point;
      volumes[point] = (volumes[point] ?? 0) + (inner ? piece : piece / 2);
    }
    return { line, points, step };
  });
  return { nodes, volumes: Float64Array.from(volumes), chains };
}
