import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { readFactors } from '../../src/tables/factors.ts';
import { allFaults, faultOf } from './faults.ts';

const HEADER = ['Factor', 'On', 'Low', 'Likely', 'High', 'Spread', 'Shared'];
const read = (...rows: Cell[][]) => readFactors([HEADER, ...rows]).factors;

describe('a row of a factors table', () => {
  it.each<[Cell, boolean]>([
    ['yes', true],
    ['Yes', true],
    [true, true],
    ['true', true],
    [1, true],
    ['no', false],
    [false, false],
    ['0', false],
    ['', false],
  ])('is shared by %j: %s', (cell, shared) => {
    expect(read(['', 'water', 1, 1, 2, '', cell])[0]?.shared).toBe(shared);
  });

  it.each(['moisture', 'water', 'access', 'learning', 'leak', 'leaks', 'temperature', 'ambient'])(
    'acts on %s',
    (on) => {
      expect(read(['', on, 1, 1, 2, '', '']).map(({ name, row }) => [name, row])).toEqual([[on, 2]]);
    },
  );

  it('may have a width to the edge, a median of nothing for what is added, and equal percentiles', () => {
    expect(read(['', 'water', '', '', '', 2, ''])[0]?.spread).toEqual({
      kind: 'factor',
      median: 1,
      below: 2,
      above: 2,
    });
    expect(read(['', 'ambient', '', -3, '', 2.5, ''])[0]?.spread).toMatchObject({ kind: 'shift', median: -3 });
    expect(read(['', 'leaks', '', 0, '', 2.5, ''])[0]?.spread).toMatchObject({ kind: 'shift', median: 0, above: 2.5 });
    expect(read(['', 'leaks', 0, 0, 0, '', ''])[0]?.spread).toMatchObject({ median: 0, below: 0, above: 0 });
    expect(read(['', 'ambient', -1, -1, -1, '', ''])[0]?.spread).toMatchObject({ median: -1, below: 0, above: 0 });
  });

  const limited = (argument: string, value: number, rule: string, limit: number) => ({
    kind: 'limit',
    argument,
    value,
    rule,
    limit,
    unit: '',
  });
  it.each<[string, Cell[], object, string]>([
    [
      'an unknown target',
      ['x', 'rain', 1, 1, 1, '', ''],
      {
        kind: 'unknown',
        what: 'target of a factor',
        value: 'rain',
        known: ['water', 'ambient', 'access', 'learning', 'leaks'],
      },
      'On',
    ],
    ['low above likely', ['', 'water', 2, 1, 3, '', ''], limited('Low', 2, 'at most', 1), 'Low'],
    ['high below likely', ['', 'water', 1, 2, 1.5, '', ''], limited('High', 1.5, 'at least', 2), 'High'],
    ['a low of nothing', ['', 'water', 0, 2, 3, '', ''], limited('Low', 0, 'above', 0), 'Low'],
    ['less than no leaks', ['', 'leaks', -1, 2, 3, '', ''], limited('Low', -1, 'at least', 0), 'Low'],
    ['a median of nothing', ['', 'water', '', 0, '', 1, ''], limited('Likely', 0, 'above', 0), 'Likely'],
    ['a negative leak', ['', 'leaks', '', -1, '', 1, ''], limited('Likely', -1, 'at least', 0), 'Likely'],
    ['too wide a width', ['', 'water', '', '', '', 2.1, ''], limited('Spread', 2.1, 'at most', 2), 'Spread'],
    ...(['Low', 'High'] as const).map((column): [string, Cell[], object, string] => [
      `${column} beside Spread`,
      HEADER.map((header) => ({ On: 'water', Spread: 1, [column]: 1 })[header] ?? ''),
      {
        kind: 'wrong',
        argument: column,
        found: 'given beside Spread',
        allowed: 'one of them',
        todo: 'Clear Spread, or clear Low and High.',
      },
      column,
    ]),
    ...(['Low', 'Likely', 'High'] as const).map((column): [string, Cell[], object, string] => [
      `no ${column}`,
      HEADER.map((header) => (header === column ? '' : ({ On: 'water', Low: 1, Likely: 1, High: 1 }[header] ?? ''))),
      { kind: 'missing', argument: `${column}, or Spread,` },
      column,
    ]),
    ['a bad low', ['', 'water', 'x', 1, 1, '', ''], { kind: 'not-a-number', argument: 'Low' }, 'Low'],
    ['a bad likely', ['', 'water', 1, 'x', 1, '', ''], { kind: 'not-a-number', argument: 'Likely' }, 'Likely'],
    ['a bad high', ['', 'water', 1, 1, 'x', '', ''], { kind: 'not-a-number', argument: 'High' }, 'High'],
    ['a bad spread', ['', 'water', '', '', '', 'x', ''], { kind: 'not-a-number', argument: 'Spread' }, 'Spread'],
    ['no target', ['x', '', 1, 1, 1, '', ''], { kind: 'missing', argument: 'On' }, 'On'],
  ])('with %s is told, and left out', (_, row, issue, column) => {
    let left: unknown;
    const faults = allFaults((sink) => {
      left = readFactors([HEADER, row, ['', 'access', 1, 1, 2, '', '']], sink).factors.map(({ on }) => on);
    });
    expect(faults.map(({ issue: told, place }) => [told, place])).toEqual([
      [expect.objectContaining(issue), { table: 'factors', row: 2, column }],
    ]);
    expect(left).toEqual(['access']);
  });

  it('with no answer to Shared is told, and is not shared', () => {
    expect(faultOf(() => read(['', 'water', 1, 1, 1, '', 'maybe']))?.issue).toEqual({
      kind: 'unknown',
      what: 'answer',
      value: 'maybe',
      known: ['yes', 'no'],
    });
  });

  it('acts on what no other row acts on', () => {
    const rows: Cell[][] = [
      ['a', 'water', 1, 1, 2, '', ''],
      ['b', 'moisture', 1, 1, 2, '', ''],
    ];
    expect(faultOf(() => read(...rows))?.issue).toEqual({
      kind: 'wrong',
      argument: 'On',
      found: '"water", on which "a" acts',
      allowed: 'one factor on each',
      todo: 'Put both into one factor.',
    });
  });
});
