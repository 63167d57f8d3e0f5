import { describe, expect, it } from 'vitest';
import { quantilesOf, type RiskFactor, type RiskRow, sampleRisk } from '../../../src/engine/estimate/risk.ts';
import { spreadAt, spreadOf } from '../../../src/engine/estimate/spread.ts';
import { normalProbability, normalScore } from '../../../src/numerics/normal.ts';
import { riskRow } from './simple.ts';

const PLAIN = { waterScores: [0], ambientScores: [0] };
const SHARES = [0.1, 0.5, 0.8, 0.9];

const row = (over: Partial<RiskRow>): RiskRow => riskRow({ count: 1, pull: [60], ...over });
const factor = (on: RiskFactor['on'], sigma: number, median = 1, shared = false): RiskFactor => ({
  on,
  spread: { kind: 'factor', median, below: sigma, above: sigma },
  shared,
});

describe('a spread', () => {
  it('goes through the three percentiles that were given', () => {
    for (const kind of ['factor', 'shift'] as const) {
      const spread = spreadOf(kind, 0.7, 1, 1.9);
      expect(spreadAt(spread, normalScore(0.1))).toBeCloseTo(0.7, 12);
      expect(spreadAt(spread, 0)).toBe(1);
      expect(spreadAt(spread, normalScore(0.9))).toBeCloseTo(1.9, 12);
    }
  });
});

describe('the hours of a project', () => {
  it('of one kind of unit with one lognormal factor have its closed quantiles', () => {
    const sample = sampleRisk([row({ steady: 120, count: 3 })], [factor('access', 0.4)], PLAIN);
    const found = quantilesOf(sample.attended, sample.sets, SHARES);
    SHARES.forEach((share, i) => {
      const closed = 6 * Math.exp(0.4 * normalScore(share));
      expect(Math.abs((found[i]?.value ?? 0) / closed - 1)).toBeLessThan(2e-3);
    });
  });

  it('of two lognormal factors on one kind are the lognormal of their product', () => {
    const sample = sampleRisk([row({ steady: 60 })], [factor('access', 0.3), factor('learning', 0.4)], PLAIN);
    const found = quantilesOf(sample.attended, sample.sets, SHARES);
    SHARES.forEach((share, i) => {
      const closed = Math.exp(0.5 * normalScore(share));
      const { value = 0, error = 0 } = found[i] ?? {};
      expect(Math.abs(value - closed)).toBeLessThan(5 * error + 2e-3 * closed);
    });
  });

  it('of many kinds come near the sum of lognormals by Fenton and Wilkinson, mean and variance exactly', () => {
    const sigma = 0.5;
    const rows = Array.from({ length: 200 }, (_, group) => row({ steady: 60, group }));
    const sample = sampleRisk(rows, [factor('access', sigma)], PLAIN);
    const mean = 200 * Math.exp(0.5 * sigma ** 2);
    const variance = 200 * Math.exp(sigma ** 2) * (Math.exp(sigma ** 2) - 1);
    const found = sample.attended.reduce((sum, x) => sum + x, 0) / sample.attended.length;
    const scatter = sample.attended.reduce((sum, x) => sum + (x - found) ** 2, 0) / sample.attended.length;
    expect(found / mean).toBeCloseTo(1, 3);
    expect(Math.abs(scatter / variance - 1)).toBeLessThan(0.05);
    const sigmaSum = Math.sqrt(Math.log(1 + variance / mean ** 2));
    const medianSum = mean * Math.exp(-0.5 * sigmaSum ** 2);
    quantilesOf(sample.attended, sample.sets, SHARES).forEach(({ value, error }, i) => {
      const closed = medianSum * Math.exp(sigmaSum * normalScore(SHARES[i] ?? 0.5));
      expect(Math.abs(value - closed)).toBeLessThan(5 * error + 3e-3 * closed);
    });
  });

  it('spread more where the kinds share their draw', () => {
    const rows = Array.from({ length: 50 }, (_, group) => row({ steady: 60, group }));
    const wide = sampleRisk(rows, [factor('learning', 0.3, 1, true)], PLAIN);
    const closed = 50 * Math.exp(0.3 * normalScore(0.9));
    const [p90] = quantilesOf(wide.attended, wide.sets, [0.9]);
    expect(Math.abs((p90?.value ?? 0) / closed - 1)).toBeLessThan(2e-3);
  });

  it('agree with plain random sampling of the same model within both errors', () => {
    const spread = spreadOf('factor', 0.5, 1, 3);
    const water: RiskFactor = { on: 'water', spread, shared: false };
    const scores = Array.from({ length: 37 }, (_, i) => (i - 18) * 0.2);
    // minutes of a pull that grow with the water: 20 + 30 x
    const minutes = (score: number): number => 20 + 30 * spreadAt(spread, score);
    const rows = Array.from({ length: 12 }, (_, group) =>
      row({ group, count: 1 + (group % 4), pull: scores.map(minutes), checkInterval: 30, checkMinutes: 3, hold: 15 }),
    );
    const sample = sampleRisk(rows, [water, factor('access', 0.2)], { waterScores: scores, ambientScores: [0] });
    let state = 12345;
    const uniform = (): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return (state + 0.5) / 2 ** 32;
    };
    const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const plain = Float64Array.from({ length: 40_000 }, () =>
      rows.reduce((sum, { count }) => {
        const pull = minutes(normal());
        const access = Math.exp(0.2 * normal());
        return sum + (count / 60) * Math.max(0, pull + 15 - 3 * access * Math.floor(pull / 30));
      }, 0),
    ).sort();
    quantilesOf(sample.waiting, sample.sets, SHARES).forEach(({ value, error }, i) => {
      const other = plain[Math.floor((SHARES[i] ?? 0) * plain.length)] ?? 0;
      expect(Math.abs(value / other - 1)).toBeLessThan(0.012 + (5 * error) / other);
    });
  });

  it('say which factor drives the spread', () => {
    const rows = Array.from({ length: 20 }, (_, group) => row({ steady: 60, group }));
    const { alone } = sampleRisk(rows, [factor('access', 0.5), factor('learning', 0.1)], PLAIN);
    const lognormal = (sigma: number): number => 20 * Math.exp(sigma ** 2) * (Math.exp(sigma ** 2) - 1);
    expect((alone[0] ?? 0) / lognormal(0.5)).toBeCloseTo(1, 1);
    expect((alone[1] ?? 0) / lognormal(0.1)).toBeCloseTo(1, 1);
  });

  it('are the same each time, and not for another seed', () => {
    const once = sampleRisk([row({ steady: 60 })], [factor('access', 0.4)], PLAIN);
    expect(sampleRisk([row({ steady: 60 })], [factor('access', 0.4)], PLAIN)).toEqual(once);
    expect(sampleRisk([row({ steady: 60 })], [factor('access', 0.4)], { ...PLAIN, seed: 7 })).not.toEqual(once);
  });

  it('refuse two factors on the same', () => {
    expect(() => sampleRisk([row({})], [factor('access', 0.4), factor('access', 0.2)], PLAIN)).toThrow();
  });
});

describe('the normal distribution', () => {
  it.each([
    // NIST Digital Library of Mathematical Functions / usual tables of the normal distribution (from memory)
    [0.5, 0],
    [0.9, 1.2815515655446004],
    [0.975, 1.959963984540054],
    [0.999, 3.090232306167813],
    [1e-6, -4.753424308822899],
  ])('has at %d the score %d', (probability, score) => {
    expect(normalScore(probability)).toBeCloseTo(score, 10);
    expect(normalProbability(score)).toBeCloseTo(probability, 12);
  });
});
