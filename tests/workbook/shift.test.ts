import { describe, expect, it } from 'vitest';
import { shifted } from '../../src/workbook/shift.ts';

describe('a formula filled down or to the right', () => {
  it.each([
    ['=A1+B2', 1, 1, '=B2+C3'],
    ['=$A$1+B$2+$C3', 2, 1, '=$A$1+C$2+$C5'],
    ["='Pipe runs'!A1*Sheet1!B1", 1, 0, "='Pipe runs'!A2*Sheet1!B2"],
    ['=SUM(A:A)+SUM($1:3)', 1, 1, '=SUM(B:B)+SUM($1:4)'],
    ['="A1"&LOG10(A1)', 1, 0, '="A1"&LOG10(A2)'],
    ['=A1*Rate1x+NARROWS.TUBE.BORE(B1)', 3, 0, '=A4*Rate1x+NARROWS.TUBE.BORE(B4)'],
    ['=B2', -1, 0, '=B1'],
    ['=B1', -1, 0, '=#REF!'],
    ['=XFD1', 0, 1, '=#REF!'],
    ['=1.5+10', 1, 1, '=1.5+10'],
  ])('%s moved by %i rows and %i columns reads %s', (formula, rows, columns, moved) => {
    expect(shifted(formula, rows, columns)).toBe(moved);
  });
});
