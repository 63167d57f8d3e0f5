import { describe, expect, it } from 'vitest';
import { feedCurve, feedSecondsPerVolume, feedThroughput } from '../../../src/engine/breaks/feed.ts';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import { expectWithin } from '../../references/assert.ts';
import { AIR, core, hose, port, pumpOf, rigOf } from '../rig/fakes.ts';

const PUMP = pumpOf(2e-3, 2);

describe('gas let in through a rig', () => {
  it('chokes in a port at the flow of an ideal nozzle times its discharge coefficient', () => {
    // mdot = Cd A p sqrt(gamma/(R_s T)) (2/(gamma+1))^((gamma+1)/(2(gamma-1))), gas dynamics; Q = mdot R_s T
    const bore = 3e-3;
    const curve = feedCurve(rigOf(PUMP, [port(bore)]), AIR, 3e5);
    if (curve === undefined) throw new Error('no curve');
    const g = AIR.heatCapacityRatio;
    const RT = AIR.specificGasConstant * AIR.temperature;
    const area = (Math.PI / 4) * bore ** 2;
    const choked = 0.8 * area * 3e5 * Math.sqrt(g * RT) * (2 / (g + 1)) ** ((g + 1) / (2 * (g - 1)));
    for (const system of [10, 1e4, 1.2e5]) expectWithin(feedThroughput(curve, system), choked, 0.005, 'choked port');
    // at choked flow the pressure rises in a straight line
    expectWithin(feedSecondsPerVolume(curve, 100, 1e5), (1e5 - 100) / choked, 0.005, 'time of the fill');
  });

  it('passes at every pressure what the parts pass one after the other', () => {
    const parts = [hose(6e-3, 1.5), core(1.6e-3, 6e-3), port(4e-3)];
    const curve = feedCurve(rigOf(PUMP, parts), AIR, 2.5e5);
    if (curve === undefined) throw new Error('no curve');
    const passages = parts.map((part) => preparePassage(part.passage, AIR)).reverse();
    for (const system of [50, 7e4, 1.37e5, 2.1e5, 2.47e5, 2.4999e5]) {
      const throughput = feedThroughput(curve, system);
      let low = 0;
      let high = 1e5;
      for (let i = 0; i < 60; i++) {
        const middle = 0.5 * (low + high);
        let p = system;
        for (const passage of passages) p = passage.upstreamPressure(middle, p);
        if (p > 2.5e5) high = middle;
        else low = middle;
      }
      expectWithin(throughput, low, 2e-3, `system at ${system} Pa`);
    }
    expect(feedThroughput(curve, 2.5e5)).toBe(0);
    expect(feedThroughput(curve, 3e5)).toBe(0);
  });

  it('meets the parts in the other order than the pump does', () => {
    // wide at the pump and narrow at the system: the choked end decides, so that the order tells
    const parts = [hose(9e-3, 3), port(2.5e-3)];
    const one = feedCurve(rigOf(PUMP, parts), AIR, 2e5);
    const other = feedCurve(rigOf(PUMP, [...parts].reverse()), AIR, 2e5);
    if (one === undefined || other === undefined) throw new Error('no curve');
    const [long, narrow] = parts.map((part) => preparePassage(part.passage, AIR));
    const throughput = feedThroughput(one, 1000);
    const before = narrow?.upstreamPressure(throughput, 1000) ?? 0;
    expectWithin(long?.upstreamPressure(throughput, before) ?? 0, 2e5, 2e-3, 'supply behind hose and port');
    expect(feedThroughput(one, 1e5)).not.toBeCloseTo(feedThroughput(other, 1e5), 2);
  });

  it('shares the flow between branches as in a pull', () => {
    const legs = ['a', 'a', 'b'].map((leg, i) => hose(5e-3, 1 + i, { branch: 'two', leg }));
    const curve = feedCurve(rigOf(PUMP, legs), AIR, 2e5);
    const single = feedCurve(
      rigOf(
        PUMP,
        legs.slice(2).map(({ branch, leg, ...part }) => part),
      ),
      AIR,
      2e5,
    );
    if (curve === undefined || single === undefined) throw new Error('no curve');
    expect(feedThroughput(curve, 1e5)).toBeGreaterThan(1.5 * feedThroughput(single, 1e5));
  });
});
