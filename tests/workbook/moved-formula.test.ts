import { writeXlsx } from 'hucre/xlsx';
import { describe, expect, it } from 'vitest';
import { rebuild } from '../../src/hosts/sheet/save/rebuild.ts';
import type { SheetEdit } from '../../src/workbook/edits.ts';
import { formulaWithoutSheet, movedFormula, movedRuleFormula } from '../../src/workbook/moved-formula.ts';
import { partText } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';

/** Rows and columns count from 0 in an edit, from 1 in an address. */
const shift =
  (kind: 'insert' | 'remove', sheet = 'Units') =>
  (at: number, count = 1, axis: 'row' | 'column' = 'row'): SheetEdit => ({ kind, sheet, axis, at, count });
const insert = shift('insert');
const remove = shift('remove');
const rename = (sheet: string, to: string): SheetEdit => ({ kind: 'rename', sheet, to });

describe('a formula that no cell holds, when rows and columns come and go', () => {
  // as spreadsheets move the formulas of cells, common practice, no source
  it.each([
    ['$D5>0', [insert(2)], '$D6>0'],
    ['=AND($D5>0,D$3<$E$9)', [insert(3, 2)], '=AND($D7>0,D$3<$E$11)'],
    ['SUM(A1:A9)', [insert(4)], 'SUM(A1:A10)'],
    ['SUM($A:$B)+SUM(3:4)', [insert(0)], 'SUM($A:$B)+SUM(4:5)'],
    ['SUM($A:$B)', [insert(1, 1, 'column')], 'SUM($A:$C)'],
    ['A5+Parts!A5', [insert(0)], 'A6+Parts!A5'],
    ["A5+'Pipe runs'!$A5", [shift('insert', 'Pipe runs')(0)], "A5+'Pipe runs'!$A6"],
    ['Units!B5', [rename('Units', 'All units'), shift('insert', 'All units')(0)], "'All units'!B6"],
    ['A5', [rename('Units', 'All units'), shift('insert', 'All units')(0)], 'A6'],
    ['A5*2', [remove(4)], '#REF!*2'],
    ['LOG10(A5)&"A5"&rigs&TRUE', [insert(0)], 'LOG10(A6)&"A5"&rigs&TRUE'],
    ['[1]Units!A5+A5', [insert(0)], '[1]Units!A5+A6'],
    ["'[1]Units'!A5", [insert(0)], "'[1]Units'!A5"],
    ['A5:INDEX(B:B,7)', [insert(0)], 'A6:INDEX(B:B,7)'],
    ['OFFSET(A5,1,1)', [insert(0)], 'OFFSET(A6,1,1)'],
    ['A5', [], 'A5'],
    ["SUM('Pipe runs'!$A5:B9)+A5", [{ kind: 'drop', sheet: 'Pipe runs' }], 'SUM(#REF!)+A5'],
    ['Parts!A:A', [rename('Parts', 'Old'), { kind: 'drop', sheet: 'Old' }, rename('Gear', 'Old')], '#REF!'],
  ] as const)('%s becomes, after %j, %s', (formula, edits, to) => {
    expect(movedFormula(formula, 'Units', edits)).toBe(to);
  });

  it('is that of the first cell left where the first cell of its range is gone', () => {
    // made for A5 of A5:A9; A6 would have had $D6>E6 and stands in row 5 now
    expect(movedRuleFormula('$D5>E5', 'A5:A9', 'Units', [remove(4)])).toBe('$D5>E5');
    expect(movedRuleFormula('$D5>E$2', 'A5:A9', 'Units', [remove(3, 3)])).toBe('$D4>E$2');
    expect(movedRuleFormula('B5>$D5', 'B5:D9', 'Units', [remove(1, 1, 'column')])).toBe('B5>$C5');
    // the cells left of the second range alone
    expect(movedRuleFormula('A5>1', 'A5:A6 A9', 'Units', [remove(4, 2)])).toBe('A7>1');
    // cells alone, in column A: B5 is the first cell left, and A5 comes first again
    const ofA = { across: { first: 0, last: 0 } };
    expect(movedRuleFormula('A5>$D5', 'A5:C9', 'Units', [{ ...remove(4), ...ofA } as SheetEdit])).toBe('A5>$D5');
    expect(movedRuleFormula('A5>1', 'A5:A9', 'Units', [{ ...insert(2), ...ofA } as SheetEdit])).toBe('A6>1');
    // all gone: the rule goes as well
    expect(movedRuleFormula('A5>1', 'A5', 'Units', [remove(4)])).toBe('#REF!>1');
  });
});

describe('a file made anew after rows were put in', () => {
  it('has the conditions of its formats, the sources and limits of its input and its links where their cells are', async () => {
    const bytes = await writeXlsx({
      sheets: [
        {
          name: 'Units',
          rows: Array.from({ length: 9 }, (_, row) => [`u${row}`, row]),
          cells: new Map([['0,0', { value: 'u0', type: 'string', hyperlink: { target: '', location: 'Parts!A2' } }]]),
          conditionalRules: [
            {
              type: 'expression',
              priority: 1,
              formula: '$B2>Parts!$A$2',
              range: 'A2:A9',
              style: { font: { bold: true } },
            },
            { type: 'cellIs', operator: 'between', priority: 2, formula: ['$B$3', '$B$4'], range: 'B2:B9', style: {} },
          ],
          dataValidations: [
            { type: 'list', formula1: 'Parts!$A$1:$A$3', range: 'C2:C9' },
            { type: 'decimal', operator: 'between', formula1: 'B1', formula2: 'Parts!$A$3', range: 'D2:D9' },
          ],
        },
        { name: 'Parts', rows: [['p'], ['q'], ['r']] },
      ],
    });
    const book = await readWorkbook(bytes);
    const edits = [insert(1), shift('insert', 'Parts')(0, 2)];
    const again = await readWorkbook(await rebuild(book, book.snapshot, edits));
    const xml = partText(again.parts, again.sheets[0]?.part ?? '') ?? '';
    const formulas = (tag: string): string[] =>
      [...xml.matchAll(new RegExp(`<${tag}>([^<]*)</${tag}>`, 'g'))].map((match) =>
        (match[1] ?? '').replaceAll('&gt;', '>'),
      );
    expect(formulas('formula')).toEqual(['$B3>Parts!$A$4', '$B$4', '$B$5']);
    expect(formulas('formula1')).toEqual(['Parts!$A$3:$A$5', 'B1']);
    expect(formulas('formula2')).toEqual(['Parts!$A$5']);
    expect(xml).toMatch(/location="Parts!A4"/);
    expect(again.sheets[0]?.extras.lists[0]).toMatchObject({ from: 'Parts!$A$3:$A$5' });
  });
});

describe('what a name stands for, when a sheet is taken out', () => {
  // as spreadsheets mark references to sheets that are gone, common practice, no source
  it.each([
    ["'Pipe runs'!$A$4:$I$78", 'Pipe runs', '#REF!'],
    ["=SUM('Pipe runs'!A:B)*2", 'Pipe runs', '=SUM(#REF!)*2'],
    ["Units!$A$1,'Pipe runs'!$A$1", 'Pipe runs', 'Units!$A$1,#REF!'],
    [
      'OFFSET(units!$A$1,0,0,COUNTA(Units!$A:$A),MAX(Units!3:4))',
      'Units',
      'OFFSET(#REF!,0,0,COUNTA(#REF!),MAX(#REF!))',
    ],
    ["'Tom''s'!B2&\"'Tom''s'!B2\"", "Tom's", "#REF!&\"'Tom''s'!B2\""],
    ['Units!Rate+Rate', 'Units', '#REF!+Rate'],
    ['All_Units!B2+B2', 'Units', 'All_Units!B2+B2'],
    ["'All Units'!B2", 'Units', "'All Units'!B2"],
    ['[1]Units!A5', 'Units', '[1]Units!A5'],
    ['#REF!', 'Units', '#REF!'],
    ['0.25', 'Units', '0.25'],
  ])('%s without %s is %s', (formula, sheet, left) => {
    expect(formulaWithoutSheet(formula, sheet)).toBe(left);
  });
});
