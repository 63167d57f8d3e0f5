import { describe, expect, it } from 'vitest';
import { worksOnArrays } from '../../src/workbook/array-formulas.ts';

const marked = (formula: string): boolean => worksOnArrays(formula, (name) => name === 'NUMS');

// Where one value is wanted, a plain formula takes one cell of a range (implicit intersection, ISO/IEC 29500-1 §18.17.2.4).
describe('a formula is marked as one of arrays', () => {
  it.each([
    '=SUM(A1:A8*B1:B8)',
    '=MAX(LEN(C1:C8))',
    '=SUM(IF(A1:A8>3,B1:B8))',
    '=INDEX(B1:B8,MATCH(1,(A1:A8=3)*(B1:B8=4),0))',
    "=SUM('Pipe runs'!A:A*2)",
    '=SUM(-Runs!$2:$5)',
    '=SUM(Nums*2)',
    '=SUM(nums&"")',
    '=SUM(2*{1,2,3})',
    '=SUM(SQRT(A1#))',
    '=SUM(Sales[Qty]*Sales[Price])',
    '=LET(x,A1:A3,SUM(x*x))',
    '=SUM(SEQUENCE(3)^2)',
    '=FILTER(A1:A3,B1:B3=2)',
    '=AND((A1:A3)>2)',
    '=A1:A3',
    '=IFERROR(A1:A3,0)',
  ])('%s', (formula) => expect(marked(formula)).toBe(true));
});

describe('a formula is left plain', () => {
  it.each([
    '=A1*B1',
    '=SUM(A1:A8)',
    '=SUM(A1:A8,B2)*C1+2',
    "=VLOOKUP(A1,'Pipe runs'!$A:$C,2,FALSE)",
    '=INDEX(Nums,2)&"A1:A3*2"',
    '=ROUND(SUM(nums),2)',
    '=IF(COUNTIF(A1:A9,">2")>1,"a:b","c")',
    '=NARROWS.EVAC.TIME("10 L",Nums,"R",D1:E4)*60',
    '=SUM(Sales[Qty])',
    '=SUM(UNIQUE(A1:A3))',
    '=SUM(A1#)',
    '=@A1:A3*2',
    '=Rate*2',
    '=TRUE',
    '=LET(x,A1,x*2)',
  ])('%s', (formula) => expect(marked(formula)).toBe(false));
});
