import { describe, expect, it } from 'vitest';
import { constantLaw } from '../../../src/engine/network/law.ts';
import { type Line, type Network, type Port, rigPort } from '../../../src/engine/network/network.ts';
import { networkPullDown } from '../../../src/engine/network/pulldown.ts';
import { throughputAt } from '../../../src/engine/rig/speed.ts';
import { issueOf } from '../../issue-of.ts';
import { holding, WIDE } from './nets.ts';

const START = 1000;
/** A pump of constant speed that reaches a pressure on its own. */
const pump = (node: number, speed: number, ultimate = 0): Port => holding(node, ultimate, speed);
const line = (from: number, to: number, conductivity = 1e-4, over: Partial<Line> = {}): Line => ({
  from,
  to,
  length: 1,
  count: 1,
  law: constantLaw(conductivity, 1e-9),
  ...over,
});
const tank: Network = { volumes: [0.02], lines: [], ports: [pump(0, 0.002, 4)] };

describe('the pull-down of one volume', () => {
  it('falls exponentially to the ultimate pressure', () => {
    for (const target of [900, 100, 5, 4.01]) {
      const { times, slowest, atGauge, highestAtGauge, slowestAt, volumes, volume } = networkPullDown(
        tank,
        START,
        target,
      );
      const exact = 10 * Math.log((START - 4) / (target - 4));
      expect(Math.abs((times[0] ?? 0) / exact - 1)).toBeLessThan(1e-3);
      expect(slowest).toBe(times[0]);
      expect(atGauge[0]).toBeCloseTo(target, 8);
      expect(highestAtGauge).toBe(atGauge[0]);
      expect([slowestAt, volumes, volume]).toEqual([{ node: 0 }, [0.02], 0.02]);
    }
  });

  it('bends towards where leak and pump are in balance as the closed form does', () => {
    const load = { leak: 0.1, outgassing: 0, exponent: 0 };
    for (const target of [300, 60, 55]) {
      const exact = 10 * Math.log((START - 54) / (target - 54));
      const { times } = networkPullDown(tank, START, target, load);
      expect(Math.abs((times[0] ?? 0) / exact - 1)).toBeLessThan(1e-4);
    }
  });

  it('is nearer the closed form where smaller errors are asked for', () => {
    const exact = 10 * Math.log(996 / 96);
    const miss = (relative: number): number =>
      Math.abs((networkPullDown(tank, START, 100, undefined, { relative }).times[0] ?? 0) / exact - 1);
    expect(miss(1e-9)).toBeLessThan(1e-7);
    expect(miss(1e-3)).toBeGreaterThan(miss(1e-6));
    expect(networkPullDown(tank, START, 100, undefined, { relative: 3e-5 })).toEqual(networkPullDown(tank, START, 100));
  });

  it('ends with the step in which the target is met', () => {
    const { march, times, highest } = networkPullDown(tank, START, 100);
    expect(march.status).toBe('stopped');
    expect(march.time).toBeGreaterThanOrEqual(times[0] ?? 0);
    expect(march.time).toBeLessThan(1.5 * (times[0] ?? 0));
    expect(highest).toBe(march.pressures[0]);
    expect(highest).toBeLessThanOrEqual(100);
  });
});

describe('two volumes with a narrow between', () => {
  // V1 dp1/dt = -S p1 + C (p2 - p1), V2 dp2/dt = -C (p2 - p1): the line holds next to nothing
  const [v1, v2, speed, c] = [0.01, 0.03, 0.002, 5e-4];
  const network: Network = { volumes: [v1, v2], lines: [line(0, 1, c)], ports: [pump(0, speed)] };
  /** Small explicit steps of a Runge-Kutta method: pressures by time. */
  function byHand(until: (p1: number, p2: number) => boolean): { t: number; p1: number; p2: number } {
    let [t, p1, p2] = [0, START as number, START as number];
    const dt = 0.01;
    const rate = (a: number, b: number): [number, number] => [(-speed * a + c * (b - a)) / v1, (-c * (b - a)) / v2];
    while (!until(p1, p2)) {
      const k1 = rate(p1, p2);
      const k2 = rate(p1 + (dt / 2) * k1[0], p2 + (dt / 2) * k1[1]);
      p1 += dt * k2[0];
      p2 += dt * k2[1];
      t += dt;
    }
    return { t, p1, p2 };
  }

  it('reach the target one after the other, and tell what stands where the gauge is at the target', () => {
    const pull = networkPullDown(network, START, 100);
    const first = byHand((p1) => p1 <= 100);
    const second = byHand((_, p2) => p2 <= 100);
    expect(Math.abs((pull.times[0] ?? 0) / first.t - 1)).toBeLessThan(1e-3);
    expect(Math.abs((pull.times[1] ?? 0) / second.t - 1)).toBeLessThan(1e-3);
    expect(pull.slowest).toBe(pull.times[1]);
    expect(pull.slowestAt).toEqual({ node: 1 });
    expect(pull.atGauge[0]).toBeCloseTo(100, 8);
    expect(Math.abs((pull.atGauge[1] ?? 0) / first.p2 - 1)).toBeLessThan(1e-3);
    expect(pull.highestAtGauge).toBe(pull.atGauge[1]);
    expect(pull.march.status).toBe('stopped');
  });

  it('with the gauge at the far node tell what stands at the pump then', () => {
    const swapped: Network = { volumes: [v2, v1], lines: [line(0, 1, c)], ports: [pump(0, 0), pump(1, speed)] };
    const pull = networkPullDown(swapped, START, 100);
    const then = byHand((_, p2) => p2 <= 100);
    expect(Math.abs((pull.atGauge[1] ?? 0) / then.p1 - 1)).toBeLessThan(2e-3);
    expect(pull.highestAtGauge).toBeCloseTo(100, 6);
    expect(pull.slowestAt).toEqual({ node: 0 });
  });

  it('count half of each line as theirs', () => {
    const lines = [
      line(0, 1, 1, { law: constantLaw(1, 2e-4), length: 5, count: 3 }),
      line(1, 2, 1, { law: constantLaw(1, 4e-4) }),
    ];
    const { volumes, volume } = networkPullDown(
      { volumes: [0.01, 0.02, 0], lines, ports: [pump(0, 0.002)] },
      START,
      100,
    );
    expect(volumes[0]).toBeCloseTo(0.01 + 1.5e-3, 14);
    expect(volumes[1]).toBeCloseTo(0.02 + 1.5e-3 + 2e-4, 14);
    expect(volumes[2]).toBeCloseTo(2e-4, 14);
    expect(volume).toBeCloseTo(0.03 + 3e-3 + 4e-4, 14);
  });
});

describe('where a network is last', () => {
  const wide = (from: number, to: number, length: number) =>
    line(from, to, 2e-7, { law: constantLaw(2e-7, 5e-5), length });

  it('is the middle of a line that is held at both its ends, of the line that takes longest', () => {
    const held = { volumes: [0, 0, 0], ports: [0, 1, 2].map((node) => pump(node, 1, 1)) };
    expect(networkPullDown({ ...held, lines: [wide(0, 1, 4), wide(1, 2, 10)] }, START, 100).slowestAt).toEqual({
      line: 1,
      along: 0.5,
    });
    const { slowest, slowestAt, times } = networkPullDown(
      { ...held, lines: [wide(1, 2, 10), wide(0, 1, 4)] },
      START,
      100,
    );
    expect(slowestAt).toEqual({ line: 0, along: 0.5 });
    // (4/pi) exp(-pi2 K t/(A L2)) of the excess: a slab held at both faces (Carslaw and Jaeger, Conduction of Heat in Solids, 3.3)
    const exact = (Math.log((4 / Math.PI) * (999 / 99)) * 5e-5 * 100) / (Math.PI ** 2 * 2e-7);
    expect(Math.abs(slowest / exact - 1)).toBeLessThan(5e-3);
    expect(Math.max(...times)).toBeLessThan(0.01 * slowest);
  });

  it('is nearer the end that is held less firmly', () => {
    const { slowestAt } = networkPullDown(
      { volumes: [0, 0], lines: [wide(0, 1, 10)], ports: [pump(0, 1, 1), pump(1, 2e-8, 1)] },
      START,
      100,
    );
    expect(slowestAt).toMatchObject({ line: 0 });
    expect('along' in slowestAt && slowestAt.along > 0.6 && slowestAt.along < 1).toBe(true);
  });

  it('is told of the node where all points are alike', () => {
    const alike = { volumes: [0.02, 0.02], lines: [line(0, 1, 10)], ports: [pump(0, 1e-3)] };
    expect(networkPullDown(alike, START, 100).slowestAt).toHaveProperty('node');
  });
});

describe('what cannot be reached', () => {
  it('is a target that is not below the start', () => {
    for (const target of [START, 2000, Number.NaN])
      expect(issueOf(() => networkPullDown(tank, START, target))).toEqual({
        kind: 'order',
        upper: 'Start pressure',
        upperValue: START,
        lower: 'Target',
        lowerValue: target,
        unit: 'Pa',
      });
  });

  it('is a target not above the lowest ultimate pressure of the pumps', () => {
    const two = { ...tank, ports: [pump(0, 0.002, 4), pump(0, 0.002, 2)] };
    expect(issueOf(() => networkPullDown(two, START, 2))).toEqual({
      kind: 'out-of-reach',
      targetPa: 2,
      lowestPa: 2,
      because: 'it is the ultimate pressure of the pump',
    });
    expect(issueOf(() => networkPullDown(two, START, 3.5))).toBeUndefined();
    expect(issueOf(() => networkPullDown(tank, START, 4.001))).toBeUndefined();
  });

  it('is a target under the balance of leak and pump, which is told', () => {
    const load = { leak: 0.1, outgassing: 0, exponent: 0 };
    // 4 + 0.1/0.002
    const issue = issueOf(() => networkPullDown(tank, START, 53.9, load));
    expect(issue).toEqual({
      kind: 'out-of-reach',
      targetPa: 53.9,
      lowestPa: expect.closeTo(54, 4),
      because: 'leak and outgassing balance what the rigs carry off there',
    });
    const far = { volumes: [0.01, 0.09], lines: [line(0, 1, 1e-3)], ports: [pump(0, 0.002)] };
    // the lowest is at the pump: 0.1/0.002; the far node stands 90 above
    expect(issueOf(() => networkPullDown(far, START, 49, load))).toMatchObject({ lowestPa: expect.closeTo(50, 3) });
    expect(networkPullDown(tank, START, 54.1, load).times[0]).toBeLessThan(365 * 86_400);
  });

  it('is infinite for a node that never gets there while another does', () => {
    // the leak is shared by volume: 0.09 at the far node through 1e-3 m3/s stands 90 Pa above the other
    const load = { leak: 0.1, outgassing: 0, exponent: 0 };
    const network = { volumes: [0.01, 0.09], lines: [line(0, 1, 1e-3)], ports: [pump(0, 0.002)] };
    const { times, slowest, atGauge, highest, march } = networkPullDown(network, START, 60, load);
    expect(times[0]).toBeLessThan(1000);
    expect([times[1], slowest, march.status, march.time]).toEqual([
      Number.POSITIVE_INFINITY,
      Number.POSITIVE_INFINITY,
      'end',
      365 * 86_400,
    ]);
    expect(highest).toBeCloseTo(50 + 90, 3);
    expect(atGauge[1]).toBeGreaterThan(140);
    // where the gauge never gets there, there is nothing to tell of that moment
    const gaugeFar = { ...network, ports: [pump(1, 0), pump(0, 0.002)] };
    const far = networkPullDown(gaugeFar, START, 60, load);
    expect([far.atGauge[0], far.atGauge[1], far.highestAtGauge]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
  });

  it('is a network that cannot be followed', () => {
    const broken = { ...tank, ports: [{ ...pump(0, 1), throughput: () => Number.NaN }] };
    expect(issueOf(() => networkPullDown(broken, START, 100))).toEqual({
      kind: 'no-solution',
      reason: 'the pull-down of this network could not be followed to its end',
      todo: 'Check the bores, lengths and volumes of the runs, and their units.',
    });
  });
});

describe('a rig as a port', () => {
  const port = rigPort(3, WIDE);

  it('draws what its curve tells, and nothing at or below its ultimate pressure', () => {
    expect([port.node, port.ultimate]).toEqual([3, WIDE.ultimate]);
    expect(port.throughput(500)).toBe(throughputAt(WIDE, 500));
    expect([port.slope(WIDE.ultimate), port.slope(0.5 * WIDE.ultimate)]).toEqual([0, 0]);
  });

  it.each([2.5, 10, 300, 2e4, 9e4])('has the slope of its throughput at %s Pa', (p) => {
    const step = 1e-4 * (p - WIDE.ultimate);
    const slope = (port.throughput(p + step) - port.throughput(p - step)) / (2 * step);
    expect(port.slope(p) / slope).toBeCloseTo(1, 3);
  });
});
