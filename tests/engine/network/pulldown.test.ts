import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pullDownTime } from '../../../src/engine/evacuate/pulldown.ts';
import { poiseuille } from '../../../src/engine/flow/poiseuille.ts';
import { rarefaction } from '../../../src/engine/flow/regime.ts';
import { type Network, rigPort } from '../../../src/engine/network/network.ts';
import { networkPullDown } from '../../../src/engine/network/pulldown.ts';
import { throughputAt } from '../../../src/engine/rig/speed.ts';
import { AIR } from '../rig/fakes.ts';
import { dead, NARROW, pipe, START, TARGET, volumeOf, WIDE } from './nets.ts';

const farEnd = (network: Network, target = TARGET): number =>
  networkPullDown(network, START, target).times.at(-1) ?? Number.NaN;
const whole = (network: Network, refine = 1): number =>
  networkPullDown(network, START, TARGET, undefined, { refine }).slowest;
/** what grid and steps may leave between two networks that differ little */
const NOISE = 1 + 1e-3;

describe('a network of short wide lines', () => {
  it.each([WIDE, NARROW])('pulls down like one volume', (curve) => {
    const network = dead(0.05, 0.2, 0.02, curve);
    const lumped = pullDownTime(curve, volumeOf(network), START, TARGET);
    expect(Math.abs(whole(network) / lumped - 1)).toBeLessThan(5e-4);
  });

  it('does so with a leak, and with outgassing that fades', () => {
    for (const load of [
      { leak: 5e-3, outgassing: 0, exponent: 0 },
      { leak: 1e-3, outgassing: 1e-4, exponent: 1 },
    ]) {
      const network = dead(0.05, 0.2, 0.02);
      const lumped = pullDownTime(WIDE, volumeOf(network), START, TARGET, load);
      expect(Math.abs(networkPullDown(network, START, TARGET, load).slowest / lumped - 1)).toBeLessThan(1e-3);
    }
  });

  it('with a rig at either end takes half the time of one', () => {
    const one: Network = { volumes: [0.01, 0.01], lines: [pipe(0, 1, 0.05, 0.2)], ports: [rigPort(0, NARROW)] };
    const two: Network = { ...one, ports: [rigPort(0, NARROW), rigPort(1, NARROW)] };
    expect(whole(two) / whole(one)).toBeCloseTo(0.5, 3);
  });

  it('stays with one volume close above the ultimate pressure, and reads alike everywhere', () => {
    for (const target of [3, 2.01, 2.0001]) {
      const network = dead(0.05, 0.1, 0.01);
      const lumped = pullDownTime(WIDE, volumeOf(network), START, target);
      const pull = networkPullDown(network, START, target);
      expect(Math.abs(pull.slowest / lumped - 1)).toBeLessThan(1e-3);
      expect(pull.highestAtGauge / target).toBeCloseTo(1, 3);
    }
    // a disc: what flows between its faces is all rounding
    const disc = networkPullDown(dead(1, 0.001, 0.01), START, TARGET);
    expect(disc.highestAtGauge / TARGET).toBeCloseTo(1, 5);
    expect(disc.slowestAt).toHaveProperty('node');
  });

  it('may have no lines at all', () => {
    const network: Network = { volumes: [0.01], lines: [], ports: [rigPort(0, WIDE)] };
    expect(whole(network) / pullDownTime(WIDE, 0.01, START, TARGET)).toBeCloseTo(1, 3);
  });
});

describe('a long line', () => {
  /** Second implementation: laminar flow by the mean conductance, equal cells, small explicit steps. */
  it('meets a direct march of its cells where the flow is laminar', () => {
    const [bore, length, end, start, target] = [0.008, 10, 1e-4, 600, 60] as const;
    const cells = 30;
    const dx = length / cells;
    const area = (Math.PI / 4) * bore * bore;
    const volumes = Array.from({ length: cells + 1 }, (_, i) =>
      i === 0 ? (area * dx) / 2 : i === cells ? (area * dx) / 2 + end : area * dx,
    );
    const p = volumes.map(() => start as number);
    const dt = 2e-4;
    let t = 0;
    let gauge = Number.NaN;
    while ((p[cells] ?? 0) > target && t < 1e3) {
      const flow = [-throughputAt(WIDE, p[0] ?? 0)];
      for (let i = 0; i < cells; i++) {
        const mean = 0.5 * ((p[i] ?? 0) + (p[i + 1] ?? 0));
        const perLength =
          (Math.PI / 2) * (bore / 2) ** 3 * AIR.probableSpeed * poiseuille(rarefaction(AIR, bore, mean));
        flow.push((perLength * ((p[i] ?? 0) - (p[i + 1] ?? 0))) / dx);
      }
      for (let i = 0; i <= cells; i++)
        p[i] =
          (p[i] ?? 0) +
          (dt * (i === 0 ? (flow[0] ?? 0) - (flow[1] ?? 0) : (flow[i] ?? 0) - (flow[i + 1] ?? 0))) / (volumes[i] ?? 1);
      t += dt;
      if (Number.isNaN(gauge) && (p[0] ?? 0) <= target) gauge = p[cells] ?? 0;
    }
    const pull = networkPullDown(dead(bore, length, end), start, target);
    expect(Math.abs((pull.times[1] ?? 0) / t - 1)).toBeLessThan(5e-3);
    expect(Math.abs((pull.atGauge[1] ?? 0) / gauge - 1)).toBeLessThan(5e-3);
  });

  it('converges with the square of the segment length, and is fine enough as it comes', () => {
    const network = dead(0.0079, 30);
    const [coarse = 0, middle = 0, fine = 0, asItComes = 0, finest = 0] = [0.1, 0.2, 0.4, 1, 4].map((refine) =>
      whole(network, refine),
    );
    const order = Math.log2(Math.abs(coarse - middle) / Math.abs(middle - fine));
    expect(order).toBeGreaterThan(1.6);
    expect(order).toBeLessThan(2.4);
    expect(Math.abs(asItComes / finest - 1)).toBeLessThan(1e-3);
  });

  it('keeps its gas: what left through the ports is what is missing', () => {
    for (const load of [undefined, { leak: 1e-3, outgassing: 1e-4, exponent: 0.5 }]) {
      const network = dead(0.0079, 30);
      const { march, volume } = networkPullDown(network, START, TARGET, load, { refine: 1 });
      expect(volume / volumeOf(network)).toBeCloseTo(1, 12);
      // halves of segments at the ends, whole ones between
      const { lines } = network;
      const piece = (lines[0]?.law.area ?? 0) * 30;
      const segments = march.pressures.length - 1;
      const left = march.pressures.reduce((sum, p, i) => {
        const own = network.volumes[i] ?? 0;
        return sum + p * (own + (i < 2 ? 0.5 : 1) * (piece / segments));
      }, 0);
      const balance = volumeOf(network) * START + march.admitted - march.drawn - left;
      expect(Math.abs(balance) / (volumeOf(network) * START)).toBeLessThan(1e-9);
      expect(march.admitted === 0).toBe(load === undefined);
    }
  });

  it('lags behind its gauge, the more the longer', () => {
    const lag = (length: number): number => networkPullDown(dead(0.0109, length), START, TARGET).atGauge[1] ?? 0;
    expect(lag(5)).toBeGreaterThan(TARGET);
    expect(lag(20)).toBeGreaterThan(lag(5));
  });
});

describe('laws of networks', () => {
  const bore = fc.double({ min: 0.005, max: 0.03, noNaN: true });
  const length = fc.double({ min: 0.5, max: 40, noNaN: true });
  const more = fc.double({ min: 1.05, max: 3, noNaN: true });
  const volume = fc.double({ min: 0, max: 0.01, noNaN: true });
  const runs = { numRuns: 12, seed: 5 };

  it('a longer line is never earlier at its far end', () => {
    fc.assert(
      fc.property(bore, length, more, volume, (b, l, m, v) => {
        expect(farEnd(dead(b, l * m, v)) * NOISE).toBeGreaterThanOrEqual(farEnd(dead(b, l, v)));
      }),
      runs,
    );
  });

  it('a wider line between the same volumes is never later, its own volume apart', () => {
    fc.assert(
      fc.property(bore, length, more, (b, l, m) => {
        const [narrow, wide] = [dead(b, l), dead(b * m, l)];
        // the volume that the wider line adds is taken from the end of it, which is the more remote place
        const ends = 0.02 + volumeOf(wide);
        const filled = (network: Network): Network => ({ ...network, volumes: [0, ends - volumeOf(network)] });
        expect(farEnd(filled(wide))).toBeLessThanOrEqual(farEnd(filled(narrow)) * NOISE);
      }),
      runs,
    );
  });

  it('an extra port is never later at any node', () => {
    fc.assert(
      fc.property(bore, length, length, volume, fc.constantFrom(0, 1, 2), (b, l1, l2, v, at) => {
        const one: Network = {
          volumes: [0, v, 0.001],
          lines: [pipe(0, 1, b, l1), pipe(1, 2, b, l2)],
          ports: [rigPort(0, WIDE)],
        };
        const two: Network = { ...one, ports: [...one.ports, rigPort(at, NARROW)] };
        const [first, second] = [one, two].map((network) => networkPullDown(network, START, TARGET));
        second?.times.forEach((time, i) => {
          expect(time).toBeLessThanOrEqual((first?.times[i] ?? 0) * NOISE);
        });
      }),
      runs,
    );
  });

  it('a larger volume anywhere is never earlier', () => {
    fc.assert(
      fc.property(bore, length, volume, (b, l, v) => {
        expect(whole(dead(b, l, v + 0.002)) * NOISE).toBeGreaterThanOrEqual(whole(dead(b, l, v)));
      }),
      runs,
    );
  });
});

describe('loops', () => {
  it('of two equal pipes are two pipes side by side', () => {
    const ring: Network = {
      volumes: [0, 0.002],
      lines: [pipe(0, 1, 0.008, 10), pipe(1, 0, 0.008, 10)],
      ports: [rigPort(0, WIDE)],
    };
    const pair: Network = { ...ring, lines: [pipe(0, 1, 0.008, 10, 2)] };
    expect(Math.abs(farEnd(ring) / farEnd(pair) - 1)).toBeLessThan(1e-3);
  });

  it('never hurt: closing one is never later at the far end of a main with volumes at its nodes', () => {
    const main: Network = {
      volumes: [0.01, 0.01, 0.01],
      lines: [pipe(0, 1, 0.008, 15), pipe(1, 2, 0.008, 15)],
      ports: [rigPort(0, WIDE)],
    };
    const closed: Network = { ...main, lines: [...main.lines, pipe(0, 2, 0.008, 15)] };
    expect(farEnd(closed)).toBeLessThan(farEnd(main));
  });

  it('with a port at either end are last in the middle of the pipe, not at a node', () => {
    const network: Network = {
      volumes: [0, 0],
      lines: [pipe(0, 1, 0.006, 40)],
      ports: [rigPort(0, WIDE), rigPort(1, WIDE)],
    };
    const pull = networkPullDown(network, START, TARGET);
    expect(pull.slowestAt).toEqual({ line: 0, along: 0.5 });
    expect(pull.slowest).toBeGreaterThan(2 * Math.max(...pull.times));
    expect(pull.times[0]).toBeCloseTo(pull.times[1] ?? 0, 6);
  });
});

describe('the work', () => {
  it('for a main of 100 nodes stays within its budget', () => {
    const network: Network = {
      volumes: Array.from({ length: 100 }, () => 5e-4),
      lines: Array.from({ length: 99 }, (_, i) => pipe(i, i + 1, 0.0199, 3)),
      ports: [rigPort(0, WIDE)],
    };
    const { march } = networkPullDown(network, START, TARGET);
    expect(march.pressures.length).toBeLessThan(400);
    expect(march.evaluations).toBeLessThan(1200);
    expect(march.refused).toBeLessThan(march.steps / 10);
  });
});
