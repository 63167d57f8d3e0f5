import { describe, expect, it } from 'vitest';
import { normalScore } from '../../../src/numerics/normal.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, PARTS, tableFrom } from '../rig/tables.ts';

const RATES: CellRange = [
  ['Role', 'Rate', 'Waits', 'Day length (h)'],
  ['fitter', 40, 0.5, 8],
];
const UNITS: CellRange = [
  ['Unit', 'Count', 'Volume (L)', 'Rig', 'Water (g)', 'Heat (W/K)', 'Ambient'],
  ['wall split', 12, 6, 'wide', 10, 2, 18],
  ['cold room', 2, 80, 'wide', 40, 1.5, 10],
];
const HEAD = ['Factor', 'On', 'Low', 'Likely', 'High', 'Shared'];
const risk = (...factors: Cell[][]) => tableFrom('LABOUR.RISK', UNITS, PARTS, RATES, [HEAD, ...factors]);
type Table = ReturnType<typeof risk>;
const waiting = (found: Table, row: string): number =>
  Number(columnOf(found, 'Waiting (')[columnOf(found, 'Figure').indexOf(row)]);
/** Waiting hours of all, with other water (times) and another temperature (plus). */
function hours(times: number, plus: number): number {
  const units = UNITS.map((row, i) =>
    i === 0 ? row : row.map((cell, j): Cell => (j === 4 ? times * Number(cell) : j === 6 ? Number(cell) + plus : cell)),
  );
  const table = tableFrom('LABOUR.TABLE', units, PARTS, RATES);
  return Number(columnOf(table, 'Waiting (')[columnOf(table, 'Unit').indexOf('Total')]);
}

describe('LABOUR.RISK with factors that are not even', () => {
  it('has at P10 and P90 the hours with the least and the most water', () => {
    const found = risk(['wet pipes', 'water', 0.8, 1, 3, 'yes']);
    expect(waiting(found, 'P10') / hours(0.8, 0)).toBeCloseTo(1, 2);
    expect(waiting(found, 'P50') / hours(1, 0)).toBeCloseTo(1, 2);
    expect(waiting(found, 'P90') / hours(3, 0)).toBeCloseTo(1, 2);
    // it is no even factor: with the two ends changed about, the hours are others
    expect(Math.abs(hours(1 / 3, 0) / hours(0.8, 0) - 1)).toBeGreaterThan(0.1);
  });

  it('has at P10 and P90 the hours in the warmest and in the coldest weather', () => {
    const found = risk(['weather', 'ambient', -6, 0, 2, 'yes']);
    expect(waiting(found, 'P10') / hours(1, 2)).toBeCloseTo(1, 2);
    expect(waiting(found, 'P90') / hours(1, -6)).toBeCloseTo(1, 2);
    expect(Math.abs(hours(1, 6) / hours(1, 2) - 1)).toBeGreaterThan(0.03);
  });

  it('has with both the quantiles of a grid of even chances, each case worked out in full', () => {
    const found = risk(['wet pipes', 'water', 0.5, 1, 4, 'yes'], ['weather', 'ambient', -7, 0, 3, 'yes']);
    const N = 24;
    // quantiles of one factor: low, likely and high at 10, 50 and 90 %, normal on each side
    const score = (i: number): number => normalScore((i + 0.5) / N) / normalScore(0.9);
    const all: number[] = [];
    for (let w = 0; w < N; w++)
      for (let a = 0; a < N; a++) {
        const [water, air] = [score(w), score(a)];
        all.push(hours(water < 0 ? 0.5 ** -water : 4 ** water, air < 0 ? 7 * air : 3 * air));
      }
    all.sort((x, y) => x - y);
    for (const share of [10, 50, 90]) {
      const theirs = all[Math.floor((share / 100) * all.length)] ?? 0;
      expect(Math.abs(waiting(found, `P${share}`) / theirs - 1), `P${share}`).toBeLessThan(0.04);
    }
  });

  it('ranks factors alike whatever the money', () => {
    const shares = (times: number): Cell[] => {
      const rates = RATES.map((row, i) =>
        i === 0 ? row : row.map((cell, j) => (j === 1 ? times * Number(cell) : cell)),
      );
      const factors = [HEAD, ['wet pipes', 'water', 0.8, 1, 3, 'yes'], ['ladders', 'access', 0.9, 1, 1.5, 'yes']];
      const found = tableFrom('LABOUR.RISK', UNITS, PARTS, rates, factors);
      return ['wet pipes', 'ladders'].map(
        (name) => columnOf(found, 'Share of spread')[columnOf(found, 'Figure').indexOf(name)],
      );
    };
    const [water = 0, access = 0] = shares(1).map(Number);
    expect(water + access).toBeCloseTo(100, 6);
    for (const share of [water, access]) expect(share).toBeGreaterThan(1);
    expect(shares(100).map(Number)[0]).toBeCloseTo(water, 6);
  });
});
