import { afterEach, describe, expect, it } from 'vitest';
import { closeEditors, editor } from './editor.ts';
import { book, type Content, disposeAll } from './fixture.ts';

afterEach(() => {
  disposeAll();
  closeEditors();
});

/** What formulas give that stand in column Z of a sheet with these cells, each after those before it. */
async function given(cells: Record<string, Content>, formulas: readonly string[]): Promise<unknown[]> {
  const placed = Object.fromEntries(formulas.map((formula, at) => [`Z${at + 1}`, formula]));
  const { at } = await book({ S: { ...cells, ...placed } });
  return formulas.map((_, place) => at(`Z${place + 1}`));
}

/** Values as every spreadsheet gives them, from memory. */
describe('the empty text of a formula', () => {
  const cells = { A1: '=""', A2: '=IF(1=1,"","x")', A3: 'x', D1: 0, D2: 5, D3: 1 };

  it.each([
    ['=ISBLANK(A1)', false],
    ['=COUNTA(A1:A3)', 3],
    ['=SUBTOTAL(3,A1:A3)', 3],
    ['=ISTEXT(A2)', true],
    ['=A1+1', '#VALUE!'],
    ['=IF(A1=0,"zero","text")', 'text'],
    ['=SUMPRODUCT(--(A1:A3=0))', 0],
    ['=MATCH("",A1:A3,0)', 1],
    ['=COUNTIF(D1:D3,A1)', 0],
    ['=AVERAGEA(A1:A3,4)', 1],
    ['=COUNTBLANK(A1:A3)', 2],
    ['=A1=""', true],
    ['=SUM(A1:A3,D1:D3)', 6],
    ['=LEN(A1)', 0],
  ])('%s is %s in the calculation that gives it', async (formula, wanted) => {
    expect(await given(cells, [formula])).toEqual([wanted]);
  });

  // A4 blank, a number, a truth value and an error: what is not blank is six of the seven cells, 127 - 8 beside them
  const kinds = { ...cells, A4: null, A5: 7, A6: true, A7: '=1/0' };
  const beside = { D1: 1, D2: 2, D3: 4, D4: 8, D5: 16, D6: 32, D7: 64 };
  it.each([
    ['=COUNTIF(A1:A7,"<>")', 6],
    ['=COUNTIF(A1:A7,"<>"&"")', 6],
    ['=COUNTIFS(A1:A7,"<>")', 6],
    ['=COUNTIFS(A1:A7,"<>",A1:A7,"<>x")', 5],
    ['=SUMIF(A1:A7,"<>",D1:D7)', 119],
    ['=SUMIFS(D1:D7,A1:A7,"<>")', 119],
    ['=AVERAGEIFS(D1:D6,A1:A6,"<>",D1:D6,"<20")', 23 / 4],
    ['=MINIFS(D1:D7,A1:A7,"<>",D1:D7,">4")', 16],
    ['=COUNTIF(A1:A7,"")', 3],
    ['=SUMIFS(D1:D7,A1:A7,"")', 1 + 2 + 8],
    ['=COUNTIF(A1:A7,"<>x")', 6],
    ['=SUMPRODUCT(--(A1:A6<>""))', 3],
  ])('%s is %s: a condition leaves out blank cells alone, whatever was asked before', async (formula, wanted) => {
    const all = { ...kinds, ...beside };
    expect(await given(all, [formula])).toEqual([wanted]);
    const others = ['=SUMPRODUCT(--(A1:A6=""))', '=COUNTIF(A1:A7,"x")', '=MATCH("",A1:A7,0)'];
    expect((await given(all, [...others, formula]))[3]).toBe(wanted);
  });

  it('is the same after an edit that does not touch it', async () => {
    const { type, at } = await editor({
      A1: '=IF(B1="","",B1*2)',
      D1: 1,
      C6: '=IF(A1=0,"zero","n")&D1',
      C7: '=COUNTA(A1:A3)+D1',
      E1: '=IF(SEQUENCE(2)=1,"","b")',
      F1: '=COUNTA(E1:E2)+D1',
    });
    expect([at('C6'), at('C7'), at('F1')]).toEqual(['n1', 2, 3]);
    await type({ D1: 2 });
    expect([at('C6'), at('C7'), at('F1')]).toEqual(['n2', 3, 4]);
  });
});

describe('a look-up of what a blank cell counts as', () => {
  const cells = { A1: 'x', A3: 0, B1: 1, B2: 2, B3: 3, E1: 'x', G1: 0, E2: 1, F2: 2, G2: 3 };

  it.each([
    ['=VLOOKUP(0,A1:B3,2,FALSE)', 3],
    ['=XLOOKUP(0,A1:A3,B1:B3)', 3],
    ['=XMATCH(0,A1:A3)', 3],
    ['=MATCH(0,A1:A3,0)', 3],
    ['=VLOOKUP(D9,A1:B3,2,FALSE)', 3],
    ['=HLOOKUP(0,E1:G2,2,FALSE)', 3],
    ['=VLOOKUP("",A1:B3,2,FALSE)', '#N/A'],
    ['=XLOOKUP("",A1:A3,B1:B3,"none")', 'none'],
    ['=XLOOKUP(FALSE,A1:A3,B1:B3,"none")', 'none'],
    ['=SUM(--(A1:A3=0))', 2],
  ])('%s is %s: it finds no blank cell, alone and after others', async (formula, wanted) => {
    expect(await given(cells, [formula])).toEqual([wanted]);
    expect((await given(cells, ['=SUM(--(A1:A3=0))', '=COUNTIF(A1:A3,"x")', formula]))[2]).toBe(wanted);
  });
});
