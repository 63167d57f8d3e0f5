import { afterAll, describe, expect, it } from 'vitest';
import { createCalculator } from '../../src/calc/calculator.ts';
import { loadUniver } from '../../src/calc/univer-node.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { call, functions } from '../calc/fixture.ts';
import { type BareWorkbook, bareFile } from './bare.ts';

const TABLES = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/table';
const calculator = createCalculator(loadUniver(), functions, call);
afterAll(() => calculator.dispose());

/** Six numbers under a header; rows 3 and 6 (of the numbers 2 and 5) are hidden. */
const ROWS = [1, 2, 3, 4, 5, 6, 7]
  .map((row) => {
    const hidden = row === 3 || row === 6 ? ' hidden="1"' : '';
    const cell =
      row === 1 ? '<c r="A1" t="inlineStr"><is><t>Units</t></is></c>' : `<c r="A${row}"><v>${row - 1}</v></c>`;
    return `<row r="${row}"${hidden}>${cell}</row>`;
  })
  .join('');

/** What the functions that leave out rows make of the six numbers. */
async function totals(after: string, parts?: BareWorkbook['parts']) {
  const file = bareFile({ sheets: [{ name: 'S', rows: ROWS, after }], ...(parts ? { parts } : {}) });
  calculator.load((await readWorkbook(file)).snapshot);
  return calculator
    .evaluate(['=SUBTOTAL(9,A2:A7)', '=SUBTOTAL(109,A2:A7)', '=SUM(A2:A7)', '=SUBTOTAL(2,A2:A7)'])
    .map((answer) => ('value' in answer ? answer.value : answer.error));
}

const CONDITION = '<filterColumn colId="0"><filters><filter val="1"/><filter val="3"/></filters></filterColumn>';
const CUSTOM =
  '<filterColumn colId="0"><customFilters><customFilter operator="lessThan" val="2"/></customFilters></filterColumn>';

// Filtered rows are left out by 1 to 11 and by 101 to 111, rows hidden by hand by the latter alone (ISO/IEC 29500-1 §18.17.7, SUBTOTAL).
describe('SUBTOTAL leaves out', () => {
  it.each([
    ['a filter by values', CONDITION],
    ['a filter by a comparison', CUSTOM],
  ])('rows that %s has hidden', async (_, condition) => {
    expect(await totals(`<autoFilter ref="A1:A7">${condition}</autoFilter>`)).toEqual([14, 14, 21, 4]);
  });

  it('only the rows of the filtered range: another was hidden by hand', async () => {
    expect(await totals(`<autoFilter ref="A1:A5">${CONDITION}</autoFilter>`)).toEqual([19, 14, 21, 5]);
  });

  it.each([
    ['no filter at all', ''],
    ['a filter without a condition', '<autoFilter ref="A1:A7"/>'],
    [
      'a filter that only hides its button',
      '<autoFilter ref="A1:A7"><filterColumn colId="0" hiddenButton="1"/></autoFilter>',
    ],
    [
      "a filter of somebody's view",
      `<customSheetViews><customSheetView guid="{00000000-0000-0000-0000-000000000001}"><autoFilter ref="A1:A7">${CONDITION}</autoFilter></customSheetView></customSheetViews>`,
    ],
  ])('no row that was hidden by hand, with %s', async (_, after) => {
    expect(await totals(after)).toEqual([21, 14, 21, 6]);
  });

  it('rows that the filter of a table has hidden', async () => {
    const table = `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="T" displayName="T" ref="A1:A7"><autoFilter ref="A1:A7">${CONDITION}</autoFilter><tableColumns count="1"><tableColumn id="1" name="Units"/></tableColumns></table>`;
    const relation = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${TABLES}" Target="../tables/table1.xml"/></Relationships>`;
    const found = await totals('<tableParts count="1"><tablePart r:id="rId1"/></tableParts>', {
      'xl/tables/table1.xml': {
        type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml',
        text: table,
      },
      'xl/worksheets/_rels/sheet1.xml.rels': { text: relation },
    });
    expect(found).toEqual([14, 14, 21, 4]);
  });
});
