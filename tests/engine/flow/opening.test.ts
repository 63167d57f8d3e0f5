import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chokedConstant } from '../../../src/engine/flow/nozzle.ts';
import { ellipse } from '../../../src/engine/flow/opening.ts';
import type { Passage } from '../../../src/engine/flow/passage.ts';
import { preparePassage } from '../../../src/engine/flow/prepare.ts';
import { continuumShare } from '../../../src/engine/flow/restriction.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';

const air = gasState('air', 293.15);
const rt = air.specificGasConstant * air.temperature;
const opening = (bore: number, dischargeCoefficient = 0.8) =>
  ({ kind: 'opening', bore, dischargeCoefficient }) as const;

const between = (low: number, high: number): fc.Arbitrary<number> =>
  fc.double({ min: Math.log(low), max: Math.log(high), noNaN: true }).map(Math.exp);
const pressures = between(1e-6, 1e6);
const ratios = fc.double({ min: 0, max: 0.9999, noNaN: true });
const passages: fc.Arbitrary<Passage> = fc.oneof(
  fc.record({
    kind: fc.constant('opening' as const),
    bore: between(1e-4, 0.1),
    dischargeCoefficient: fc.double({ min: 0.1, max: 1, noNaN: true }),
  }),
  fc.record({
    kind: fc.constant('sonic' as const),
    sonicConductance: between(1e-11, 1e-6),
    criticalRatio: fc.double({ min: 0, max: 0.9, noNaN: true }),
    bore: between(1e-4, 0.1),
  }),
  fc.record({
    kind: fc.constant('valve' as const),
    kv: between(1e-4, 100),
    pressureDropRatio: fc.double({ min: 0.2, max: 1, noNaN: true }),
  }),
);

describe('openings and valves obey the laws of the trade', () => {
  it('give back the pressure that drove the flow', () => {
    fc.assert(
      fc.property(passages, pressures, ratios, (passage, p, ratio) => {
        const ready = preparePassage(passage, air);
        expect(Math.abs(ready.upstreamPressure(ready.throughput(p, ratio * p), ratio * p) / p - 1)).toBeLessThan(1e-8);
      }),
    );
  });

  it('pass more at a higher inlet pressure, and never more at a higher outlet pressure', () => {
    fc.assert(
      fc.property(passages, pressures, ratios, between(1.001, 10), (passage, p, ratio, more) => {
        const ready = preparePassage(passage, air);
        const q = ready.throughput(p, ratio * p);
        expect(ready.throughput(p * more, ratio * p)).toBeGreaterThan(q);
        expect(ready.throughput(p, Math.min(ratio * p * more, p))).toBeLessThanOrEqual(q * (1 + 1e-12));
      }),
      { numRuns: 500 },
    );
  });

  it('pass nothing between equal pressures', () => {
    fc.assert(
      fc.property(passages, pressures, (passage, p) => {
        const ready = preparePassage(passage, air);
        expect(ready.throughput(p, p)).toBe(0);
        expect(ready.upstreamPressure(0, p)).toBe(p);
      }),
    );
  });

  it('join their regimes without a step', () => {
    for (const passage of [
      opening(0.003),
      opening(0.003, 0.3),
      { kind: 'sonic', sonicConductance: 1e-8, criticalRatio: 0.3 },
      { kind: 'valve', kv: 0.5, pressureDropRatio: 0.7 },
    ] as const)
      for (const ratio of [0, 0.5, 0.9]) {
        const ready = preparePassage(passage, air);
        let before = ready.throughput(1e-5, ratio * 1e-5) / 1e-5;
        for (let p = 1.01e-5; p < 1e6; p *= 1.01) {
          const conductance = ready.throughput(p, ratio * p) / p;
          expect(Math.abs(conductance / before - 1), `${passage.kind} ${p} Pa`).toBeLessThan(0.011);
          before = conductance;
        }
      }
  });

  it('a larger port never lowers the flow, and no port beats the ideal nozzle', () => {
    fc.assert(
      fc.property(between(1e-4, 0.05), between(1, 3), pressures, ratios, (bore, wider, p, ratio) => {
        const flow = (b: number): number => preparePassage(opening(b, 1), air).throughput(p, ratio * p);
        expect(flow(bore * wider)).toBeGreaterThanOrEqual(flow(bore) * (1 - 1e-12));
        const nozzle = chokedConstant(air.heatCapacityRatio) * (Math.PI / 4) * bore ** 2 * p * Math.sqrt(rt);
        expect(flow(bore)).toBeLessThanOrEqual(nozzle * (1 + 1e-12));
      }),
    );
  });
});

describe('limits of an opening', () => {
  const bore = 0.002;
  const area = (Math.PI / 4) * bore ** 2;

  it('is effusion, A vbar/4 (p1 - p2), in molecular flow', () => {
    const vbar = Math.sqrt((8 * rt) / Math.PI);
    const q = preparePassage(opening(bore), air).throughput(1e-5, 4e-6);
    expect(Math.abs(q / ((area * vbar * 6e-6) / 4) - 1)).toBeLessThan(1e-5);
  });

  it('is creeping flow, a^3 dp/(3 mu) of volume, at a vanishing difference in dense gas', () => {
    // Source: Sampson 1891
    const p = 1e5;
    const dp = 1e-7;
    const q = preparePassage(opening(bore), air).throughput(p, p - dp);
    const theirs = (p * (bore / 2) ** 3 * (p - (p - dp))) / (3 * air.viscosity);
    expect(Math.abs(q / theirs - 1)).toBeLessThan(0.01);
  });

  it('is the choked nozzle times its coefficient at ordinary pressure', () => {
    const q = preparePassage(opening(bore, 0.7), air).throughput(1e5, 0);
    expect(q / (0.7 * chokedConstant(1.4001) * area * 1e5 * Math.sqrt(rt))).toBeCloseTo(1, 6);
  });

  it('keeps its digits at small differences: the ellipse is a square root there', () => {
    expect(ellipse(1e-12, 0.5) / Math.sqrt(4e-12)).toBeCloseTo(1, 9);
    expect(ellipse(0.5, 0.5)).toBe(1);
    expect(ellipse(0, 0.5)).toBe(0);
  });

  it('has a share of continuum flow from none to all', () => {
    expect(continuumShare(0)).toBe(0);
    expect(continuumShare(1e-6)).toBeLessThan(1e-3);
    expect(continuumShare(1e6)).toBe(1);
    let before = 0;
    for (let d = 1e-6; d < 1e6; d *= 1.1) {
      expect(continuumShare(d)).toBeGreaterThanOrEqual(before);
      before = continuumShare(d);
    }
  });
});

describe('work of an opening', () => {
  it('solves for the upstream pressure in at most eight evaluations, fewer than five on average', () => {
    const count = { evaluations: 0 };
    let total = 0;
    let solves = 0;
    for (const passage of [opening(0.003), { kind: 'valve', kv: 0.5, pressureDropRatio: 0.7 } as const]) {
      const ready = preparePassage(passage, air, count);
      for (let q = 1e-10; q < 1e3; q *= 1.7)
        for (const down of [0, q, 1e3 * q]) {
          count.evaluations = 0;
          ready.upstreamPressure(q, down);
          expect(count.evaluations).toBeLessThanOrEqual(8);
          total += count.evaluations;
          solves++;
        }
    }
    expect(total / solves).toBeLessThan(5);
  });
});
