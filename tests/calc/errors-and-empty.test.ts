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
describe('an error in what is compared', () => {
  const cells = { I1: 1, I2: '=NA()', I3: 2, B1: 1, B2: 2, H1: '=NA()', A1: 'a', A2: '=1/0', A3: '=""&1' };

  it.each([
    ['=SUMPRODUCT(--(I1:I3=2))', '#N/A', '=COUNTIF(I1:I3,1)'],
    ['=SUMPRODUCT(--(I1:I3<>2))', '#N/A', '=COUNTIF(I1:I3,1)'],
    ['=SUM(--(I1:I3>0))', '#N/A', '=COUNTIF(I1:I3,1)'],
    ['=SUM(--(B1:B2=H1))', '#N/A', '=SUM(--(B1:B2=1))'],
    ['=SUM(--(B1:B2<>H1))', '#N/A', '=COUNTIF(B1:B2,1)'],
    ['=FILTER(I1:I3,A1:A3="1","none")', '#DIV/0!', '=COUNTIF(A1:A3,"a")'],
    ['=TEXTJOIN(",",TRUE,IFERROR(--(I1:I3=2),"e"))', '0,e,1', '=COUNTIF(I1:I3,1)'],
    ['=COUNTIF(I1:I3,2)', 1, '=SUM(--(I1:I3=1))'],
    ['=MATCH(2,I1:I3,0)', 3, '=SUM(--(I1:I3=1))'],
  ])('%s is %s, whatever was asked before', async (formula, wanted, before) => {
    expect(await given(cells, [formula])).toEqual([wanted]);
    expect((await given(cells, [before, formula]))[1]).toBe(wanted);
    expect((await given(cells, [formula, before]))[0]).toBe(wanted);
  });
});

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

describe('a spill mark of another sheet', () => {
  it.each([
    ['=INDEX(S!M1#,1)', 2],
    ['=INDEX(S!M1#,2)', 4],
    ['=SUM(OFFSET(S!M1#,0,0))', 6],
    ['=SUM(CHOOSE(1,S!M1#))', 6],
    ['=LET(x,S!M1#,INDEX(x,2))', 4],
    ['=COUNTIF(INDEX(S!M1#,0,1),4)', 1],
    ['=INDEX(Marked,2)', 4],
    ['=SUM(S!M1#)', 6],
    ['=INDEX(M5#,2)', 9],
  ])('%s is %s where the own sheet has other numbers at those cells', async (formula, wanted) => {
    const own = { M1: 111, M2: 222, M5: '=SEQUENCE(2,1,8)', A1: formula };
    const { at } = await book({ T: own, S: { M1: '=SEQUENCE(2,1,2,2)' } }, { Marked: 'S!$M$1#' });
    expect(at('A1')).toBe(wanted);
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

describe('INDEX with several places at once', () => {
  it.each([
    ['=INDEX(SORT(D1:D5),SEQUENCE(3))', [1, 3, 4], null],
    ['=INDEX({5;6;7},{1;2;3})', [5, 6, 7], null],
    ['=INDEX(UNIQUE(D1:D5),SEQUENCE(2))', [3, 1, null], null],
    ['=INDEX(D1:D5,SEQUENCE(3))+0', [3, 1, 0], null],
    ['=INDEX({5,6;7,8},{1;2},{2,1})', [6, 8, null], 5],
    ['=INDEX(SORT(D1:D5),{1;9})', [1, '#REF!', null], null],
  ])('%s fills cells with numbers', async (formula, down, right) => {
    const { at } = await book({ S: { D1: 3, D2: 1, D4: 5, D5: 4, Z1: formula } });
    expect(['Z1', 'Z2', 'Z3'].map((address) => at(address))).toEqual(down);
    expect(at('AA1')).toBe(right);
  });
});

describe('a text that reads as a number', () => {
  it.each([
    ['=ABS(A1)', 5],
    ['=MOD(A1,3)', 2],
    ['=MOD(12,A1)', 2],
    ['=ROUND(1.234567,A1)', 1.23457],
    ['=ROUND(A2,1)', 5.3],
    ['=A1^2', 25],
    ['=2^A1', 32],
    ['=SQRT(LEFT("9a",1))', 3],
    ['=POWER(A1,2)', 25],
    ['=ABS(TEXT(-5,"0.00"))', 5],
    ['=ABS(A3)', 0.5],
    ['=SUM(ABS(A1:A2))', 10.26],
    ['=ABS(A4)', '#VALUE!'],
    ['=ABS(A5)', '#VALUE!'],
    ['=SUM(A1:A2)', 0],
    ['=ISTEXT(TEXT(A6,"0.00"))', true],
    ['=TEXT(A6,"0.00")&""', 'TRUE'],
  ])('%s is %s', async (formula, wanted) => {
    const cells = { A1: '="5"', A2: '="5.26"', A3: '="50%"', A4: 'five', A5: '=""', A6: true };
    expect(await given(cells, [formula])).toEqual([wanted]);
  });
});
