import { describe, expect, it } from 'vitest';
import { type RiskFactor, type RiskRow, type RiskTarget, sampleRisk } from '../../../src/engine/estimate/risk.ts';
import type { Spread } from '../../../src/engine/estimate/spread.ts';
import { normalScore } from '../../../src/numerics/normal.ts';
import { riskRow } from './simple.ts';

const PLAIN = { waterScores: [0], ambientScores: [0], scenarios: 80 };
/** One set: the first prime at or above 80 / 8. */
const N = 11;
const row = (over: Partial<RiskRow>): RiskRow => riskRow({ count: 60, pull: [0], ...over });
const factor = (on: RiskTarget, spread: Partial<Spread> = {}, shared = false): RiskFactor => ({
  on,
  spread: { kind: 'factor', median: 1, below: 0.2, above: 0.5, ...spread },
  shared,
});
/** The middle of each of `parts` equal shares of a normal variable. */
const middles = (parts: number): number[] => Array.from({ length: parts }, (_, k) => normalScore((k + 0.5) / parts));
const lopsided = (score: number, median = 1, below = 0.2, above = 0.5): number =>
  median * Math.exp(score * (score < 0 ? below : above));
/** In straight lines between points, and on beyond the ends. */
const straight = (xs: readonly number[], ys: readonly number[], x: number): number => {
  let i = 1;
  while (i < xs.length - 1 && x > (xs[i] ?? 0)) i++;
  const [x0, x1, y0, y1] = [xs[i - 1] ?? 0, xs[i] ?? 0, ys[i - 1] ?? 0, ys[i] ?? 0];
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
};
/** Each set of a sample in rising order must be these values. */
const expectEachSet = (values: Float64Array, wanted: readonly number[]): void => {
  const rising = [...wanted].sort((a, b) => a - b);
  expect(values.length).toBe(8 * rising.length);
  for (let set = 0; set < 8; set++)
    [...values.slice(set * rising.length, (set + 1) * rising.length)]
      .sort((a, b) => a - b)
      .forEach((value, i) => {
        expect(value).toBeCloseTo(rising[i] ?? Number.NaN, 10);
      });
};

describe('every set takes each equal part of a factor once, at its middle', () => {
  it.each(['access', 'learning'] as const)('%s, on what is attended', (on) => {
    const { attended } = sampleRisk([row({ steady: 30, fixed: 4 })], [factor(on, { median: 1.1 })], PLAIN);
    expectEachSet(
      attended,
      middles(N).map((score) => 30 * lopsided(score, 1.1) + 4),
    );
  });

  it('leaks, which never give time back', () => {
    const leaks = factor('leaks', { kind: 'shift', median: 2, below: 3, above: 5 });
    expectEachSet(
      sampleRisk([row({ steady: 10 })], [leaks], PLAIN).attended,
      middles(N).map((score) => 10 + Math.max(0, 2 + score * (score < 0 ? 3 : 5))),
    );
  });

  it('an access that may fall below nothing is not cut off', () => {
    const access = factor('access', { kind: 'shift', median: 0.5, below: 1, above: 1 });
    expectEachSet(
      sampleRisk([row({ steady: 10 })], [access], PLAIN).attended,
      middles(N).map((score) => 10 * (0.5 + score)),
    );
  });

  it('water and ambient, on a pull in straight lines between its scores and on beyond', () => {
    const scores = [-1.2, -0.3, 0, 0.9];
    const minutes = [20, 31, 60, 64];
    const pulled = middles(N).map((score) => 5 + straight(scores, minutes, score));
    const rows = [row({ pull: minutes, hold: 5 })];
    expectEachSet(sampleRisk(rows, [factor('water')], { ...PLAIN, waterScores: scores }).waiting, pulled);
    expectEachSet(sampleRisk(rows, [factor('ambient')], { ...PLAIN, ambientScores: scores }).waiting, pulled);
    const two = sampleRisk([row({ pull: [10, 40] })], [factor('water')], { ...PLAIN, waterScores: [-1, 2] });
    expectEachSet(
      two.waiting,
      middles(N).map((score) => 20 + 10 * score),
    );
  });

  it('a row of one pull stays as it is whatever the water', () => {
    const options = { ...PLAIN, waterScores: [-1, 0, 1], ambientScores: [-1, 0, 1] };
    const { waiting } = sampleRisk([row({ pull: [33] })], [factor('water'), factor('ambient')], options);
    expectEachSet(
      waiting,
      middles(N).map(() => 33),
    );
  });
});

describe('scenario by scenario', () => {
  const waterScores = [-2, -0.5, 0.4, 2];
  const ambientScores = [-1.5, 0.2, 1];
  const grid = { ...PLAIN, waterScores, ambientScores };
  const at = (of: (water: number, ambient: number) => number): number[] =>
    waterScores.flatMap((water) => ambientScores.map((ambient) => of(water, ambient)));
  const all = [
    factor('water'),
    factor('ambient'),
    factor('access', { median: 1.2 }),
    factor('learning', { median: 0.9 }),
    factor('leaks', { kind: 'shift', median: 6, below: 4, above: 9 }),
  ];
  const drawn = (over: Partial<RiskRow>, factors = all) => sampleRisk([row(over)], factors, grid);
  // the same seed draws the same, so the scores of each scenario show in pulls that are the score itself
  const waters = drawn({ pull: at((water) => water), hold: 1000 }).waiting.map((value) => value - 1000);
  const ambients = drawn({ pull: at((_, ambient) => ambient), hold: 1000 }).waiting.map((value) => value - 1000);
  const leaks = drawn({}).attended;
  const factors = drawn({ steady: 1 }).attended.map((value, i) => value - (leaks[i] ?? 0));

  it('the pull is that of both scores, in a straight line along each', () => {
    expectEachSet(waters, middles(N));
    expectEachSet(ambients, middles(N));
    const bump = (water: number, ambient: number): number =>
      90 + 25 * Math.sin(3 * water) + 15 * Math.cos(4 * ambient + water);
    const { waiting } = drawn({ pull: at(bump) });
    waiting.forEach((value, i) => {
      const lines = waterScores.map((water) =>
        straight(
          ambientScores,
          ambientScores.map((ambient) => bump(water, ambient)),
          ambients[i] ?? 0,
        ),
      );
      expect(value).toBeCloseTo(Math.max(0, straight(waterScores, lines, waters[i] ?? 0)), 9);
    });
  });

  it('access and learning act on steady work and looks, not on the way nor on leaks', () => {
    const { attended, waiting } = drawn({
      steady: 20,
      fixed: 7,
      hold: 12,
      checkInterval: 25,
      checkMinutes: 3,
      pull: at((water) => 100 + 20 * water),
    });
    attended.forEach((value, i) => {
      const pull = 100 + 20 * (waters[i] ?? 0);
      const looks = 3 * Math.floor(pull / 25);
      const by = factors[i] ?? 0;
      expect(value).toBeCloseTo(by * (20 + looks) + 7 + (leaks[i] ?? 0), 9);
      expect(waiting[i]).toBeCloseTo(pull + 12 - by * looks, 9);
    });
  });

  it('rows of one group, and all rows of a shared factor, have the draws in common', () => {
    const pair = (group: number) => [row({ steady: 10 }), row({ steady: 25, group })];
    const access = [factor('access')];
    const one = sampleRisk([row({ steady: 35 })], access, PLAIN).attended;
    const same = (values: Float64Array): boolean => values.every((value, i) => Math.abs(value - (one[i] ?? 0)) < 1e-9);
    expect(same(sampleRisk(pair(0), access, PLAIN).attended)).toBe(true);
    expect(same(sampleRisk(pair(1), access, PLAIN).attended)).toBe(false);
    const shared = [factor('access', {}, true)];
    const alone = sampleRisk([row({ steady: 35 })], shared, PLAIN).attended;
    sampleRisk(pair(1), shared, PLAIN).attended.forEach((value, i) => {
      expect(value).toBeCloseTo(alone[i] ?? 0, 9);
    });
  });
});

describe('the variance of a factor alone', () => {
  const variance = (values: readonly number[]): number => {
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    return values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
  };
  // two hundred equal parts are what the sampling says it takes
  const parts = middles(200);

  it('is that of its own range, the others at their medians', () => {
    const factors = [factor('access', { median: 1.3 }), factor('learning', { median: 2, below: 0.1, above: 0.3 })];
    const { alone } = sampleRisk([row({ steady: 30 })], factors, PLAIN);
    expect(alone[0]).toBeCloseTo(variance(parts.map((score) => 2 * 30 * lopsided(score, 1.3))), 6);
    expect(alone[1]).toBeCloseTo(variance(parts.map((score) => 1.3 * 30 * lopsided(score, 2, 0.1, 0.3))), 6);
  });

  it('adds up over groups, and over the whole project at once where shared', () => {
    const rows = [row({ steady: 30 }), row({ steady: 12, group: 5 }), row({ steady: 8, group: 5 })];
    const one = variance(parts.map((score) => lopsided(score)));
    const own = sampleRisk(rows, [factor('access')], PLAIN).alone[0] ?? 0;
    const shared = sampleRisk(rows, [factor('access', {}, true)], PLAIN).alone[0] ?? 0;
    expect(own / one).toBeCloseTo(30 ** 2 + 20 ** 2, 8);
    expect(shared / one).toBeCloseTo(50 ** 2, 8);
  });

  it('counts waited hours by their weight, and not at all without one', () => {
    const rows = [row({ pull: [10, 30, 80], checkInterval: 20, checkMinutes: 4 })];
    const options = { ...PLAIN, waterScores: [-1, 0, 1] };
    const of = (weight: number): number =>
      variance(
        parts.map((score) => {
          const pull = straight([-1, 0, 1], [10, 30, 80], score);
          const looks = 4 * Math.floor(pull / 20);
          return looks + weight * Math.max(0, pull - looks);
        }),
      );
    const water = [factor('water')];
    expect(sampleRisk(rows, water, options).alone[0]).toBeCloseTo(of(0), 6);
    expect(sampleRisk(rows, water, { ...options, waitingWeight: 0.4 }).alone[0]).toBeCloseTo(of(0.4), 6);
    // of the ambient at the middle water: 30 + 10 a
    const square = { ...PLAIN, waterScores: [-1, 0, 1], ambientScores: [-1, 1], waitingWeight: 1 };
    const plane = [row({ pull: [0, 9, 20, 40, 7, 7] })];
    const { alone } = sampleRisk(plane, [...water, factor('ambient')], square);
    expect(alone[1]).toBeCloseTo(variance(parts.map((score) => Math.max(0, 30 + 10 * score))), 6);
  });

  it('of the water is taken at the middle ambient', () => {
    const options = { ...PLAIN, waterScores: [-1, 1], ambientScores: [-1, 0, 1], waitingWeight: 1 };
    const rows = [row({ pull: [1, 20, 90, 7, 60, 3] })];
    const { alone } = sampleRisk(rows, [factor('water'), factor('ambient')], options);
    expect(alone[0]).toBeCloseTo(variance(parts.map((score) => Math.max(0, 40 + 20 * score))), 6);
  });

  it('of no rows is none', () => {
    expect(sampleRisk([], [factor('access')], PLAIN).alone).toEqual([0]);
  });
});
