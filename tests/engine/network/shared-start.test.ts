import { describe, expect, it } from 'vitest';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { type Network, rigPort } from '../../../src/engine/network/network.ts';
import { type NetworkPullDown, networkPullDown } from '../../../src/engine/network/pulldown.ts';
import { pullDownByRungs, rungAbove } from '../../../src/engine/network/shared-start.ts';
import { randomStream } from '../../../src/numerics/lattice.ts';
import { dead, NARROW, pipe, START, TARGET, volumeOf, WIDE } from './nets.ts';

const FINE = { refine: 0.4, relative: 1e-6 };

const TREE: Network = {
  volumes: [0.001, 0.002, 0.003, 0.001],
  lines: [pipe(0, 1, 0.014, 30), pipe(1, 2, 0.008, 10), pipe(1, 3, 0.006, 15, 2)],
  ports: [rigPort(0, WIDE)],
};
const NETWORKS: Readonly<Record<string, Network>> = {
  'a thin long pipe': dead(0.0079, 30),
  'a wide pipe behind a narrow hose': dead(0.0199, 60, 0.02, NARROW),
  'a wide long pipe': dead(0.04, 100, 0.05),
  'a tree': TREE,
  'a far volume with rigs on both sides': {
    volumes: [0.001, 0.02],
    lines: [pipe(0, 1, 0.005, 20)],
    ports: [rigPort(0, WIDE), rigPort(1, NARROW)],
  },
  'a system without lines': { volumes: [0.02], lines: [], ports: [rigPort(0, WIDE)] },
};

interface Told {
  readonly pull: NetworkPullDown;
  /** start pressures of the marches that were asked for, Pa */
  readonly marched: readonly number[];
}

function byRungs(network: Network, start: number, target: number, load = NO_LOAD): Told {
  const marched: number[] = [];
  const pull = pullDownByRungs(start, target, load, (from) => {
    marched.push(from);
    return networkPullDown(network, from, target, load, FINE);
  });
  return { pull, marched };
}

describe('a march that is shared by start pressures', () => {
  it('is within 3e-4 of a march of its own over made-up networks, or not taken', () => {
    const random = randomStream(5);
    const unit = (): number => random() / 2 ** 32;
    const between = (low: number, high: number): number => low * (high / low) ** unit();
    let shared = 0;
    for (let k = 0; k < 80; k++) {
      const nodes = 2 + Math.floor(5 * unit());
      const network: Network = {
        volumes: Array.from({ length: nodes }, () => (unit() < 0.3 ? 0 : between(2e-4, 0.05))),
        lines: Array.from({ length: nodes - 1 }, (_, i) =>
          pipe(Math.floor((i + 1) * unit()), i + 1, between(0.004, 0.04), between(1, 80)),
        ),
        ports: [rigPort(0, unit() < 0.5 ? WIDE : NARROW)],
      };
      const start = unit() < 0.5 ? between(9e4, 1.3e5) : between(100, 2e5);
      const target = between(12, 0.9 * start);
      const { pull, marched } = byRungs(network, start, target);
      if (marched.length > 1) continue;
      shared += 1;
      const own = networkPullDown(network, start, target, NO_LOAD, FINE);
      const within = 3e-4 * Math.max(Math.min(...own.times), 0.2 * own.slowest);
      for (const [i, time] of own.times.entries()) expect(Math.abs((pull.times[i] ?? 0) - time)).toBeLessThan(within);
      expect(Math.abs(pull.slowest - own.slowest)).toBeLessThan(within);
    }
    expect(shared).toBeGreaterThan(25);
  });

  it('begins at the power of two above', () => {
    expect(rungAbove(101_325)).toBe(131_072);
    expect(rungAbove(131_072)).toBe(131_072);
    expect(rungAbove(131_072.001)).toBe(262_144);
    expect(rungAbove(0.3)).toBe(0.5);
    for (let k = -8; k < 30; k++) expect(rungAbove(2 ** k)).toBe(2 ** k);
  });

  describe.each(Object.keys(NETWORKS))('over %s', (name) => {
    const network = NETWORKS[name] ?? TREE;
    it.each([
      [START, TARGET],
      [START, 5000],
      [START, 60_000],
      [140_000, TARGET],
      [20_000, TARGET],
      [3000, TARGET],
      [900, TARGET],
      [100, TARGET],
      [67, TARGET],
      // just under a rung, where the march has hardly begun
      [131_071, TARGET],
      [130_500, TARGET],
      [1023.9, TARGET],
      [1020, TARGET],
      [127, TARGET],
    ])('from %d Pa to %d Pa gives what a march of its own gives', (start, target) => {
      const own = networkPullDown(network, start, target, NO_LOAD, FINE);
      const { pull } = byRungs(network, start, target);
      const within = 2.2e-4 * Math.max(Math.min(...own.times), 0.2 * own.slowest);
      expect(Math.abs(pull.slowest - own.slowest)).toBeLessThan(within);
      own.times.forEach((time, node) => {
        expect(Math.abs((pull.times[node] ?? 0) - time)).toBeLessThan(within);
      });
      own.atGauge.forEach((pressure, node) => {
        expect((pull.atGauge[node] ?? 0) / pressure).toBeCloseTo(1, 3);
      });
      expect(pull.volume).toBe(own.volume);
      expect(pull.slowestAt).toEqual(own.slowestAt);
    });
  });

  it('is enough for all starts up to twice as high where the lines are wide', () => {
    const network = dead(0.04, 100, 0.05);
    for (const start of [66_000, 80_000, START, 131_000])
      expect(byRungs(network, start, TARGET).marched).toEqual([131_072]);
    expect(byRungs(network, 131_072, TARGET).marched).toEqual([131_072]);
  });

  it('is not taken where the lines are what holds the gas up from the first moment', () => {
    const { marched } = byRungs(dead(0.0079, 30), 900, TARGET);
    expect(marched).toEqual([1024, 900]);
  });

  it('is not asked for where the load slows with time', () => {
    const fading = { leak: 0, outgassing: 1e-5, exponent: 1 };
    expect(byRungs(dead(0.04, 100, 0.05), START, TARGET, fading).marched).toEqual([START]);
  });

  it('counts a steady leak from the start that was asked for', () => {
    const leak = { leak: 2e-2, outgassing: 0, exponent: 0 };
    const network = dead(0.04, 100, 0.05);
    const own = networkPullDown(network, START, TARGET, leak, FINE);
    const { pull, marched } = byRungs(network, START, TARGET, leak);
    expect(marched).toEqual([131_072]);
    expect(pull.slowest / own.slowest).toBeCloseTo(1, 4);
    // the same without the leak is quicker
    expect(byRungs(network, START, TARGET).pull.slowest).toBeLessThan(0.999 * pull.slowest);
  });

  it('is not taken where a node by the rig is at the target while the rest has hardly begun', () => {
    // next to no gas stands at the port, so that the whole is as even as can be
    const network: Network = { volumes: [0, 0.5], lines: [pipe(0, 1, 0.004, 0.1)], ports: [rigPort(0, WIDE)] };
    const own = networkPullDown(network, START, 0.95 * START, NO_LOAD, FINE);
    const { pull, marched } = byRungs(network, START, 0.95 * START);
    expect(own.times[0]).toBeLessThan(0.02 * own.slowest);
    expect(marched).toEqual([131_072, START]);
    expect(pull.times).toEqual(own.times);
  });

  it('leaves faults to the start that was asked for', () => {
    const network = dead(0.04, 100, 0.05);
    // the rung is above the target, the start is not: no march is tried from the rung
    for (const target of [1000, 1010]) {
      const marched: number[] = [];
      pullDownByRungs(1000, target, NO_LOAD, (from) => {
        marched.push(from);
        return networkPullDown(network, 2000, 900, NO_LOAD, FINE);
      });
      expect(marched).toEqual([1000]);
    }
    expect(() => byRungs(network, 1000, 1010)).toThrow(/order/);
    expect(() => byRungs(network, 1000, 1000)).toThrow(/order/);
    expect(() => byRungs({ volumes: [0.02], lines: [], ports: [rigPort(0, WIDE)] }, 1000, 1000)).toThrow(/order/);
    expect(() => byRungs(network, START, 0.1)).toThrow(/out-of-reach/);
  });

  it('follows a leak that keeps part of the network up by the march of the start itself', () => {
    const leak = { leak: 0.05, outgassing: 0, exponent: 0 };
    const network = dead(0.004, 40, 0.02);
    const own = networkPullDown(network, START, 2000, leak, FINE);
    const { pull, marched } = byRungs(network, START, 2000, leak);
    expect(own.times[1]).toBe(Number.POSITIVE_INFINITY);
    expect(marched).toEqual([131_072, START]);
    expect(pull.times).toEqual(own.times);
  });
});

describe('the course of a pull-down', () => {
  const pull = networkPullDown(TREE, START, TARGET, NO_LOAD, FINE);

  it('has the start and every step, falling', () => {
    expect(pull.course[0]).toEqual({ time: 0, mean: START, unevenness: 0 });
    expect(pull.course).toHaveLength(pull.march.steps + 1);
    expect(pull.course.at(-1)?.time).toBe(pull.march.time);
    pull.course.slice(1).forEach(({ mean, time }, i) => {
      expect(mean).toBeLessThan(pull.course[i]?.mean ?? 0);
      expect(time).toBeGreaterThan(pull.course[i]?.time ?? 0);
    });
  });

  it('ends with the gas that the march says was not drawn', () => {
    const volume = volumeOf(TREE);
    const left = START * volume - pull.march.drawn;
    expect((pull.course.at(-1)?.mean ?? 0) * volume).toBeCloseTo(left, 6);
  });

  it('knows how uneven two volumes are', () => {
    // two volumes on a pipe that all but holds no gas: mean and deviation of two values
    const [small, large] = [0.01, 0.03];
    const net: Network = { volumes: [small, large], lines: [pipe(0, 1, 0.002, 2)], ports: [rigPort(0, WIDE)] };
    const { course, atGauge, march } = networkPullDown(net, START, 50_000, NO_LOAD, FINE);
    const at = course.findIndex(({ time }) => time === march.time);
    const [p0 = 0, p1 = 0] = [march.pressures[0], march.pressures[1]];
    const mean = (small * p0 + large * p1) / (small + large);
    const rms = Math.sqrt((small * (p0 / mean - 1) ** 2 + large * (p1 / mean - 1) ** 2) / (small + large));
    expect(course[at]?.mean).toBeGreaterThan(0.99 * mean);
    expect(course[at]?.mean).toBeLessThan(1.01 * mean);
    expect((course[at]?.unevenness ?? 0) / rms).toBeCloseTo(1, 2);
    expect(rms).toBeGreaterThan(0.05);
    expect(atGauge).toHaveLength(2);
  });
});
