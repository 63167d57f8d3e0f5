import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvOf } from '../../src/workbook/csv.ts';

/** Day counts that LibreOffice 7.4 gives for DATE and TIME: 46354 is 28 November 2026, 0.5 is noon. */
const HALF_PAST_TWO = 14.5 / 24;
const DATES: readonly (readonly [number, string, string])[] = [
  [46354, 'yyyy-mm-dd', '2026-11-28'],
  [46354, 'd/m/yy', '2026-11-28'],
  [46354, '[$-409]mmmm d, yyyy;@', '2026-11-28'],
  [46354, 'mmm', '2026-11-28'],
  [46354, 'dddd', '2026-11-28'],
  [46354, 'm', '2026-11-28'],
  [46354 + HALF_PAST_TWO, 'yyyy-mm-dd hh:mm', '2026-11-28T14:30:00'],
  [46354, 'm/d/yy h:mm AM/PM', '2026-11-28T00:00:00'],
  [46354 + HALF_PAST_TWO, 'yyyy-mm-dd', '2026-11-28T14:30:00'],
  [46354 + HALF_PAST_TWO, 'h:mm', '2026-11-28T14:30:00'],
  [HALF_PAST_TWO, 'h:mm', '14:30:00'],
  [HALF_PAST_TWO, 'h:mm AM/PM', '14:30:00'],
  [HALF_PAST_TWO, 'mm:ss', '14:30:00'],
  [0, 'hh:mm:ss', '00:00:00'],
  [0.5 + 0.25 / 86_400, 'h:mm:ss.00', '12:00:00.250'],
  [46353.99999999999, 'yyyy-mm-dd', '2026-11-28'],
  // 1 March 1900 is the first day that the count of days has right
  [61, 'yyyy-mm-dd', '1900-03-01'],
  [2_958_465, 'yyyy-mm-dd', '9999-12-31'],
];
const NO_DATES: readonly (readonly [number, string | undefined])[] = [
  [46354, undefined],
  [46354, 'General'],
  [14.903, '0.0'],
  [1.5, '[h]:mm'],
  [0.5, '[mm]:ss'],
  [46354, '0.0 "days"'],
  [46354, '#,##0 \\d'],
  [46354, '[Red]0.00E+00'],
  [46354, '0;yyyy-mm-dd'],
  [60, 'yyyy-mm-dd'],
  [0.5, 'yyyy-mm-dd'],
  [-1, 'yyyy-mm-dd'],
  [-0.25, 'h:mm'],
  [2_958_466, 'yyyy-mm-dd'],
];

describe('cells leave as comma-separated text that starts no formula', () => {
  it('writes numbers, truth values, blanks and errors as they are', () => {
    expect(csvOf([[1.5, -2, true, null, { error: '#N/A' }]])).toBe('1.5,-2,TRUE,,#N/A\r\n');
  });

  it.each(DATES)('writes %d shown as %s as the date or time that it is: %s', (serial, format, text) => {
    expect(csvOf([[serial]], () => format)).toBe(`${text}\r\n`);
  });

  it.each(NO_DATES)('writes %d shown as %s as the number', (number, format) => {
    expect(csvOf([[number]], () => format)).toBe(`${number}\r\n`);
  });

  it('asks for the format of each number by its place, and leaves text, truth values and errors alone', () => {
    const formats = [
      ['yyyy-mm-dd', 'General'],
      ['h:mm', 'yyyy-mm-dd', 'yyyy-mm-dd'],
    ] as const;
    const cells = [
      [46354, 46354],
      ['noon', true, { error: '#N/A' }],
    ];
    expect(csvOf(cells, (row, column) => formats[row]?.[column])).toBe('2026-11-28,46354\r\nnoon,TRUE,#N/A\r\n');
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
