import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asStored, asTyped, callsOurs } from '../../src/workbook/prefixes.ts';

/** How files store what people type: [MS-XLSX] §2.2.2 and how spreadsheet programs are seen to write it (from memory). */
const pairs: readonly (readonly [typed: string, stored: string])[] = [
  ['=SUM(A1:A3)', 'SUM(A1:A3)'],
  ['=NARROWS.TUBE.BORE("3/8 in")', '_xldudf_NARROWS_TUBE.BORE("3/8 in")'],
  ['=IFERROR(NARROWS.EVAC.TIME(B2,Parts,"Rig A"),"")', 'IFERROR(_xldudf_NARROWS_EVAC.TIME(B2,Parts,"Rig A"),"")'],
  ['=XLOOKUP(A1,B:B,C:C)', '_xlfn.XLOOKUP(A1,B:B,C:C)'],
  ['=FILTER(A1:B9,B1:B9>0)', '_xlfn._xlws.FILTER(A1:B9,B1:B9>0)'],
  ['=SORT(A1:A9)', '_xlfn._xlws.SORT(A1:A9)'],
  ['=LET(x,A1,y,x+1,SUM(x,y))', '_xlfn.LET(_xlpm.x,A1,_xlpm.y,_xlpm.x+1,SUM(_xlpm.x,_xlpm.y))'],
  ['=MAP(A1:A3,LAMBDA(v,v*2))', '_xlfn.MAP(A1:A3,_xlfn.LAMBDA(_xlpm.v,_xlpm.v*2))'],
  ['=LET(f,LAMBDA(a,b,a-b),f(3,2))', '_xlfn.LET(_xlpm.f,_xlfn.LAMBDA(_xlpm.a,_xlpm.b,_xlpm.a-_xlpm.b),_xlpm.f(3,2))'],
  ['=SUM(A1#)', 'SUM(_xlfn.ANCHORARRAY(A1))'],
  ["=SUM('Pipe runs'!$A$1#)", "SUM(_xlfn.ANCHORARRAY('Pipe runs'!$A$1))"],
  ['=@A1:A3', '_xlfn.SINGLE(A1:A3)'],
  ['=@NARROWS.RUN.VOLUME(A1:D9)', '_xlfn.SINGLE(_xldudf_NARROWS_RUN.VOLUME(A1:D9))'],
  ['=@(A1+1)', '_xlfn.SINGLE(A1+1)'],
  ['=STDEV.S(A1:A9)+NORM.DIST(1,0,1,TRUE)', '_xlfn.STDEV.S(A1:A9)+_xlfn.NORM.DIST(1,0,1,TRUE)'],
  // text, sheet names and brackets that look like prefixes or functions
  ['="_xlfn.LET(x,1,x)"&"NARROWS.TUBE.BORE("', '"_xlfn.LET(x,1,x)"&"NARROWS.TUBE.BORE("'],
  ["='_xlfn.LET(a)'!A1+'NARROWS.X(1)'!B2", "'_xlfn.LET(a)'!A1+'NARROWS.X(1)'!B2"],
  ['=SORT!A1+FILTER!B2', 'SORT!A1+FILTER!B2'],
  ['="say ""XLOOKUP(1)"" "&LEN("x")', '"say ""XLOOKUP(1)"" "&LEN("x")'],
  ['=SUM(Units[[#This Row],[SORT(x)]])', 'SUM(Units[[#This Row],[SORT(x)]])'],
  // a defined name or a column called like a function is no call
  ['=DAYS*2+LET', 'DAYS*2+LET'],
  ['=IF(A1=#N/A,#REF!,#DIV/0!)', 'IF(A1=#N/A,#REF!,#DIV/0!)'],
  ['={1,2;"a","LET(b,1,b)"}', '{1,2;"a","LET(b,1,b)"}'],
  ['=SUM ( XLOOKUP (1,A:A,B:B) )', 'SUM ( _xlfn.XLOOKUP (1,A:A,B:B) )'],
];

describe('formulas between the sheet and the file', () => {
  it.each(pairs)('%s is stored as %s', (typed, stored) => {
    expect(asStored(typed)).toBe(stored);
    expect(asTyped(stored)).toBe(typed);
  });

  it('a formula already as typed stays as it is when it is read', () => {
    for (const [typed] of pairs) expect(asTyped(typed)).toBe(typed);
  });

  it('a stored name with an underscore for a dot is read as the dot', () => {
    expect(asTyped('_xldudf_NARROWS_TUBE_BORE(A1)')).toBe('=NARROWS.TUBE.BORE(A1)');
  });

  it('prefixes are read whatever their case', () => {
    expect(asTyped('_XLFN._XLWS.SORT(_XLDUDF_NARROWS_TUBE.BORE(A1))')).toBe('=SORT(NARROWS.TUBE.BORE(A1))');
  });

  it('what is stored reads back as typed, for formulas put together at random', () => {
    const leaf = fc.constantFrom(
      'A1',
      '$B$2',
      'A1:C3',
      "'My ''own'' sheet'!A1",
      'SORT!A1',
      '1.5E-3',
      '.5',
      '"NARROWS.F("',
      '"_xlfn.""LET("',
      'TRUE',
      '#N/A',
      'Rates',
      'Units[Speed (cfm)]',
      '{1,"_xlws.";2,3}',
      'D4#',
    );
    const formula = fc.letrec<{ any: string }>((tie) => ({
      any: fc.oneof(
        { depthSize: 'small', withCrossShrink: true },
        leaf,
        fc.tuple(tie('any'), fc.constantFrom('+', '-', '*', '&', ' >= ', '^'), tie('any')).map((all) => all.join('')),
        fc
          .tuple(
            fc.constantFrom(
              'SUM',
              'XLOOKUP',
              'FILTER',
              'SORT',
              'TEXTJOIN',
              'NARROWS.TUBE.BORE',
              'NARROWS.CONVERT',
              'IF',
            ),
            fc.array(tie('any'), { minLength: 1, maxLength: 3 }),
          )
          .map(([name, list]) => `${name}(${list.join(',')})`),
        fc.tuple(tie('any'), tie('any')).map(([value, rest]) => `LET(_v,${value},w,_v+1,${rest}*w)`),
        tie('any').map((body) => `LAMBDA(p,${body}+p)(1)`),
        tie('any').map((body) => `(${body})`),
      ),
    })).any;
    fc.assert(
      fc.property(formula, (body) => {
        expect(asTyped(asStored(`=${body}`))).toBe(`=${body}`);
      }),
      { numRuns: 500 },
    );
  });

  it('any text at all survives, formula or not', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 60 }).filter((text) => !/_xl|@|#|\?/i.test(text)),
        (text) => {
          expect(asTyped(asStored(`=${text}`)).toUpperCase()).toBe(`=${text}`.toUpperCase());
        },
      ),
    );
  });

  it('our functions are told from text and sheets that bear their names', () => {
    expect(callsOurs('=1+narrows.tube.bore(A1)')).toBe(true);
    expect(callsOurs('_xldudf_NARROWS_TUBE.BORE(A1)')).toBe(true);
    expect(callsOurs('="NARROWS.TUBE.BORE(A1)"')).toBe(false);
    expect(callsOurs("='NARROWS.X(1)'!A1")).toBe(false);
    expect(callsOurs('=NARROWS.NOTE*2')).toBe(false);
  });
});
