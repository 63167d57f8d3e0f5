import { describe, expect, it } from 'vitest';
import type { CellRange } from '../../src/tables/cells.ts';
import { readPlan } from '../../src/tables/plan.ts';
import { allFaults, faultOf } from './faults.ts';

const ATMOSPHERE = 101325;
const MICRON = ATMOSPHERE / 760e3;
const HEADER = ['Pull to (micron)', 'Break to', 'Gas', 'Supply', 'Wait (min)', 'Longest pull (min)'];
const of = (...rows: CellRange): CellRange => [HEADER, ...rows];

describe('a plan table', () => {
  it('reads pressures with gauge units, times and gases', () => {
    const { steps } = readPlan(of([1000, '0.2 bar g', 'N2', '2 bar g', 10, 30], [500, '', '', '', '', '']));
    expect(steps[0]).toMatchObject({ longestPull: 1800, row: 2 });
    expect(steps[0]?.pullTo).toBeCloseTo(1000 * MICRON, 4);
    expect(steps[0]?.fill?.to).toBeCloseTo(ATMOSPHERE + 2e4, 6);
    expect(steps[0]?.fill?.supply).toBeCloseTo(ATMOSPHERE + 2e5, 6);
    expect(steps[0]?.fill).toMatchObject({ gas: 'nitrogen', wait: 600 });
    expect(steps[1]).toMatchObject({ row: 3 });
    expect(steps[1]?.fill).toBeUndefined();
  });

  it('takes nitrogen from 1 bar above the break where nothing is said', () => {
    const { steps } = readPlan([
      ['Pull to', 'Break to'],
      [100, 120000],
    ]);
    expect(steps[0]?.fill).toEqual({ to: 120000, gas: 'nitrogen', supply: 220000, wait: 0 });
  });

  it('ends with a pull to the target where the last row says so, or is blank', () => {
    expect(readPlan(of([1000, '1 atm', '', '', '', ''], ['', '', 'N2', '', '', ''])).steps[1]).toEqual({ row: 3 });
    expect(readPlan(of([1000, '1 atm', '', '', '', ''], ['', '', '', '', '', ''])).steps[1]).toEqual({ row: 3 });
    expect(readPlan(of([1000, '1 atm', '', '', '', ''])).steps).toHaveLength(1);
    expect(readPlan(of([1000, '', '', '', '', ''], ['', '', '', '', '', ''])).steps).toHaveLength(1);
  });

  it.each<[string, CellRange, object, object]>([
    [
      'a break below its pull',
      of([1000, '100 Pa', '', '', '', '']),
      { kind: 'order', upper: 'Break to' },
      { row: 2, column: 'Break to' },
    ],
    [
      'a supply below the break',
      of([1000, '2 bar', '', '1 bar', '', '']),
      { kind: 'order', upper: 'Supply' },
      { row: 2, column: 'Supply' },
    ],
    [
      'an unknown gas',
      of([1000, '1 bar', 'fog', '', '', '']),
      { kind: 'unknown', what: 'gas' },
      { row: 2, column: 'Gas' },
    ],
    [
      'oxygen, which explodes with oil',
      of([1000, '1 bar', 'O2', '', '', '']),
      { kind: 'wrong', argument: 'Gas' },
      { row: 2, column: 'Gas' },
    ],
    [
      'a blank break before the last row',
      of([1000, '', '', '', '', ''], [500, '', '', '', '', '']),
      { kind: 'missing', argument: 'Break to' },
      { row: 2 },
    ],
    [
      'a blank pull before the last row',
      of(['', '1 bar', '', '', '', ''], [500, '', '', '', '', '']),
      { kind: 'missing', argument: 'Pull to' },
      { row: 2 },
    ],
    ['a wait without a break', of([500, '', '', '', 10, '']), { kind: 'wrong', argument: 'Wait' }, { row: 2 }],
    [
      'a negative pressure',
      of([-1, '1 bar', '', '', '', '']),
      { kind: 'limit', argument: 'Pull to' },
      { row: 2, column: 'Pull to (micron)' },
    ],
    [
      'a vacuum beyond none',
      of([1000, '-2 bar g', '', '', '', '']),
      { kind: 'limit', argument: 'Break to' },
      { row: 2 },
    ],
    ['a negative wait', of([1000, '1 bar', '', '', -5, '']), { kind: 'limit', argument: 'Wait' }, { row: 2 }],
    ['a pull of no time', of([1000, '1 bar', '', '', '', 0]), { kind: 'limit', argument: 'Longest pull' }, { row: 2 }],
    ['no rows', of(), { kind: 'empty-table' }, { table: 'plan' }],
    [
      'far too many rows',
      of(...Array.from({ length: 101 }, () => [500, '1 bar', '', '', '', ''])),
      { kind: 'too-many-rows' },
      { table: 'plan' },
    ],
  ])('has its fault with its place for %s', (_, range, issue, place) => {
    const fault = faultOf(() => readPlan(range));
    expect(fault?.issue).toMatchObject(issue);
    expect(fault?.place).toMatchObject(place);
  });

  it('tells all faults to one who asks for all', () => {
    const faults = allFaults((sink) =>
      readPlan(of([-1, '1 bar', 'fog', '0.5 bar', '', ''], [500, '', '', '', '', '']), sink),
    );
    expect(faults.map(({ place }) => place?.column)).toEqual(['Pull to (micron)', 'Gas', 'Supply']);
  });
});
