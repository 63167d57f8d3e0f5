import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { numberToFit } from '../../src/hosts/sheet/number-to-fit.ts';

/** A room in which so many letters of one width fit. */
const room = (letters: number) => ({ width: 10 * letters, measure: (text: string) => 10 * text.length });
const general = (value: number, letters: number): string => numberToFit(String(value), value, room(letters));
const formatted = (text: string, letters: number): string => numberToFit(text, undefined, room(letters));

describe('a number in a narrow cell', () => {
  it('is hidden behind signs that fill the cell where it has a format', () => {
    expect(formatted('122,807,342', 11)).toBe('122,807,342');
    expect(formatted('122,807,342', 10)).toBe('##########');
    expect(formatted('1.23E+04', 7)).toBe('#######');
    expect(formatted('2026-11-28', 3)).toBe('###');
    expect(formatted('12', 0)).toBe('#');
  });

  it('gives up the blanks around it first', () => {
    expect(formatted(' $1,234.50 ', 9)).toBe('$1,234.50');
    expect(formatted('($1,234.50)', 9)).toBe('#########');
  });

  it('without a format loses decimals first, then digits, then itself', () => {
    // the digits of pi, and of the numbers as they are written here
    expect(general(Math.PI, 17)).toBe('3.141592653589793');
    expect(general(Math.PI, 6)).toBe('3.1416');
    expect(general(Math.PI, 2)).toBe('3');
    expect(general(2.999999, 5)).toBe('3');
    expect(general(123456789.25, 9)).toBe('123456789');
    expect(general(123456789.25, 8)).toBe('1.23E+08');
    expect(general(123456789.25, 5)).toBe('1E+08');
    expect(general(123456789.25, 4)).toBe('####');
    expect(general(-123456789.25, 6)).toBe('-1E+08');
    expect(general(1.5e300, 7)).toBe('2E+300');
    // the nearest with one digit is beyond what a number can be
    expect(general(1.7e308, 6)).toBe('######');
  });

  it('without a format keeps the most of a small number', () => {
    expect(general(0.000012345678, 8)).toBe('1.23E-05');
    expect(general(0.0012345, 6)).toBe('0.0012');
    expect(general(0.04, 2)).toBe('##');
    expect(general(-0.4, 2)).toBe('##');
  });

  it('fits whatever the room, and never reads as nothing, as another sign or as more than twice itself', () => {
    const numbers = fc.double({ noNaN: true, noDefaultInfinity: true }).filter((value) => value !== 0);
    fc.assert(
      fc.property(numbers, fc.integer({ min: 1, max: 24 }), (value, letters) => {
        const text = general(value, letters);
        expect(text.length).toBeLessThanOrEqual(letters);
        if (/^#+$/.test(text)) return;
        expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(Math.abs(value));
        expect(Math.sign(Number(text))).toBe(Math.sign(value));
      }),
    );
  });
});
