import { describe, expect, it } from 'vitest';
import type { Cell, CellRange } from '../../src/tables/cells.ts';
import { MOST_STEPS, readPlan } from '../../src/tables/plan.ts';
import { orderIssue } from '../issue-of.ts';
import { allFaults, faultOf } from './faults.ts';

const HEADER = ['Pull to', 'Break to', 'Gas', 'Supply', 'Wait', 'Heat under gas', 'Longest pull'];
const of = (...rows: CellRange): CellRange => [HEADER, ...rows];
const END: Cell[] = [50, '', '', '', '', '', ''];

describe('a row of a plan', () => {
  it('has no more than is said', () => {
    expect(readPlan(of([100, 120000, '', '', '', '', ''], END)).steps).toStrictEqual([
      { pullTo: 100, fill: { to: 120000, gas: 'nitrogen', supply: 220000, wait: 0 }, row: 2 },
      { pullTo: 50, row: 3 },
    ]);
    expect(readPlan(of(['', '', '', '', '', '', 30])).steps).toStrictEqual([{ longestPull: 1800, row: 2 }]);
  });

  it('has all that is said', () => {
    expect(readPlan(of([100, 120000, 'argon', 300000, 5, 4, 30], END)).steps[0]).toStrictEqual({
      pullTo: 100,
      longestPull: 1800,
      fill: { to: 120000, gas: 'argon', supply: 300000, wait: 300, heat: 4 },
      row: 2,
    });
  });

  it.each<[string, Cell[], object, string]>([
    ['a break at its pull', [100, 100, '', '', '', '', ''], orderIssue('Break to', 100, 'Pull to', 100), 'Break to'],
    ['a supply at the break', [100, 2e5, '', 2e5, '', '', ''], orderIssue('Supply', 2e5, 'Break to', 2e5), 'Supply'],
    [
      'oxygen',
      [100, 2e5, 'O2', '', '', '', ''],
      {
        kind: 'wrong',
        argument: 'Gas',
        found: 'oxygen',
        allowed: 'a dry gas that neither burns nor feeds fire, such as nitrogen',
        todo: 'It explodes with oil. Use dry nitrogen.',
      },
      'Gas',
    ],
    ['a gas that is not known', [100, 2e5, 'ether', '', '', '', ''], { kind: 'unknown', value: 'ether' }, 'Gas'],
    ['no heat', [100, 2e5, '', '', '', 0, ''], { kind: 'limit', rule: 'above', limit: 0 }, 'Heat under gas'],
  ])('with %s is told, with its place', (_, row, issue, column) => {
    const faults = allFaults((sink) => readPlan(of(row, END), sink));
    expect(faults.map(({ issue: told, place }) => [told, place])).toEqual([
      [expect.objectContaining(issue), { table: 'plan', row: 2, column }],
    ]);
  });

  it('that waits without a break is told', () => {
    expect(faultOf(() => readPlan(of([100, '', '', '', 5, '', ''])))).toEqual({
      issue: {
        kind: 'wrong',
        argument: 'Wait',
        found: 'given without a break',
        allowed: 'a time after a break',
        todo: 'Give Break to, or leave Wait blank.',
      },
      place: { table: 'plan', row: 2, column: 'Wait' },
    });
  });

  it('is one of a hundred at most', () => {
    const rows = (count: number): Cell[][] => Array.from({ length: count }, () => [100, 2e5, '', '', '', '', '']);
    expect(readPlan(of(...rows(MOST_STEPS))).steps).toHaveLength(MOST_STEPS);
    expect(faultOf(() => readPlan(of(...rows(MOST_STEPS + 1))))).toEqual({
      issue: { kind: 'too-many-rows', table: 'plan', rows: MOST_STEPS + 1, limit: MOST_STEPS },
      place: { table: 'plan' },
    });
  });
});
