import { describe, expect, it } from 'vitest';
import type { Network } from '../../../src/engine/network/network.ts';
import { rigPort } from '../../../src/engine/network/network.ts';
import { networkPullDown } from '../../../src/engine/network/pulldown.ts';
import { CLOSENESS } from '../../../src/functions/network/graph.ts';
import { dead, NARROW, pipe, START, TARGET, WIDE } from '../../engine/network/nets.ts';

/** `count` pipes one behind the other, as a riser with a branch at each floor. */
function riser(count: number): Network {
  const trunk = Array.from({ length: count }, (_, i) => pipe(i, i + 1, 0.0157, 3));
  const branches = Array.from({ length: count }, (_, i) => pipe(i + 1, count + 1 + i, 0.0079, 4));
  return { volumes: Array(2 * count + 1).fill(0.001), lines: [...trunk, ...branches], ports: [rigPort(0, WIDE)] };
}

const NETWORKS: Readonly<Record<string, Network>> = {
  'a thin long pipe': dead(0.0079, 30),
  'a wide pipe behind a narrow hose': dead(0.0199, 60, 0.02, NARROW),
  'a wide long pipe': dead(0.04, 100, 0.05),
  'a tree': {
    volumes: [0.001, 0.002, 0.003, 0.001],
    lines: [pipe(0, 1, 0.014, 30), pipe(1, 2, 0.008, 10), pipe(1, 3, 0.006, 15, 2)],
    ports: [rigPort(0, WIDE)],
  },
  'a riser of twelve floors': riser(12),
};

describe('the closeness of networks in cells', () => {
  it.each(Object.keys(NETWORKS))(
    'leaves less than 5e-4 in the times of %s, against fine steps on a fine grid',
    (name) => {
      const network = NETWORKS[name] ?? dead(0.0079, 30);
      for (const [start, target] of [
        [START, TARGET],
        [900, TARGET],
        [START, 2000],
      ] as const) {
        const fine = networkPullDown(network, start, target, undefined, { refine: 2, relative: 3e-6 });
        const cell = networkPullDown(network, start, target, undefined, CLOSENESS);
        expect(Math.abs(cell.slowest / fine.slowest - 1)).toBeLessThan(5e-4);
        cell.times.forEach((time, node) => {
          // what a point near the rig takes in the first second is not what a plan rests on
          expect(Math.abs(time - (fine.times[node] ?? 0))).toBeLessThan(5e-4 * Math.max(time, 0.2 * fine.slowest));
        });
        expect(cell.march.steps).toBeLessThan(0.5 * fine.march.steps);
      }
    },
  );
});
