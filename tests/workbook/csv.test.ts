import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvOf } from '../../src/workbook/csv.ts';

describe('cells leave as comma-separated text that starts no formula', () => {
  it('writes numbers, truth values, blanks and errors as they are', () => {
    expect(csvOf([[1.5, -2, true, null, { error: '#N/A' }]])).toBe('1.5,-2,TRUE,,#N/A\r\n');
  });

  it.each(['=1+1', '+1+1', '-1+1', '@SUM(A1)', '\t=1', '\r=1', '  =1', '＝1', '-0.95 bar g'])(
    'puts an apostrophe before %j',
    (text) => {
      expect(csvOf([[text]])).toMatch(/^"?'/);
    },
  );

  it.each(['-5', '+3.2', '-1e-3', '-,5'])('leaves %j, which is only a number', (text) => {
    expect(csvOf([[text]])).not.toContain("'");
  });

  it('quotes what holds a comma, a semicolon, a quote or a line break (RFC 4180)', () => {
    expect(csvOf([['3/8 in, hard', 'a;b', 'say "no"', 'two\nlines']])).toBe(
      '"3/8 in, hard","a;b","say ""no""","two\nlines"\r\n',
    );
  });

  it('never lets a field of text begin like a formula, whatever the text', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(...'=+-@\t\r\n ,;"a1') }), (text) => {
        const shown = csvOf([[text]])
          .slice(0, -2)
          .replace(/^"/, '');
        if (!/^[+-]?[\d.,e]+$/i.test(shown)) expect(shown).not.toMatch(/^\s*[=+@-]|^[\t\r\n]/);
      }),
    );
  });
});
