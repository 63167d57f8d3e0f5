import { describe, expect, it } from 'vitest';
import { parseAmount } from '../../src/units/amount.ts';
import { readQuantity, toSI } from '../../src/units/quantity.ts';
import { issueOf } from '../issue-of.ts';

/** Exact by definition. */
const IN = 0.0254;
const FT = 0.3048;

const lengthOf = (text: string): number => toSI(text, 'length', 'mm', 'bore');

const kindOf = (read: () => unknown): string | undefined => issueOf(read)?.kind;

describe('commas and points', () => {
  it.each([
    // groups of three before a decimal point
    ['12,345.6 mm', 12.3456],
    ['1,234.56 mm', 1.23456],
    ['1,234. mm', 1.234],
    ['1,234,567.8 mm', 1234.5678],
    // several groups and no point
    ['12,345,678 mm', 12345.678],
    ['1,234,567,890 mm', 1234567.89],
    // a decimal comma
    ['1,2345 mm', 0.0012345],
    ['1,5 mm', 0.0015],
    ['1, mm', 0.001],
    [',500 m', 0.5],
    ['00,500 m', 0.5],
  ])('read %s, which can mean one thing', (text, metres) => {
    expect(lengthOf(text)).toBeCloseTo(metres, 9);
  });

  it.each([
    '10,500 mm',
    '01,500 mm',
    '1234,567.8 mm',
    '1234,567,890 mm',
    '1,234,56 mm',
    '1,234,567,8 mm',
    '1,234.5,6 mm',
    '1,234.5.6 mm',
    '1.23.4 mm',
    '1..2 mm',
    '1/0 in',
  ])('refuse %s, which is no number or two', (text) => {
    expect(kindOf(() => lengthOf(text))).toBe('not-a-number');
  });
});

describe('signs that word processors put in', () => {
  it.each([
    ['1\u00a01/8 in', 1.125 * IN],
    ['1\u20091/8 in', 1.125 * IN],
    ['3\u20448 in', 0.375 * IN],
    ['5\u2019 6\u201d', 5.5 * FT],
    ['5\u2032 6\u2033', 5.5 * FT],
    ['\u20132 mm', -0.002],
  ])('are read in %s', (text, metres) => {
    expect(lengthOf(text)).toBeCloseTo(metres, 12);
  });
});

describe('amounts of several parts', () => {
  it.each([
    ['0 ft 6 in', 0.5 * FT],
    ['5 ft 0 in', 5 * FT],
    ['-0 ft 6 in', -0.5 * FT],
    ['-1 ft 6 in', -1.5 * FT],
  ])('may have a part that is zero, and one sign for all: %s', (text, metres) => {
    expect(lengthOf(text)).toBeCloseTo(metres, 12);
  });

  it.each(['5 ft -6 in', '5 ft -0 in', '5 ft six', '5 ft 6', '5 ft 6 psi'])('are not %s', (text) => {
    expect(kindOf(() => lengthOf(text))).toBe('unit');
  });

  it('are told as one number of the first unit', () => {
    const { si, value, unit } = readQuantity('5 ft 6 in', 'length', 'mm', 'bore');
    expect([si, value, unit]).toEqual([expect.closeTo(5.5 * FT, 12), expect.closeTo(5.5, 12), 'ft']);
  });
});

describe('a clock', () => {
  it('is minutes, hours before the first colon and seconds after the second', () => {
    expect(parseAmount('1:30', () => true)).toEqual([{ value: 90, unit: 'min', fraction: false }]);
    expect(parseAmount('0:01:30', () => true)).toEqual([{ value: 1.5, unit: 'min', fraction: false }]);
  });

  it('is no length, and no time where its minutes or seconds pass 59', () => {
    expect(kindOf(() => lengthOf('0:30'))).toBe('not-a-number');
    for (const text of ['1:60', '0:00:60', '1:3', '1:300']) {
      expect(kindOf(() => toSI(text, 'time', 'min', 't'))).toBe('unit');
    }
  });
});
