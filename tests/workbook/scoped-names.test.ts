import { expect, it } from 'vitest';
import { readWorkbook } from '../../src/workbook/read.ts';
import { scopedNames, withMeanings } from '../../src/workbook/scoped-names.ts';
import { bareFile } from './bare.ts';

const names = scopedNames([
  { name: 'Rate', range: 'One!$A$1', scope: 'One' },
  { name: 'Rate', range: "'Site 2'!$A$1", scope: 'Site 2' },
  { name: 'Rate', range: '_xlfn.CONCAT(One!$B$1)&"x"' },
  { name: 'Kind', range: 'One!$C$1', scope: 'One' },
  { name: 'Kind', range: 'Two!$C$1:$C$9', scope: 'Two' },
  { name: 'Parts', range: 'Two!$A$1:$C$9' },
]);

// A name of a sheet goes before one of the workbook, on its own sheet (ISO/IEC 29500-1 §18.2.5).
it.each([
  ['=Rate*2', 'One', '=One!$A$1*2'],
  ['=rate*2', 'Site 2', "='Site 2'!$A$1*2"],
  ['=Rate', 'Three', '=(CONCAT(One!$B$1)&"x")'],
  ["='Site 2'!Rate+One!Rate", 'Three', "='Site 2'!$A$1+One!$A$1"],
  ['=SUM(Kind)', 'Two', '=SUM(Two!$C$1:$C$9)'],
  ['=SUM(Kind)', 'Three', '=SUM(Kind)'],
  ['=Three!Rate', 'One', '=Three!Rate'],
  ['="Rate"&Rate(1)&Rate!A1', 'One', '="Rate"&Rate(1)&Rate!A1'],
  ['=SUM(Parts)', 'Two', '=SUM(Parts)'],
  ['=LET(Rate,3,Rate*2)', 'One', '=LET(Rate,3,Rate*2)'],
])('%s on %s means %s', (formula, sheet, meaning) => {
  expect(withMeanings(formula, names, sheet)).toBe(meaning);
});

it('leaves all formulas as they are where each name has one meaning', () => {
  const plain = scopedNames([{ name: 'Rate', range: 'One!$A$1', scope: 'One' }]);
  expect(withMeanings('=Rate*2', plain, 'Two')).toBe('=Rate*2');
});

it('is so in a workbook that is read', async () => {
  const sheet = (name: string) => ({ name, rows: '<row r="1"><c r="B1"><f>Rate*2</f><v>0</v></c></row>' });
  const names =
    '<definedName name="Rate" localSheetId="0">One!$A$1</definedName><definedName name="Rate" localSheetId="1">Two!$A$1</definedName>';
  const { snapshot } = await readWorkbook(bareFile({ sheets: [sheet('One'), sheet('Two')], names }));
  expect(['sheet-1', 'sheet-2'].map((id) => snapshot.sheets[id]?.cellData?.[0]?.[1]?.f)).toEqual([
    '=One!$A$1*2',
    '=Two!$A$1*2',
  ]);
});
