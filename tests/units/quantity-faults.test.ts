import { describe, expect, it } from 'vitest';
import { convert, isQuantity, knownUnits, quantities, readQuantity, toSI } from '../../src/units/quantity.ts';
import { UNITS } from '../../src/units/table.ts';
import { issueOf } from '../issue-of.ts';

describe('faults of quantities say all that is to be said', () => {
  it('beyond what is read at all: the bound in the unit that was written', () => {
    expect(issueOf(() => readQuantity('2e6 kPa', 'pressure', 'Pa', 'Target'))).toEqual({
      kind: 'limit',
      argument: 'Target',
      value: 2e6,
      rule: 'at most',
      limit: 1e6,
      unit: 'kPa',
    });
    expect(issueOf(() => readQuantity(-2e12, 'length', 'mm', 'Bore'))).toEqual({
      kind: 'limit',
      argument: 'Bore',
      value: -2e12,
      rule: 'at least',
      limit: -1e12,
      unit: 'mm',
    });
    expect(toSI(1e9, 'pressure', 'Pa', 'Target')).toBe(1e9);
    expect(toSI(-1e9, 'length', 'm', 'Bore')).toBe(-1e9);
  });

  it('no number: what is wanted, in which unit', () => {
    for (const value of ['wide', true, Number.NaN, null]) {
      expect(issueOf(() => toSI(value, 'length', 'mm', 'Bore'))).toEqual({
        kind: 'not-a-number',
        argument: 'Bore',
        value,
        expected: 'a length in mm, or text with a unit',
      });
    }
  });

  it('a bare fraction where the unit is metric: how to write it', () => {
    for (const unit of ['m', 'cm', 'mm', 'um']) {
      expect(issueOf(() => toSI(' 3/8 ', 'length', unit, 'Bore'))).toEqual({
        kind: 'wrong',
        argument: 'Bore',
        found: '"3/8"',
        allowed: 'a fraction with its unit',
        todo: 'Write "3/8 in", or a decimal number.',
      });
    }
    expect(toSI('0.5', 'length', 'mm', 'Bore')).toBeCloseTo(0.0005, 15);
    expect(toSI('1/2', 'volume', 'L', 'Volume')).toBeCloseTo(0.0005, 15);
    expect(toSI('1/2 mm', 'length', 'mm', 'Bore')).toBeCloseTo(0.0005, 15);
  });
});

describe('faults of conversion say all that is to be said', () => {
  it('an unknown unit on either side, with every unit there is, each once', () => {
    for (const [from, to] of [
      ['cubit', 'm'],
      ['m', 'cubit'],
    ] as const) {
      const issue = issueOf(() => convert(1, from, to));
      expect(issue).toMatchObject({ kind: 'unknown', what: 'unit', value: 'cubit' });
      const known = issue?.kind === 'unknown' ? issue.known : [];
      for (const quantity of quantities) expect(known).toEqual(expect.arrayContaining([...knownUnits(quantity)]));
      expect(new Set(known).size).toBe(known.length);
    }
  });

  it('units of two quantities: those that would do', () => {
    expect(issueOf(() => convert(1, 'ft', 'micron'))).toEqual({
      kind: 'unit',
      argument: 'to',
      unit: 'micron',
      quantity: 'length',
      known: knownUnits('length'),
    });
  });

  it('below absolute zero: the zero in the unit given', () => {
    expect(issueOf(() => convert(-300, 'C', 'K'))).toEqual({
      kind: 'limit',
      argument: 'value',
      value: -300,
      rule: 'at least',
      limit: expect.closeTo(-273.15, 10),
      unit: 'C',
    });
    // absolute zero itself is allowed; 2 bar below it is not
    expect(convert(0, 'Pa', 'bar g')).toBe(-1.01325);
    expect(convert(0, 'K', 'C')).toBe(-273.15);
    expect(issueOf(() => convert(-2, 'bar g', 'bar'))?.kind).toBe('limit');
    // other quantities may be negative
    expect(convert(-1, 'ft', 'in')).toBeCloseTo(-12, 12);
  });
});

describe('conversion beside a zero that is moved', () => {
  it.each([
    // decimals added by hand: 273.15 and 1.01325
    [0.2, 'C', 'K', 273.35],
    [0.4, 'C', 'K', 273.55],
    [0.1, 'K', 'C', -273.05],
    [20000.1, 'K', 'C', 19726.95],
    [1.1, 'bar', 'bar g', 0.08675],
    [70000.1, 'bar g', 'bar', 70001.11325],
    [20000.1, 'bar g', 'mbar', 20001113.25],
    [1050000.1, 'kPa', 'kPa g', 1049898.775],
  ])('gives %s %s as %s without noise', (value, from, to, expected) => {
    expect(convert(value, from, to)).toBe(expected);
  });

  it('leaves numbers of units without a moved zero as they are', () => {
    expect(convert(1.23456789012345e-20, 'Pa', 'Pa')).toBe(1.23456789012345e-20);
    expect(convert(1 / 3, 'm', 'm')).toBe(1 / 3);
    expect(convert(1e-200, 'Pa', 'Pa')).toBe(1e-200);
  });

  it('stays finite and right for numbers with more digits than a double holds', () => {
    expect(convert(1e20, 'C', 'K') / 1e20).toBeCloseTo(1, 12);
  });
});

describe('the list of quantities', () => {
  it('holds those of the table, and no names that every object has', () => {
    expect([...quantities]).toEqual(Object.keys(UNITS));
    for (const quantity of quantities) expect(isQuantity(quantity)).toBe(true);
    for (const name of ['constructor', '__proto__', 'toString', '']) expect(isQuantity(name)).toBe(false);
  });

  it('shows the first name of each unit', () => {
    for (const quantity of quantities) {
      expect(knownUnits(quantity)).toEqual(UNITS[quantity].map(({ names }) => names[0]));
    }
  });
});
