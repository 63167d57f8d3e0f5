import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rowsOfText } from '../../src/workbook/pasted-text.ts';

describe('a table that another spreadsheet put on the clipboard as text', () => {
  it.each([
    [
      'a\tb\n1\t2\n',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      'a\tb\r\n1\t2\r\n',
      [
        ['a', 'b'],
        ['1', '2'],
      ],
    ],
    [
      '\ta\tb\n1\t2\t3',
      [
        ['', 'a', 'b'],
        ['1', '2', '3'],
      ],
    ],
    ['a\n\nb\n', [['a'], [''], ['b']]],
    [
      'a\t\n1',
      [
        ['a', ''],
        ['1', ''],
      ],
    ],
    [
      '"two\nlines"\tb\n1\t2\n',
      [
        ['two\nlines', 'b'],
        ['1', '2'],
      ],
    ],
    ['"a\tb"\tc', [['a\tb', 'c']]],
    ['"say ""hi"""\tc', [['say "hi"', 'c']]],
    // no cell in quotes: inches, and a quote that is not closed
    [
      '3/8"\t1/2"\n5"\t"',
      [
        ['3/8"', '1/2"'],
        ['5"', '"'],
      ],
    ],
    ['"a" b\tc', [['"a" b', 'c']]],
    ['""\tx', [['', 'x']]],
  ])('%j', (text, rows) => {
    expect(rowsOfText(text)).toEqual(rows);
  });

  it('comes back whatever its cells hold', () => {
    const cell = fc.string({ unit: fc.constantFrom('a', '"', '\t', '\n', ' ', '<'), maxLength: 6 });
    const table = fc
      .nat(3)
      .chain((more) =>
        fc.array(fc.array(cell, { minLength: more + 1, maxLength: more + 1 }), { minLength: 1, maxLength: 4 }),
      );
    fc.assert(
      fc.property(table, (rows) => {
        const text = rows
          .map((row) => row.map((one) => (/["\t\n]/.test(one) ? `"${one.replaceAll('"', '""')}"` : one)).join('\t'))
          .join('\n');
        expect(rowsOfText(`${text}\n`)).toEqual(rows);
      }),
    );
  });
});
