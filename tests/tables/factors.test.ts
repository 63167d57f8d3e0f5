import { describe, expect, it } from 'vitest';
import { spreadAt } from '../../src/engine/estimate/spread.ts';
import { readFactors } from '../../src/tables/factors.ts';
import { faultOf } from './faults.ts';

const HEADER = ['Factor', 'On', 'Low', 'Likely', 'High', 'Spread', 'Shared'];
/** Standard score of the 90th percentile, usual tables of the normal distribution (from memory). */
const SCORE_90 = 1.2815515655446004;

describe('a factors table', () => {
  it('reads percentiles of multiples and of what is added', () => {
    const { factors } = readFactors([
      HEADER,
      ['wet pipes', 'water', 0.5, 1, 3, '', ''],
      ['weather', 'Temperature', -8, 0, 6, '', 'yes'],
      ['', 'leaks', 0, 0, 20, '', 'no'],
    ]);
    expect(factors.map(({ name, on, shared, row }) => [name, on, shared, row])).toEqual([
      ['wet pipes', 'water', false, 2],
      ['weather', 'ambient', true, 3],
      ['leaks', 'leaks', false, 4],
    ]);
    const at = (i: number, score: number): number =>
      spreadAt(factors[i]?.spread ?? { kind: 'shift', median: NaN, below: 0, above: 0 }, score);
    expect(at(0, -SCORE_90)).toBeCloseTo(0.5, 9);
    expect(at(0, SCORE_90)).toBeCloseTo(3, 9);
    expect(at(1, -SCORE_90)).toBeCloseTo(-8, 9);
    expect(at(1, SCORE_90)).toBeCloseTo(6, 9);
    expect(at(2, -SCORE_90)).toBe(0);
    expect(at(2, SCORE_90)).toBeCloseTo(20, 9);
  });

  it('reads a width instead, around 1 or 0 where nothing is said', () => {
    const { factors } = readFactors([
      HEADER,
      ['', 'access', '', '', '', '20 %', ''],
      ['', 'ambient', '', '', '', 4, ''],
    ]);
    expect(factors[0]?.spread).toEqual({ kind: 'factor', median: 1, below: 0.2, above: 0.2 });
    expect(factors[1]?.spread).toEqual({ kind: 'shift', median: 0, below: 4, above: 4 });
  });

  it.each<[string, readonly (string | number)[], object, string]>([
    ['an unknown target', ['', 'weather', 1, 1, 1, '', ''], { kind: 'unknown', value: 'weather' }, 'On'],
    ['no target', ['x', '', 1, 1, 1, '', ''], { kind: 'missing', argument: 'On' }, 'On'],
    ['low above likely', ['', 'water', 2, 1, 3, '', ''], { kind: 'limit', argument: 'Low', limit: 1 }, 'Low'],
    ['high below likely', ['', 'water', 0.5, 1, 0.9, '', ''], { kind: 'limit', argument: 'High', limit: 1 }, 'High'],
    ['a multiple of nothing', ['', 'access', 0, 1, 2, '', ''], { kind: 'limit', rule: 'above', limit: 0 }, 'Low'],
    ['time that leaks give back', ['', 'leaks', -5, 0, 9, '', ''], { kind: 'limit', rule: 'at least' }, 'Low'],
    ['half of the percentiles', ['', 'water', 0.5, '', 2, '', ''], { kind: 'missing' }, 'Likely'],
    ['neither', ['', 'water', '', '', '', '', ''], { kind: 'missing' }, 'Low'],
    ['both', ['', 'water', '', 1, 2, 0.5, ''], { kind: 'wrong', argument: 'High' }, 'High'],
    ['a negative width', ['', 'water', '', 1, '', -0.5, ''], { kind: 'limit', argument: 'Spread' }, 'Spread'],
    ['too wide a width', ['', 'water', '', 1, '', 5, ''], { kind: 'limit', argument: 'Spread', limit: 2 }, 'Spread'],
    ['a median of nothing', ['', 'learning', '', 0, '', 0.1, ''], { kind: 'limit', argument: 'Likely' }, 'Likely'],
    ['no answer to shared', ['', 'water', 1, 1, 1, '', 'maybe'], { kind: 'unknown', value: 'maybe' }, 'Shared'],
  ])('refuses %s, with its place', (_, row, issue, column) => {
    const found = faultOf(() => readFactors([HEADER, row]));
    expect(found?.issue).toMatchObject(issue);
    expect(found?.place).toEqual({ table: 'factors', row: 2, column });
  });

  it('refuses two factors on one', () => {
    const found = faultOf(() =>
      readFactors([HEADER, ['a', 'water', 1, 1, 2, '', ''], ['b', 'moisture', 1, 1, 2, '', '']]),
    );
    expect(found?.issue).toMatchObject({ kind: 'wrong', argument: 'On' });
    expect(found?.place?.row).toBe(3);
  });
});
