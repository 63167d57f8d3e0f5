import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Calculator } from '../../src/calc/calculator.ts';
import { book, type Content, disposeAll } from './fixture.ts';

/** Values that are alike: text that reads as a number, empty text, nothing, zero, FALSE. */
const TABLE: readonly (readonly Content[])[] = [
  ['b', 2, 'B'],
  ['a', 0, '10'],
  ['B', null, true],
  ['c', 3, null],
  ['=""', 1, 10],
  [null, false, '=""'],
];
const CELLS = Object.fromEntries(
  TABLE.flatMap((row, r) => row.map((value, c) => [`${'ABC'[c]}${r + 1}`, value] as const)),
);

/** Formulas over them, with what every spreadsheet gives; from memory. */
const CASES: readonly (readonly [formula: string, wanted: string | number])[] = [
  ['=TEXTJOIN(",",FALSE,--(B1:B6=0))', '0,1,1,0,0,0'],
  ['=TEXTJOIN(",",FALSE,--(C1:C6=10))', '0,0,0,0,1,0'],
  ['=TEXTJOIN(",",FALSE,--(C1:C6="10"))', '0,1,0,0,0,0'],
  ['=TEXTJOIN(",",FALSE,--(A1:A6=""))', '0,0,0,0,1,1'],
  ['=TEXTJOIN(",",FALSE,--(B1:B6=FALSE))', '0,0,1,0,0,1'],
  ['=TEXTJOIN(",",FALSE,--(C1:C6=D9))', '0,0,0,1,0,1'],
  ['=TEXTJOIN(",",FALSE,--(B1:B6=D9))', '0,1,1,0,0,1'],
  ['=TEXTJOIN(",",FALSE,--(C1:C6=TRUE))', '0,0,1,0,0,0'],
  ['=TEXTJOIN(",",FALSE,--(C1:C6<>TRUE))', '1,1,0,1,1,1'],
  ['=TEXTJOIN(",",FALSE,--(C1:C6<>10))', '1,1,1,1,0,1'],
  ['=TEXTJOIN(",",FALSE,--(C1:C6<>"10"))', '1,0,1,1,1,1'],
  ['=TEXTJOIN(",",FALSE,--(A1:A6="B"))', '1,0,1,0,0,0'],
  ['=TEXTJOIN(",",FALSE,IF(C1:C6=10,"y","n"))', 'n,n,n,n,y,n'],
  ['=TEXTJOIN(",",FALSE,IF(B1:B6=0,B1:B6,"-"))', '-,0,,-,-,-'],
  ['=SUM((C1:C6=10)*B1:B6)', 1],
  ['=SUMPRODUCT(--(B1:B6=0))', 2],
  ['=SUM(--NOT(C1:C6=10))', 5],
  ['=COUNTIF(C1:C6,10)', 2],
  ['=COUNTIF(C1:C6,"10")', 2],
  ['=COUNTIF(C1:C6,"<>10")', 4],
  ['=COUNTIF(B1:B6,0)', 1],
  ['=COUNTIF(A1:A6,"")', 2],
  ['=COUNTIF(B1:B6,FALSE)', 1],
  ['=COUNTIFS(C1:C6,10,B1:B6,0)', 1],
  ['=SUMIF(C1:C6,10,B1:B6)', 1],
  ['=MATCH(10,C1:C6,0)', 5],
  ['=MATCH("10",C1:C6,0)', 2],
  ['=MATCH(0,B1:B6,0)', 2],
  ['=MATCH("",A1:A6,0)', 5],
  ['=MATCH(FALSE,B1:B6,0)', 6],
  ['=XLOOKUP(10,C1:C6,B1:B6)', 1],
  ['=VLOOKUP("b",A1:C6,2,FALSE)', 2],
  ['=ROWS(FILTER(A1:A6,C1:C6<>10))', 5],
  ['=SUM(FILTER(B1:B6,C1:C6="10"))', 0],
  ['=C6=D9', 'TRUE'],
  ['=D9=C6', 'TRUE'],
  ['=C1=D9', 'FALSE'],
  ['=D9=FALSE', 'TRUE'],
  ['=FALSE=D9', 'TRUE'],
  ['=FALSE<>D9', 'FALSE'],
  ['=C3<>"yes"', 'TRUE'],
  ['="yes"<>C3', 'TRUE'],
  ['=C3<>1', 'TRUE'],
  ['=C3>"zz"', 'TRUE'],
];

describe('what a formula gives does not depend on what was asked before', () => {
  let calculator: Calculator;
  beforeAll(async () => {
    ({ calculator } = await book({ S: CELLS }));
  });
  afterAll(disposeAll);

  const values = (formulas: readonly string[]): string[] =>
    calculator
      .evaluate(formulas)
      .map((answer) =>
        'error' in answer ? answer.error : String(answer.value).replace(/^(true|false)$/, (word) => word.toUpperCase()),
      );

  it.each(CASES)('%s', (formula, wanted) => {
    expect(values([formula])).toEqual([String(wanted)]);
    expect(values([formula, formula])).toEqual([String(wanted), String(wanted)]);
  });

  it('forwards and backwards', () => {
    const wanted = CASES.map(([, value]) => String(value));
    const formulas = CASES.map(([formula]) => formula);
    expect(values(formulas)).toEqual(wanted);
    expect(values([...formulas].reverse()).reverse()).toEqual(wanted);
    expect(values([...formulas, ...formulas]).slice(formulas.length)).toEqual(wanted);
  });
});

/** Errors in what is compared, and an error that it is compared with. */
const FAULTY: Readonly<Record<string, Content>> = {
  ...{ A1: 'a', A2: '=1/0', A3: '1', B1: 1, B2: 2, B3: 3, C1: 4, C2: 5, C3: '=NA()' },
  ...{ H1: '=NA()', H2: 2, I1: 1, I2: '=NA()', I3: 2, J1: '=NA()', K1: 1, J2: '#N/A of a text', J3: 'x' },
};
/** An error stands in a comparison for the cell that has it, and for all cells that are compared with it; from memory. */
const FAULTS: readonly (readonly [formula: string, wanted: string | number])[] = [
  ['=SUMPRODUCT(--(I1:I3=2))', '#N/A'],
  ['=SUMPRODUCT(--(I1:I3<>2))', '#N/A'],
  ['=SUM(--(I1:I3>0))', '#N/A'],
  ['=SUM(--(I1:I3=H2))', '#N/A'],
  ['=SUM(--(2=I1:I3))', '#N/A'],
  ['=TEXTJOIN(",",FALSE,IFERROR(--(I1:I3=2),"e"))', '0,e,1'],
  ['=TEXTJOIN(",",FALSE,IFERROR(--(I1:I3<>2),"e"))', '1,e,0'],
  ['=TEXTJOIN(",",FALSE,IFERROR(--(I1:I3=H2),"e"))', '0,e,1'],
  ['=TEXTJOIN(",",FALSE,IFERROR(--(B1:C3={2,5}),"e"))', '0,0,1,1,0,e'],
  ['=TEXTJOIN(",",FALSE,IFERROR(--(B1:C3=J1:K1),"e"))', 'e,0,e,0,e,e'],
  ['=TEXTJOIN(",",FALSE,IFERROR(--(B1:C3={2,5,6}),"e"))', '0,0,e,1,1,e,0,e,e'],
  ['=FILTER(B1:B3,A1:A3="1","none")', '#DIV/0!'],
  ['=FILTER(B1:B3,IFERROR(A1:A3="a",FALSE),"none")', 1],
  ['=SUM(--(B1:B3=H1))', '#N/A'],
  ['=SUM(--(B1:B3<>H1))', '#N/A'],
  ['=SUM(--(B1:B3>=H1))', '#N/A'],
  ['=SUM(--(B1:B3=NA()))', '#N/A'],
  ['=TEXTJOIN(",",FALSE,IFERROR(--(A1:A3=H1),"e"))', 'e,e,e'],
  ['=ERROR.TYPE(INDEX(A1:A3=H1,2))', 2],
  ['=ERROR.TYPE(INDEX(A1:A3=H1,3))', 7],
  ['=TEXTJOIN(",",FALSE,IFERROR(IF(B1:B3=H1,1,2),"e"))', 'e,e,e'],
  ['=TEXTJOIN(",",FALSE,IFERROR(--(J1:J3="#n/a of a text"),"e"))', 'e,1,0'],
  // these pass over errors
  ['=COUNTIF(I1:I3,1)', 1],
  ['=COUNTIF(I1:I3,">0")', 2],
  ['=COUNTIF(A1:A3,"a")', 1],
  ['=SUMIF(A1:A3,"a",B1:B3)', 1],
  ['=MATCH(2,I1:I3,0)', 3],
  ['=XMATCH(2,I1:I3)', 3],
  ['=XLOOKUP("a",A1:A3,B1:B3)', 1],
  ['=SUM(--(B1:B3=1))', 1],
];

describe('errors in a comparison do not depend on what was asked before', () => {
  afterAll(disposeAll);
  const wanted = FAULTS.map(([, value]) => String(value));
  const formulas = FAULTS.map(([formula]) => formula);

  it.each(FAULTS)('%s', async (formula, value) => {
    const { calculator } = await book({ S: { ...FAULTY, Z20: '=COUNTIF(I1:I3,1)', Z30: formula } });
    const shown = calculator.value('S', 29, 25);
    expect(String(typeof shown === 'object' && shown !== null ? shown.error : shown)).toBe(String(value));
  });

  it.each([false, true])('all of them in one workbook, backwards: %s', async (backwards) => {
    const places = formulas.map((_, i) => `Z${5 * (backwards ? formulas.length - i : i + 1)}`);
    const cells = Object.fromEntries(formulas.map((formula, i) => [places[i] ?? '', formula]));
    const { at } = await book({ S: { ...FAULTY, ...cells } });
    expect(places.map((place) => String(at(place)))).toEqual(wanted);
  });

  it('one after the other', async () => {
    const { calculator } = await book({ S: FAULTY });
    const given = calculator.evaluate([...formulas, ...formulas]);
    const shown = given.map((answer) => ('error' in answer ? answer.error : String(answer.value)));
    expect(shown).toEqual([...wanted, ...wanted]);
  });
});

/** Arrays that functions make of A1:B8, as many as there are fives among them; by hand. */
const MADE: readonly (readonly [array: string, fives: number])[] = [
  ['CHOOSECOLS(A1:B8,2)', 1],
  ['UNIQUE(A1:A8)', 1],
  ['SORT(A1:A8)', 2],
  ['FILTER(A1:A8,A1:A8>-3)', 2],
  ['ROW(A1:A8)', 1],
  ['ROW(A1:A8)-0', 1],
  ['VSTACK(A5:A8,A1:A4)', 2],
  ['HSTACK(B1:B8,A1:A8)', 3],
  ['EXPAND(A1:A8,8,1)', 2],
  ['TOCOL(A1:B8)', 3],
  ['TOROW(A1:A8)', 2],
  ['WRAPROWS(A1:A8,2)', 2],
  ['WRAPCOLS(A1:A8,2)', 2],
  ['MAKEARRAY(8,1,LAMBDA(r,c,r))', 1],
  ['BYROW(A1:B8,LAMBDA(r,MAX(r)))', 1],
  ['SCAN(0,B1:B8,LAMBDA(a,b,b))', 1],
  ['MAP(B1:B8,LAMBDA(a,a))', 1],
  ['SORTBY(A1:A8,B1:B8)', 2],
  ['CHOOSEROWS(A1:A8,1,3,5)', 1],
  ['SUMIFS(B1:B8,B1:B8,B1:B8)', 1],
];
const NUMBERS = [-5, 3, 5, -2, 7, 2, 5, -7];

describe('an array that a function made is filed under no cell', () => {
  afterAll(disposeAll);

  it.each(MADE)('%s', async (array, fives) => {
    const cells: Record<string, Content> = {
      // worked out after A1:B8 were compared, and before the cells beside and below it are
      D1: '=SUMPRODUCT((A1:A8=5)*1)+SUMPRODUCT((B1:B8=5)*1)',
      E1: `=IF(D1=3,SUMPRODUCT(((${array})=5)*1),"too soon")`,
      G1: '=IF(E1="too soon",E1,SUMPRODUCT((E2:E20=5)*1)+SUMPRODUCT((F1:F20=5)*1)+SUMPRODUCT((E2:E20>2)*1))',
      H1: '=IF(G1="too soon",G1,SUMPRODUCT((A1:A8=5)*10)+SUMPRODUCT((B1:B8=5)*1))',
    };
    NUMBERS.forEach((number, i) => {
      cells[`A${i + 1}`] = number;
      cells[`B${i + 1}`] = i + 1;
    });
    const { calculator } = await book({ S: cells });
    const shown = (column: number) => calculator.value('S', 0, column);
    // nothing stands below E1 and in F; two fives in A, one in B
    expect([shown(3), shown(4), shown(6), shown(7)]).toEqual([3, fives, 0, 21]);
  });
});
