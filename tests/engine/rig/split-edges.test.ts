import { describe, expect, it } from 'vitest';
import type { PreparedPassage } from '../../../src/engine/flow/passage.ts';
import type { Leg, PartStage } from '../../../src/engine/rig/prepare.ts';
import { type Split, splitByHalving, splitFlow, upstreamOfParts } from '../../../src/engine/rig/split.ts';
import { AIR, constantPart, prepareConstant } from './fakes.ts';

type Upstream = (throughput: number, downstream: number) => number;

let solves = 0;

/** A stand-in part that has `upstream` in front of it; counts how often it is asked. */
function stage(name: string, upstream: Upstream, count = 1): PartStage {
  const part = constantPart(name, 1, { count });
  const passage: PreparedPassage = {
    passage: part.passage,
    gas: AIR,
    bore: 0.005,
    upstreamPressure: (throughput, downstream) => {
      solves += 1;
      return upstream(throughput, downstream);
    },
    throughput: () => Number.NaN,
  };
  return { kind: 'part', part, index: 0, passage, count };
}

/** Q = C (p1 - p2) */
const constant = (conductance: number): Upstream =>
  prepareConstant(constantPart('c', conductance).passage, AIR).upstreamPressure;
/** Q = (a/2) (p1^2 - p2^2), laminar flow */
const laminar =
  (a: number): Upstream =>
  (throughput, downstream) =>
    Math.sqrt(downstream ** 2 + (2 * throughput) / a);

const leg = (...stages: PartStage[]): Leg => ({ ways: [stages] });
const flowsOf = (split: Split): number[] => split.legs.map((each) => each.throughput);

function workOf(legs: readonly Leg[], throughput: number, downstream: number): { split: Split; work: number } {
  solves = 0;
  const split = splitFlow(legs, throughput, downstream);
  return { split, work: solves };
}

describe('parts in series', () => {
  it('share their flow among their like passages and add up their pressure differences', () => {
    const stages = [stage('a', constant(1e-3), 3), stage('b', constant(2e-3), 2)];
    // 0.012/3e-3 + 0.012/4e-3 = 4 + 3
    expect(upstreamOfParts(stages, 0.012, 10)).toBeCloseTo(17, 12);
    expect(upstreamOfParts([], 0.012, 10)).toBe(10);
  });
});

describe('the split of no ways, one way and no flow', () => {
  const alone = leg(stage('alone', constant(2e-3)));
  const other = leg(stage('other', constant(1e-3)));

  it('is the pressure behind it where there is no way', () => {
    for (const throughput of [0, 0.1]) expect(splitFlow([], throughput, 7)).toEqual({ upstream: 7, legs: [] });
    expect(splitByHalving([], 0.1, 7)).toEqual({ upstream: 7, legs: [] });
  });

  it('is the whole flow in one way, for one solve', () => {
    const { split, work } = workOf([alone], 0.006, 7);
    expect(split).toEqual({ upstream: 10, legs: [{ leg: alone, throughput: 0.006 }] });
    expect(work).toBe(1);
    expect(splitByHalving([alone], 0.006, 7)).toEqual({ upstream: 10, legs: [{ leg: alone, throughput: 0.006 }] });
  });

  it('is nothing for no flow, for no work, also for flow the wrong way', () => {
    for (const throughput of [0, -0.01, Number.NaN]) {
      const { split, work } = workOf([alone, other], throughput, 7);
      expect(split.upstream).toBe(7);
      expect(split.legs).toEqual([
        { leg: alone, throughput: 0 },
        { leg: other, throughput: 0 },
      ]);
      expect(work).toBe(0);
    }
  });

  it('counts the like ways of a leg together', () => {
    const stages = [stage('way', constant(1e-3))];
    const three: Leg = { ways: [stages, stages, stages] };
    const split = splitFlow([three, leg(stage('wide', constant(2e-3)))], 0.05, 1);
    // conductances 3e-3 and 2e-3
    expect(split.upstream).toBeCloseTo(11, 8);
    expect(flowsOf(split).map((flow) => Number(flow.toPrecision(8)))).toEqual([0.03, 0.02]);
  });
});

describe('the split of ways of one conductance each', () => {
  it('is by their conductances, whatever the pressure behind them and however small the drop', () => {
    const legs = [2e-3, 3e-3, 5e-3].map((c) => leg(stage('way', constant(c))));
    for (const downstream of [0, 1e-6, 1, 1e3, 1e5])
      for (const drop of [1e-6, 1e-3, 1, 1e4]) {
        // below that the drop is lost in the digits of the pressure
        if (drop < 1e-5 * downstream) continue;
        const split = splitFlow(legs, 1e-2 * drop, downstream);
        const shares = flowsOf(split).map((flow) => flow / (1e-2 * drop));
        const label = `drop ${drop} over ${downstream}`;
        [0.2, 0.3, 0.5].forEach((share, i) => {
          expect(Math.abs((shares[i] ?? 0) / share - 1), label).toBeLessThan(1e-9);
        });
        expect(Math.abs((split.upstream - downstream) / drop - 1), label).toBeLessThan(1e-9);
      }
  });

  it('is the same in another order of the ways', () => {
    const legs = [2e-3, 3e-3, 5e-3].map((c) => leg(stage('way', constant(c))));
    const there = splitFlow(legs, 0.3, 12);
    const back = splitFlow([...legs].reverse(), 0.3, 12);
    expect(back.upstream / there.upstream).toBeCloseTo(1, 11);
    flowsOf(there).forEach((flow, i) => {
      expect((flowsOf(back)[2 - i] ?? 0) / flow).toBeCloseTo(1, 9);
    });
  });

  it('is found by halving as well', () => {
    const legs = [2e-3, 3e-3, 5e-3].map((c) => leg(stage('way', constant(c))));
    for (const throughput of [2e-4, 0.05, 40]) {
      const split = splitByHalving(legs, throughput, 12);
      expect((split.upstream - 12) / (throughput / 1e-2)).toBeCloseTo(1, 9);
      [0.2, 0.3, 0.5].forEach((share, i) => {
        expect((flowsOf(split)[i] ?? 0) / throughput / share).toBeCloseTo(1, 9);
      });
      expect(split.legs.map((each) => each.leg)).toEqual(legs);
    }
  });
});

describe('the work of a split', () => {
  it('is three solves a way where flow is laminar, for its square of pressure is straight in the flow', () => {
    for (const throughput of [1e-8, 1e-3, 1, 1e5])
      for (const [one, two] of [
        [1e-5, 2e-5],
        [2e-5, 1e-5],
        [1e-5, 3e-5],
      ] as const) {
        const { split, work } = workOf(
          [leg(stage('one', laminar(one))), leg(stage('two', laminar(two)))],
          throughput,
          1e-3,
        );
        const label = `${throughput} Pa m3/s through ${one} and ${two}`;
        expect(work, label).toBe(6);
        expect((flowsOf(split)[0] ?? 0) / throughput, label).toBeCloseTo(one / (one + two), 9);
        // p1^2 = p2^2 + 2 Q/(a1 + a2)
        const upstream = Math.sqrt(1e-6 + (2 * throughput) / (one + two));
        expect(split.upstream / upstream, label).toBeCloseTo(1, 9);
      }
  });

  it('is two solves a way where the ways are equal', () => {
    const { split, work } = workOf([leg(stage('l', laminar(1e-5))), leg(stage('r', laminar(1e-5)))], 0.2, 30);
    expect(work).toBe(4);
    expect(flowsOf(split)).toEqual([0.1, 0.1]);
  });

  it('stays small where a way takes most of the flow', () => {
    const { split, work } = workOf([leg(stage('wide', laminar(1))), leg(stage('hair', laminar(1e-6)))], 3, 30);
    expect((flowsOf(split)[1] ?? 0) / (3 * (1e-6 / (1 + 1e-6)))).toBeCloseTo(1, 6);
    expect(work).toBeLessThanOrEqual(2 * 16);
  });
});

describe('ways that are hard to balance', () => {
  it('are still few solves where a spring holds one of them shut up to a pressure', () => {
    // the left way needs 1 Pa up to a flow of 0.5, a little more above: the right one then takes 1/1.25
    const spring: Upstream = (throughput, downstream) => downstream + Math.max(1, 0.95 + 0.1 * throughput);
    const legs = [leg(stage('left', spring)), leg(stage('right', constant(0.8)))];
    const { split, work } = workOf(legs, 1.2, 0);
    expect(split.upstream).toBeCloseTo(1, 9);
    expect(flowsOf(split)[0]).toBeCloseTo(0.4, 8);
    expect(flowsOf(split)[1]).toBeCloseTo(0.8, 8);
    expect(work).toBeLessThanOrEqual(2 * 10);
  });

  it('take fewer solves the less the drop is of the pressure, for the square of pressure is then straight', () => {
    const legs = [2e-3, 3e-3, 5e-3].map((c) => leg(stage('way', constant(c))));
    for (const [downstream, drop, most] of [
      [0, 1, 8],
      [1, 1, 7],
      [1, 1e4, 8],
      [1e3, 1, 5],
      [1e5, 1, 4],
      [1e5, 1e4, 6],
    ] as const)
      expect(workOf(legs, 1e-2 * drop, downstream).work, `drop ${drop} over ${downstream}`).toBeLessThanOrEqual(
        3 * most,
      );
  });
});

describe('ways that no flows balance', () => {
  it('are halved out to the flow at which one of them jumps, with the greater pressure in front', () => {
    // the left way needs 1 Pa more above a flow of 0.3: at 0.3 it has 0.3 or 1.3 Pa, the right one 0.7 Pa
    const jump: Upstream = (throughput, downstream) => downstream + throughput + (throughput > 0.3 ? 1 : 0);
    const left = leg(stage('left', jump));
    const right = leg(stage('right', constant(1)));
    for (const legs of [
      [left, right],
      [right, left],
    ]) {
      const { split, work } = workOf(legs, 1, 0);
      const flows = flowsOf(split);
      expect(flows[legs.indexOf(left)]).toBeCloseTo(0.3, 9);
      expect(flows[legs.indexOf(right)]).toBeCloseTo(0.7, 9);
      expect([0.7, 1.3].some((p) => Math.abs(split.upstream - p) < 1e-8)).toBe(true);
      expect(work).toBeLessThan(400);
    }
  });
});
