import { describe, expect, it } from 'vitest';
import {
  checkMinutes,
  meanOf,
  quantilesOf,
  type RiskFactor,
  type RiskRow,
  type RiskTarget,
  sampleRisk,
} from '../../../src/engine/estimate/risk.ts';
import type { Spread } from '../../../src/engine/estimate/spread.ts';
import { issueOf } from '../../issue-of.ts';
import { riskRow } from './simple.ts';

const PLAIN = { waterScores: [0], ambientScores: [0], scenarios: 80 };
const row = (over: Partial<RiskRow>): RiskRow => riskRow({ count: 1, pull: [0], ...over });
const factor = (on: RiskTarget, spread: Partial<Spread>, shared = false): RiskFactor => ({
  on,
  spread: { kind: 'factor', median: 1, below: 0.3, above: 0.3, ...spread },
  shared,
});
const onlyValue = (values: Float64Array): number => {
  expect(new Set(values).size).toBe(1);
  return values[0] ?? Number.NaN;
};

describe('looks at the pump', () => {
  it('are one at the end of each whole interval, the last minute too', () => {
    expect(checkMinutes(119, 60, 5)).toBe(5);
    expect(checkMinutes(120, 60, 5)).toBe(10);
    expect(checkMinutes(59, 60, 5)).toBe(0);
    expect(checkMinutes(120, 0, 5)).toBe(0);
  });
});

describe('hours with nothing uncertain', () => {
  it('are the same in every scenario: those of the hand', () => {
    const rows = [
      row({ count: 3, steady: 40, fixed: 8, checkInterval: 30, checkMinutes: 4, hold: 15, pull: [120] }),
      row({ count: 2, steady: 6, pull: [90] }),
    ];
    const { attended, waiting, alone, sets, setSize } = sampleRisk(rows, [], PLAIN);
    // 3 (40 + 8 + 4 looks of 4) + 2 x 6 minutes; 3 (120 + 15 - 16) + 2 x 90
    expect(onlyValue(attended)).toBeCloseTo((3 * 64 + 12) / 60, 13);
    expect(onlyValue(waiting)).toBeCloseTo((3 * 119 + 180) / 60, 13);
    expect(alone).toEqual([]);
    // eight sets of the first prime at or above 80 / 8
    expect([sets, setSize, attended.length, waiting.length]).toEqual([8, 11, 88, 88]);
  });

  it('are never waited less than nothing', () => {
    const busy = row({ checkInterval: 1, checkMinutes: 5, pull: [10] });
    const { attended, waiting } = sampleRisk([busy], [], PLAIN);
    expect(onlyValue(attended)).toBeCloseTo(50 / 60, 13);
    expect(onlyValue(waiting)).toBe(0);
  });

  it('have no looks without an interval', () => {
    expect(onlyValue(sampleRisk([row({ checkMinutes: 5, pull: [60] })], [], PLAIN).attended)).toBe(0);
  });

  it('take the pull at the middle scores where scores are given without a factor', () => {
    const grid = { waterScores: [-1, 0, 1], ambientScores: [-2, 0], scenarios: 80 };
    const rows = [row({ pull: [1, 2, 3, 240, 5, 6] })];
    expect(onlyValue(sampleRisk(rows, [], grid).waiting)).toBe(4);
    const ends = { waterScores: [0, 1], ambientScores: [-1, -0.5, 0], scenarios: 80 };
    expect(onlyValue(sampleRisk([row({ pull: [1, 2, 180, 4, 5, 6] })], [], ends).waiting)).toBe(3);
    const top = { waterScores: [-2, -1, 0], ambientScores: [0], scenarios: 80 };
    expect(onlyValue(sampleRisk([row({ pull: [1, 2, 300] })], [], top).waiting)).toBe(5);
    const first = { waterScores: [0, 1, 2, 3], ambientScores: [0], scenarios: 80 };
    expect(onlyValue(sampleRisk([row({ pull: [120, 1, 9, 4] })], [], first).waiting)).toBe(2);
    // no 0 among the scores: the first
    const none = { waterScores: [1, 2], ambientScores: [1, 2], scenarios: 80 };
    expect(onlyValue(sampleRisk([row({ pull: [60, 2, 3, 4] })], [], none).waiting)).toBe(1);
  });

  it('of factors that do not spread are those at their medians', () => {
    const still = { below: 0, above: 0 };
    const factors = [
      factor('access', { ...still, median: 1.5 }),
      factor('learning', { ...still, median: 0.8 }),
      factor('leaks', { ...still, kind: 'shift', median: 7 }),
    ];
    const rows = [row({ count: 60, steady: 10, fixed: 3, checkInterval: 20, checkMinutes: 5, hold: 4, pull: [70] })];
    const { attended, waiting, alone } = sampleRisk(rows, factors, PLAIN);
    // 1.2 (10 + 3 looks of 5) + 7 + 3 and 74 - 1.2 x 15
    for (const value of attended) expect(value).toBeCloseTo(40, 12);
    for (const value of waiting) expect(value).toBeCloseTo(56, 12);
    for (const variance of alone) expect(variance).toBeCloseTo(0, 20);
  });

  it('of no rows are none', () => {
    expect(onlyValue(sampleRisk([], [factor('access', {})], PLAIN).attended)).toBe(0);
  });
});

describe('how many scenarios', () => {
  it('are ten thousand where none are asked for: eight sets of the prime 1259', () => {
    const { setSize, attended } = sampleRisk([], [], { waterScores: [0], ambientScores: [0] });
    expect([setSize, attended.length]).toEqual([1259, 8 * 1259]);
  });

  it('follow the seed 1 where none is given', () => {
    const rows = [row({ steady: 60 }), row({ steady: 30, group: 1 })];
    const factors = [factor('access', {})];
    expect(sampleRisk(rows, factors, { ...PLAIN, seed: 1 })).toEqual(sampleRisk(rows, factors, PLAIN));
  });
});

describe('two factors on the same', () => {
  it.each(['water', 'ambient', 'access', 'learning', 'leaks'] as const)('is a fault that names it: %s', (on) => {
    expect(issueOf(() => sampleRisk([], [factor(on, {}), factor(on, {}, true)], PLAIN))).toEqual({
      kind: 'wrong',
      argument: 'On',
      found: `"${on}" in two factors`,
      allowed: 'one factor on each',
      todo: 'Put both into one spread.',
    });
  });
});

describe('quantiles of a sample', () => {
  // Hyndman and Fan 1996, type 7: position 1 + p (n - 1), in a straight line between neighbours
  const values = Float64Array.of(40, 10, 20, 30, 50, 60, 90, 70);
  it('lie between the two next values, at the ends on them', () => {
    const at = (share: number): number => quantilesOf(values, 2, [share])[0]?.value ?? Number.NaN;
    // sorted 10 20 30 40 50 60 70 90
    expect(at(0)).toBe(10);
    expect(at(1)).toBe(90);
    expect(at(0.5)).toBe(45);
    expect(at(0.25)).toBe(27.5);
    expect(at(0.9)).toBeCloseTo(76, 12);
    expect(at(3 / 7)).toBeCloseTo(40, 12);
  });

  it('have the error of the mean of the sets', () => {
    // medians of the sets: 25 and 65; their standard deviation is 40 / sqrt 2, that of the mean of two 20
    expect(quantilesOf(values, 2, [0.5])[0]?.error).toBeCloseTo(20, 12);
    // four sets of two: medians 25, 25, 55, 80, mean 46.25; sum of squares 2 x 451.5625 + 76.5625 + 1139.0625
    expect(quantilesOf(values, 4, [0.5])[0]?.error).toBeCloseTo(Math.sqrt(2118.75 / 3 / 4), 12);
  });

  it('of one value in each set are between these, of nothing are not there', () => {
    expect(quantilesOf(Float64Array.of(3, 5), 2, [0.5])).toEqual([{ value: 4, error: 1 }]);
    expect(quantilesOf(Float64Array.of(), 2, [0.5])[0]?.value).toBeNaN();
    expect(quantilesOf(Float64Array.of(7), 1, [0.2])[0]?.value).toBe(7);
  });

  it('leave the sample in its order', () => {
    const sample = Float64Array.of(3, 1, 2, 4);
    quantilesOf(sample, 2, [0.5]);
    expect([...sample]).toEqual([3, 1, 2, 4]);
  });
});

describe('the mean of a sample', () => {
  it('has the error of the scatter between its sets, and of what they share', () => {
    // means of the sets 2, 4, 9; mean 5; squares 9 + 1 + 16 = 26; 26 / 2 / 3
    // values: squares 16 + 4 + 1 + 1 + 25 + 9 = 56, variance 56 / 6, over the 2 points of a set: 56 / 24
    const { value, error } = meanOf(Float64Array.of(1, 3, 4, 4, 10, 8), 3);
    expect(value).toBe(5);
    expect(error).toBeCloseTo(Math.sqrt(26 / 6 + 56 / 24), 13);
  });

  it('is not said to be exact where all sets cut the same off a long tail', () => {
    // access 0.7/1/2 at the 10th, 50th and 90th percentile: ln x is normal on each side, with s = ln(1/0.7) and ln 2 over 1.28155.
    // Mean, by hand: exp(s1^2/2) N(-s1) + exp(s2^2/2) N(s2) = 0.405801 + 0.816852, N the normal distribution
    const access = factor('access', { below: Math.log(1 / 0.7) / 1.2815516, above: Math.log(2) / 1.2815516 });
    for (const scenarios of [80, 800, 12_000]) {
      const { attended, sets } = sampleRisk([row({ steady: 60 })], [access], { ...PLAIN, scenarios });
      const { value, error } = meanOf(attended, sets);
      const off = Math.abs(value - 1.222653);
      expect(off).toBeGreaterThan(0);
      expect(off).toBeLessThan(error);
    }
  });
});
