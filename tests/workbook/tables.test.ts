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
    expect(withRanges(formula, tables, 3)).toBe(ranges);
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
