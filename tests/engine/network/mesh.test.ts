import { describe, expect, it } from 'vitest';
import { constantLaw } from '../../../src/engine/network/law.ts';
import { meshOf } from '../../../src/engine/network/mesh.ts';
import type { Line } from '../../../src/engine/network/network.ts';

const line = (from: number, to: number, length: number, area = 1e-4, count = 1): Line => ({
  from,
  to,
  length,
  count,
  law: constantLaw(1, area),
});
const segments = (lines: readonly Line[], refine?: number): number[] =>
  // a node that nothing leads to: three lines between three nodes would be a loop
  meshOf({ volumes: [0, 0, 0, 0], lines, ports: [] }, refine).chains.map(({ points }) => points.length - 1);

describe('the cutting of lines', () => {
  it('gives each end half a segment and each inner point a whole one', () => {
    // a line of 4e-4 m2 alone would have more than 40 segments: refined by 1/10 it has 4 of 2 m
    const network = { volumes: [0.5, 0.25, 1], lines: [line(0, 2, 8, 1e-4, 4)], ports: [] };
    const { nodes, volumes, chains } = meshOf(network, 0.1);
    expect(nodes).toBe(3);
    expect(chains[0]?.step).toBe(2);
    expect([...(chains[0]?.points ?? [])]).toEqual([0, 3, 4, 5, 2]);
    const piece = 4 * 1e-4 * 2;
    expect([...volumes]).toEqual([0.5 + piece / 2, 0.25, 1 + piece / 2, piece, piece, piece]);
    expect(network.volumes).toEqual([0.5, 0.25, 1]);
  });

  it('shares 120 segments by length in bores, 2 to 40 a line', () => {
    // equal bores: 120 x 3/12, 120 x 4/12, 120 x 5/12 over 40
    expect(segments([line(0, 1, 3), line(1, 2, 4), line(2, 0, 5)])).toEqual([30, 40, 40]);
    // a line of four times the cross-section is half as long in bores: 120 x 1/(1 + 2 + 3) and so on
    expect(segments([line(0, 1, 2, 4e-4), line(1, 2, 2), line(2, 0, 3)])).toEqual([20, 40, 40]);
    expect(segments([line(0, 1, 1e-3), line(1, 2, 100)])).toEqual([2, 40]);
    // a share that is no whole number is cut into one more
    expect(segments([line(0, 1, 1), line(1, 2, 7), line(2, 0, 7)])).toEqual([8, 40, 40]);
    expect(segments([line(0, 1, 1), line(1, 2, 6), line(2, 0, 6)])).toEqual([10, 40, 40]);
  });

  it('refines every line alike, at least one segment each', () => {
    expect(segments([line(0, 1, 1e-3), line(1, 2, 100)], 3)).toEqual([6, 120]);
    expect(segments([line(0, 1, 1e-3), line(1, 2, 100)], 0.1)).toEqual([1, 4]);
  });

  it('doubles the segments where gas may leave a line by both of its ends', () => {
    const lines = [line(0, 1, 3), line(1, 2, 4), line(2, 0, 5)];
    const cut = (ports: number, nodes: number) =>
      meshOf({
        volumes: Array(nodes).fill(0),
        lines,
        ports: Array.from({ length: ports }, (_, node) => ({ node, law: constantLaw(1, 1) }) as never),
      }).chains.map(({ points }) => points.length - 1);
    expect(cut(1, 4)).toEqual([30, 40, 40]);
    expect(cut(2, 4)).toEqual([60, 80, 80]);
    // around a loop
    expect(cut(1, 3)).toEqual([60, 80, 80]);
  });

  it('of no lines is the nodes', () => {
    expect([...meshOf({ volumes: [1, 2], lines: [], ports: [] }).volumes]).toEqual([1, 2]);
  });
});
