import { describe, expect, it } from 'vitest';
import { partText, readParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { namedTables, withRanges } from '../../src/workbook/tables.ts';
import { writeWorkbook } from '../../src/workbook/write.ts';
import { bareFile } from './bare.ts';

/** A table in B2:D6 of Units: headers in row 2, three rows, totals in row 6. */
const tables = namedTables([
  {
    name: 'All units',
    tables: [
      {
        name: 'Units',
        range: 'B2:D6',
        columns: [{ name: 'Unit' }, { name: 'Volume (L)' }, { name: 'Rig #1' }],
        showTotalRow: true,
      },
    ],
  },
]);

describe('references to a table', () => {
  it.each([
    ['=SUM(Units[Volume (L)])', "=SUM('All units'!$C$3:$C$5)"],
    ['=NARROWS.EVAC.PROJECT(Units[#All],Parts)', "=NARROWS.EVAC.PROJECT('All units'!$B$2:$D$6,Parts)"],
    ['=ROWS(Units)+ROWS(Units[])', "=ROWS('All units'!$B$3:$D$5)+ROWS('All units'!$B$3:$D$5)"],
    ['=Units[[#This Row],[Volume (L)]]*2', "='All units'!$C$4*2"],
    ['=Units[@[Volume (L)]]+Units[@Unit]', "='All units'!$C$4+'All units'!$B$4"],
    ['=Units[[#Headers],[Unit]:[Volume (L)]]', "='All units'!$B$2:$C$2"],
    ['=Units[[#Headers],[#Data],[Unit]]', "='All units'!$B$2:$B$5"],
    ["=Units[Rig '#1]", "='All units'!$D$3:$D$5"],
    ['=Units[[#Totals],[Volume (L)]]', "='All units'!$C$6"],
    ['=Units[No such column]', '=Units[No such column]'],
    ['="Units[Unit]"&Units!A1&Units(1)', '="Units[Unit]"&Units!A1&Units(1)'],
  ])('%s in row 4 is worked out as %s', (formula, ranges) => {
    expect(withRanges(formula, tables, { sheet: 'Elsewhere', row: 3, column: 0 })).toBe(ranges);
  });
});

describe('a column without the name of its table', () => {
  const inTable = { sheet: 'All units', row: 5, column: 2 };
  it('is of the table that the formula stands in', () => {
    // totals are written so (ISO/IEC 29500-1 §18.5.1.2)
    expect(withRanges('=SUBTOTAL(109,[Volume (L)])', tables, inTable)).toBe("=SUBTOTAL(109,'All units'!$C$3:$C$5)");
    expect(withRanges('=[@Unit]&[[#This Row],[Unit]]', tables, { ...inTable, row: 3 })).toBe(
      "='All units'!$B$4&'All units'!$B$4",
    );
  });

  it('is left as it is outside of any table, and on another sheet', () => {
    for (const place of [
      { ...inTable, column: 4 },
      { ...inTable, row: 6 },
      { ...inTable, sheet: 'Elsewhere' },
    ])
      expect(withRanges('=SUM([Unit])', tables, place)).toBe('=SUM([Unit])');
  });
});

describe('a table without a header row', () => {
  it('has its first row among its data, and no headers', async () => {
    const table =
      '<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="NH" displayName="NH" ref="A1:A3" headerRowCount="0"><tableColumns count="1"><tableColumn id="1" name="Column1"/></tableColumns></table>';
    const book = await readWorkbook(
      bareFile({
        sheets: [
          {
            name: 'S',
            rows: '<row r="1"><c r="A1"><v>1</v></c><c r="C1"><f>SUM(NH[Column1])+ROWS(NH[#All])</f></c><c r="D1"><f>SUM(NH[#Headers])</f></c></row><row r="2"><c r="A2"><v>3</v></c></row><row r="3"><c r="A3"><v>5</v></c></row>',
            after: '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
          },
        ],
        parts: {
          'xl/tables/table1.xml': {
            type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml',
            text: table,
          },
          'xl/worksheets/_rels/sheet1.xml.rels': {
            text: '<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/table" Target="../tables/table1.xml"/></Relationships>',
          },
        },
      }),
    );
    const cells = book.snapshot.sheets['sheet-1']?.cellData?.[0];
    expect(cells?.[2]?.f).toBe('=SUM(S!$A$1:$A$3)+ROWS(S!$A$1:$A$3)');
    expect(cells?.[3]?.f).toBe('=SUM(NH[#Headers])');
  });
});

describe('a formula that refers to another workbook', () => {
  it('keeps its stored value, and its text in the file', async () => {
    const file = bareFile({
      parts: { 'xl/externalLinks/externalLink1.xml': { text: '<externalLink/>' } },
      sheets: [
        {
          name: 'A',
          rows: `<row r="1"><c r="A1"><f>[1]Rates!B2*2</f><v>84</v></c><c r="B1"><f>'[1]Pipe runs'!A1</f><v>5</v></c><c r="C1"><f>A1+1</f><v>0</v></c></row>`,
        },
      ],
    });
    const book = await readWorkbook(file);
    const cells = book.snapshot.sheets['sheet-1']?.cellData ?? {};
    expect(cells[0]).toMatchObject({ 0: { v: 84, t: 2 }, 1: { v: 5, t: 2 }, 2: { f: '=A1+1' } });
    expect(cells[0]?.[0]?.f).toBeUndefined();
    const written = writeWorkbook(book, { snapshot: structuredClone(book.snapshot), spills: [] });
    const xml = partText(readParts(written), 'xl/worksheets/sheet1.xml');
    expect(xml).toContain('<f>[1]Rates!B2*2</f><v>84</v>');
    expect(xml).toContain("<f>'[1]Pipe runs'!A1</f><v>5</v>");
  });
});
