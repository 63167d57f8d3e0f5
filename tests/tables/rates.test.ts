import { describe, expect, it } from 'vitest';
import { readRates } from '../../src/tables/rates.ts';
import { allFaults, faultOf } from './faults.ts';

describe('a rates table', () => {
  it('reads people, money and days, and has one who attends eight hours a day where nothing is said', () => {
    const { roles } = readRates([
      ['Role', 'Rate (per hour)', 'Attends', 'Waits', 'Day length (h)', 'Travel'],
      ['fitter', 42.5, 2, 0.5, 7.5, 30],
      ['helper', 25, '', '', '', ''],
    ]);
    expect(roles).toEqual([
      { name: 'fitter', rate: 42.5, attends: 2, waits: 0.5, dayLength: 27_000, travel: 30, row: 2 },
      { name: 'helper', rate: 25, attends: 1, waits: 0, dayLength: 28_800, travel: 0, row: 3 },
    ]);
  });

  it('tells each bad cell with its place', () => {
    const faults = allFaults((sink) =>
      readRates(
        [
          ['Role', 'Rate', 'Attends', 'Day length'],
          ['a', -1, 1, 8],
          ['b', '', 1, 0],
          ['', 20, -2, -8],
          ['d', 'much', 1, 25],
        ],
        sink,
      ),
    );
    expect(faults.map(({ issue, place }) => [place?.row, place?.column, issue.kind])).toEqual([
      [2, 'Rate', 'limit'],
      [3, 'Rate', 'missing'],
      [3, 'Day length', 'limit'],
      [4, 'Role', 'missing'],
      [4, 'Attends', 'limit'],
      [4, 'Day length', 'limit'],
      [5, 'Rate', 'not-a-number'],
      [5, 'Day length', 'limit'],
    ]);
  });

  it('needs someone who attends', () => {
    const found = faultOf(() =>
      readRates([
        ['Role', 'Rate', 'Attends'],
        ['clerk', 30, 0],
      ]),
    );
    expect(found?.issue).toMatchObject({ kind: 'wrong', argument: 'Attends' });
  });

  it('needs its rows', () => {
    expect(faultOf(() => readRates([['Role', 'Rate']]))?.issue).toMatchObject({ kind: 'empty-table', table: 'rates' });
    expect(faultOf(() => readRates([['Role'], ['a']]))?.issue).toMatchObject({ kind: 'missing-header' });
  });
});
