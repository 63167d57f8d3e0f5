import { expect, test } from 'vitest';
import { Fault } from '../../src/faults/issue.ts';
import { checkNumber, type Limit, withinLimit } from '../../src/units/limit.ts';

function told(value: number, limit: Limit, unit?: string): unknown {
  try {
    checkNumber(value, limit, 'Bore', unit);
    return 'within';
  } catch (error) {
    if (error instanceof Fault) return error.issue;
    throw error;
  }
}

test.each([
  ['above', { above: 2 }, 2, 2.1],
  ['at least', { atLeast: 2 }, 1.9, 2],
  ['below', { below: 2 }, 2, 1.9],
  ['at most', { atMost: 2 }, 2.1, 2],
] as const)(
  'a bound "%s" lets in what it says, to the edge, and names itself and its value',
  (rule, limit, out, within) => {
    expect(withinLimit(within, limit)).toBe(true);
    expect(withinLimit(out, limit)).toBe(false);
    expect(told(within, limit)).toBe('within');
    expect(told(out, limit, 'mm')).toEqual({ kind: 'limit', argument: 'Bore', value: out, rule, limit: 2, unit: 'mm' });
    expect(withinLimit(Number.NaN, limit)).toBe(false);
  },
);

test('a number without a unit is told without one', () => {
  expect(told(3, { atMost: 2 })).toMatchObject({ unit: '' });
});
