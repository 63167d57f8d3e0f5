import { describe, expect, it } from 'vitest';
import { codeOf } from '../../src/faults/codes.ts';
import { at, Fault, type Issue, raise } from '../../src/faults/issue.ts';
import { issueWords, shortNumber, wordsOf } from '../../src/faults/words.ts';

/** One of each kind. A kind without an entry does not compile. */
const ONE_OF_EACH: { readonly [K in Issue['kind']]: Issue & { readonly kind: K } } = {
  limit: { kind: 'limit', argument: 'bore', value: 0, rule: 'above', limit: 0, unit: 'mm' },
  'not-a-number': { kind: 'not-a-number', argument: 'length', value: 'five', expected: 'a length in m' },
  'not-text': { kind: 'not-text', argument: 'gas', value: true, expected: 'text' },
  unit: { kind: 'unit', argument: 'length', unit: 'furlong', quantity: 'length', known: ['m', 'ft'] },
  missing: { kind: 'missing', argument: 'rig' },
  unknown: { kind: 'unknown', what: 'gas', value: 'phlogiston', known: ['air', 'argon'] },
  'missing-header': { kind: 'missing-header', table: 'parts', header: 'Rig', found: ['Part', 'Bore'] },
  'duplicate-header': { kind: 'duplicate-header', table: 'parts', header: 'Bore' },
  'empty-table': { kind: 'empty-table', table: 'units' },
  'too-many-rows': { kind: 'too-many-rows', table: 'units', rows: 1048576, limit: 200000 },
  order: { kind: 'order', upper: 'inlet', upperValue: 10, lower: 'outlet', lowerValue: 20, unit: 'Pa' },
  'out-of-reach': { kind: 'out-of-reach', targetPa: 1, lowestPa: 2.7, because: 'of the pump’s ultimate pressure' },
  'no-pump': { kind: 'no-pump', rig: 'small' },
  'no-solution': { kind: 'no-solution', reason: 'this rig alone takes 40 min', todo: 'Widen the hose.' },
  'cell-error': { kind: 'cell-error', argument: 'bore', code: '#REF!' },
  'model-range': { kind: 'model-range', model: 'viscosity', argument: 'T', value: 9, min: 200, max: 600, unit: 'K' },
  arguments: { kind: 'arguments', function: 'GAS', given: 5, most: 3 },
  wrong: { kind: 'wrong', argument: 'table', found: 'a cell', allowed: 'a range', todo: 'Give a range.' },
  'not-finite': { kind: 'not-finite', function: 'SERIES' },
  internal: { kind: 'internal', detail: 'x is not a function' },
};

const issues = Object.values(ONE_OF_EACH);

describe('words for a fault', () => {
  it.each(issues.map((issue) => [issue.kind, issue] as const))('are sentences for %s', (_, issue) => {
    const { what, todo } = wordsOf(issue);
    expect(what).toMatch(/^[A-Z].*\.$/u);
    expect(todo).toMatch(/^[A-Z]/u);
    expect(issueWords(issue)).not.toMatch(/undefined|NaN|\[object|null/u);
  });

  it('say which fraction of an inch a sheet took for a date', () => {
    // days of a sheet: 25569 is 1 January 1970
    const days = (year: number, month: number, day: number) => Date.UTC(year, month - 1, day) / 86_400_000 + 25_569;
    const known = ['1/4 in', '3/8 in', '1 1/8 in', '1/2 in'];
    const todo = (value: number) => wordsOf({ kind: 'unknown', what: 'tube size', value: String(value), known }).todo;
    const said = 'It may be 3/8 that the sheet took for a date: type it with its unit, 3/8 in.';
    // the third month's eighth day where the month comes first, the third day of the eighth month elsewhere
    expect(todo(days(2026, 3, 8))).toBe(said);
    expect(todo(days(2031, 8, 3))).toBe(said);
    expect(todo(days(2026, 5, 9))).toContain('Use one of');
    expect(todo(days(2026, 3, 8) + 0.5)).toContain('Use one of');
    expect(todo(38)).toContain('Use one of');
  });

  it('name the argument, the limit and the value', () => {
    expect(issueWords(ONE_OF_EACH.limit)).toBe('Bore is 0 mm: it must be above 0 mm.');
  });

  it('begin with the place in a table', () => {
    expect(issueWords(ONE_OF_EACH.missing, { table: 'parts', row: 4, column: 'Rig' })).toBe(
      'Parts, row 4 of the range, column Rig: Rig is blank: it is needed. Fill in rig.',
    );
  });

  it('list what there is', () => {
    expect(issueWords(ONE_OF_EACH.unknown)).toContain('air, argon');
    expect(issueWords(ONE_OF_EACH['missing-header'])).toContain('Part, Bore');
  });

  it('show the closest names where there are too many to list', () => {
    const known = Array.from({ length: 200 }, (_, i) => `size ${i}`);
    const words = issueWords({ kind: 'unknown', what: 'size', value: 'size 77', known: [...known, 'other'] });
    expect(words).toContain('size 77, ');
    expect(words).toContain('201 in all');
    expect(words.length).toBeLessThan(300);
  });

  it('ask for a plain number where no unit can be given', () => {
    const value = '25 inHg vac';
    expect(issueWords({ kind: 'not-a-number', argument: 'value', value, expected: 'a number' })).toBe(
      'Value is "25 inHg vac": it must be a plain number. Type the number alone, with a decimal point and without a unit.',
    );
    const expected = 'a number, or text with a unit';
    expect(issueWords({ kind: 'not-text', argument: 'coefficient', value: true, expected })).not.toContain('as text');
  });

  it('tell of quotes where text was typed without them', () => {
    expect(issueWords({ kind: 'cell-error', argument: 'size', code: '#NAME?' })).toContain('straight quotes');
    expect(issueWords({ kind: 'cell-error', argument: 'size', code: '#N/A' })).toContain('Correct the cell');
  });

  it('cut short what somebody pasted into a cell', () => {
    const issue: Issue = { kind: 'not-a-number', argument: 'bore', value: 'x'.repeat(5000), expected: 'a number' };
    expect(issueWords(issue).length).toBeLessThan(400);
  });

  it('show numbers without noise', () => {
    expect([0.1 + 0.2, 1e-7, 123456789, 1e12, 0].map(shortNumber)).toEqual(['0.3', '1e-7', '123457000', '1e12', '0']);
  });
});

describe('cell errors', () => {
  it('are #VALUE! for a wrong argument, #N/A for no such row or no solution, #NUM! outside a model', () => {
    expect(codeOf(ONE_OF_EACH.limit)).toBe('#VALUE!');
    expect(codeOf(ONE_OF_EACH.unknown)).toBe('#N/A');
    expect(codeOf(ONE_OF_EACH['out-of-reach'])).toBe('#N/A');
    expect(codeOf(ONE_OF_EACH['no-solution'])).toBe('#N/A');
    expect(codeOf(ONE_OF_EACH['model-range'])).toBe('#NUM!');
  });

  it('go on as they came in where we have them', () => {
    expect(codeOf({ kind: 'cell-error', argument: 'bore', code: '#N/A' })).toBe('#N/A');
    expect(codeOf({ kind: 'cell-error', argument: 'bore', code: '#DIV/0!' })).toBe('#VALUE!');
  });
});

describe('a fault', () => {
  it('takes the place where it was found, once', () => {
    const inner = { table: 'parts', row: 3 };
    const read = () => at(inner, () => raise(ONE_OF_EACH.missing));
    expect(() => at({ table: 'other' }, read)).toThrow(expect.objectContaining({ place: inner }));
    expect(new Fault(ONE_OF_EACH.missing).message).toBe('missing');
  });
});
