import { describe, expect, it } from 'vitest';
import { lossesOf, lossesOfUnknown } from '../../src/workbook/losses.ts';
import { partText, readParts, textPart, writeParts } from '../../src/workbook/package.ts';
import { type Book, readWorkbook } from '../../src/workbook/read.ts';
import type { Results, SpilledRange } from '../../src/workbook/results.ts';
import { savedName } from '../../src/workbook/saved-name.ts';
import { type WriteOptions, writeWorkbook } from '../../src/workbook/write.ts';
import { bareFile, bareParts } from './bare.ts';

type Value = number | string | boolean;

/** Results as a calculation gives them: values by address of the first sheet, and what spills. */
function results(book: Book, values: Readonly<Record<string, Value>>, spills: readonly SpilledRange[] = []): Results {
  const snapshot = structuredClone(book.snapshot);
  const cells = snapshot.sheets['sheet-1']?.cellData ?? {};
  for (const [address, value] of Object.entries(values)) {
    const column = address.charCodeAt(0) - 65;
    const row = Number(address.slice(1)) - 1;
    const cell = cells[row]?.[column];
    const type = typeof value === 'number' ? 2 : typeof value === 'boolean' ? 3 : 1;
    if (cell !== undefined) Object.assign(cell, { v: typeof value === 'boolean' ? Number(value) : value, t: type });
  }
  return { snapshot, spills };
}

const sheetXml = (bytes: Uint8Array, sheet = 1): string =>
  partText(readParts(bytes), `xl/worksheets/sheet${sheet}.xml`) ?? '';

async function written(
  rows: string,
  values: Readonly<Record<string, Value>>,
  spills: readonly SpilledRange[] = [],
  options: WriteOptions = {},
) {
  const book = await readWorkbook(bareFile({ sheets: [{ name: 'Units', rows }] }));
  const bytes = writeWorkbook(book, results(book, values, spills), options);
  return { book, bytes, xml: sheetXml(bytes), again: await readWorkbook(bytes) };
}

const spill = (address: readonly [number, number, number, number], cells: SpilledRange['cells']): SpilledRange => ({
  sheet: 'Units',
  range: { startRow: address[0], startColumn: address[1], endRow: address[2], endColumn: address[3] },
  cells,
});

describe('values stored beside formulas', () => {
  it('are numbers, text, truth values and errors, each as its own type', async () => {
    const { xml } = await written(
      '<row r="1"><c r="A1"><f>B1</f></c><c r="B1" s="3"><f>A1</f><v>old</v></c><c r="C1" t="str"><f>D1</f><v>x</v></c><c r="D1"><f>C1</f></c></row>',
      { A1: 1.5, B1: 'a < b & "c" ', C1: true, D1: '#N/A' },
    );
    expect(xml).toContain('<c r="A1"><f>B1</f><v>1.5</v></c>');
    expect(xml).toContain(
      '<c r="B1" s="3" t="str"><f>A1</f><v xml:space="preserve">a &lt; b &amp; &quot;c&quot; </v></c>',
    );
    expect(xml).toContain('<c r="C1" t="b"><f>D1</f><v>1</v></c>');
    expect(xml).toContain('<c r="D1" t="e"><f>C1</f><v>#N/A</v></c>');
  });

  it('of a formula that works on arrays are marked as one, though they are one cell', async () => {
    const book = await readWorkbook(
      bareFile({ sheets: [{ name: 'Units', rows: '<row r="1"><c r="A1"><f>SUM(B1:B8*2)</f><v>1</v></c></row>' }] }),
    );
    const now = results(book, { A1: 7 });
    const line = now.snapshot.sheets['sheet-1']?.cellData?.[0] ?? {};
    Object.assign(line, { 3: { f: '=SUM(B1:B8*C1:C8)', v: 240, t: 2 }, 4: { f: '=SUM(B1:B8)', v: 3, t: 2 } });
    const xml = sheetXml(writeWorkbook(book, now));
    // one that the file has as a plain formula stays what it is there
    expect(xml).toContain('<c r="A1"><f>SUM(B1:B8*2)</f><v>7</v></c>');
    expect(xml).toContain('<c r="D1" cm="1"><f t="array" ref="D1">SUM(B1:B8*C1:C8)</f><v>240</v></c>');
    expect(xml).toContain('<c r="E1"><f>SUM(B1:B8)</f><v>3</v></c>');
  });

  it('leave every other byte of the sheet as it is', async () => {
    const rows =
      '<row r="2" spans="1:3" ht="20" customHeight="1"><c r="A2" s="7" t="s"><v>0</v></c><c r="C2" vm="1"><v>3.10</v></c></row><row r="9" hidden="1"/>';
    const file = bareFile({
      strings: ['x'],
      sheets: [
        {
          name: 'Units',
          rows: `${rows}<row r="10"><c r="B10"><f>C2</f><v>0</v></c></row>`,
          before: '<sheetPr codeName="S1"/><dimension ref="A2:C10"/>',
          after: '<conditionalFormatting sqref="A1"><cfRule type="aboveAverage" priority="1"/></conditionalFormatting>',
        },
      ],
    });
    const book = await readWorkbook(file);
    const xml = sheetXml(writeWorkbook(book, results(book, { B10: 3.1 })));
    const before = sheetXml(file);
    expect(xml).toBe(before.replace('<f>C2</f><v>0</v>', '<f>C2</f><v>3.1</v>'));
  });

  it('are the text of a link that a formula gives', async () => {
    const book = await readWorkbook(
      bareFile({ sheets: [{ name: 'H', rows: '<row r="1"><c r="A1"><f>HYPERLINK("#H!B2","go")</f></c></row>' }] }),
    );
    const { snapshot, spills } = results(book, {});
    // what the page keeps of it: a document, and no value
    const p = { id: 'd', documentStyle: {}, body: { dataStream: 'go\r\n' } };
    Object.assign(snapshot.sheets['sheet-1']?.cellData?.[0]?.[0] ?? {}, { v: undefined, p });
    const xml = sheetXml(writeWorkbook(book, { snapshot, spills }));
    expect(xml).toContain('<c r="A1" t="str"><f>HYPERLINK("#H!B2","go")</f><v>go</v></c>');
  });

  it('a number that is none is never written as one', async () => {
    const { xml } = await written('<row r="1"><c r="A1"><f>B1</f></c></row>', { A1: Number.NaN });
    expect(xml).toContain('<c r="A1" t="e"><f>B1</f><v>#NUM!</v></c>');
  });

  it('are the same bytes each time', async () => {
    const rows = '<row r="1"><c r="A1"><f>B1</f></c></row>';
    const one = await written(rows, { A1: 2 });
    const two = await written(rows, { A1: 2 });
    expect(one.bytes).toEqual(two.bytes);
  });
});

describe('a formula that spills', () => {
  const rows =
    '<row r="2"><c r="B2"><f>_xldudf_NARROWS_EVAC.CURVE(A1,A2,A3)</f></c><c r="E2"><v>5</v></c></row><row r="3"><c r="A3" s="2"><v>1</v></c></row>';
  const table = spill(
    [1, 1, 4, 2],
    [
      ['Minutes', 'Pressure'],
      [0, 101325],
      [1.5, null],
      [true, { error: '#N/A' }],
    ],
  );

  it('is stored as a dynamic array over its range, its values in their cells', async () => {
    const { bytes, xml, again } = await written(rows, { B2: 'Minutes' }, [table]);
    expect(xml).toContain(
      '<c r="B2" t="str" cm="1"><f t="array" ref="B2:C5">_xldudf_NARROWS_EVAC.CURVE(A1,A2,A3)</f><v>Minutes</v></c><c r="C2" t="str"><v>Pressure</v></c><c r="E2"><v>5</v></c>',
    );
    expect(xml).toContain(
      '<row r="3"><c r="A3" s="2"><v>1</v></c><c r="B3"><v>0</v></c><c r="C3"><v>101325</v></c></row>',
    );
    expect(xml).toContain('<row r="5"><c r="B5" t="b"><v>1</v></c><c r="C5" t="e"><v>#N/A</v></c></row>');
    const parts = readParts(bytes);
    expect(partText(parts, 'xl/metadata.xml')).toContain('fDynamic="1"');
    expect(partText(parts, '[Content_Types].xml')).toContain('/xl/metadata.xml');
    expect(partText(parts, 'xl/_rels/workbook.xml.rels')).toContain('metadata.xml');
    expect(again.sheets[0]?.filled).toMatchObject([
      { row: 1, column: 1, dynamic: true, block: { startRow: 1, startColumn: 1, endRow: 4, endColumn: 2 } },
    ]);
    expect(again.snapshot.sheets['sheet-1']?.cellData).toEqual(
      (await written(rows, { B2: 'Minutes' })).again.snapshot.sheets['sheet-1']?.cellData,
    );
  });

  it('keeps its text to the letter, tables that it names included', async () => {
    const file = bareFile({
      sheets: [
        {
          name: 'Units',
          rows: '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1">SORTED( Kit[#All] , "a&amp;b" )</f><v>1</v></c></row>',
        },
      ],
    });
    const book = await readWorkbook(file);
    const xml = sheetXml(writeWorkbook(book, results(book, { A1: 1 }, [spill([0, 0, 1, 0], [[1], [2]])])));
    expect(xml).toMatch(/<f t="array" ref="A1:A2">SORTED\( Kit\[#All\] , "a&amp;b" \)<\/f>/);
  });

  it('that shrinks leaves nothing of the larger one', async () => {
    const { again } = await written(rows, { B2: 'Minutes' }, [table]);
    const smaller = spill([1, 1, 2, 1], [['Minutes'], [0]]);
    const xml = sheetXml(writeWorkbook(again, results(again, { B2: 'Minutes' }, [smaller])));
    expect(xml).toContain('ref="B2:B3"');
    expect(xml).not.toMatch(/r="(C2|C3|B4|B5|C5)"/);
  });

  it('filled again with the same values gives the same file', async () => {
    const { bytes, again } = await written(rows, { B2: 'Minutes' }, [table]);
    expect(writeWorkbook(again, results(again, { B2: 'Minutes' }, [table]))).toEqual(bytes);
  });

  it('of the older kind keeps its range and has #N/A where its result ends', async () => {
    const { xml } = await written(
      '<row r="1"><c r="A1"><f t="array" ref="A1:A3">ROW(B1:B2)</f><v>0</v></c></row><row r="2"><c r="A2"><v>0</v></c></row><row r="3"><c r="A3"><v>0</v></c></row>',
      { A1: 1 },
      [spill([0, 0, 1, 0], [[1], [2]])],
    );
    expect(xml).toContain('<f t="array" ref="A1:A3">ROW(B1:B2)</f><v>1</v>');
    expect(xml).not.toContain(' cm=');
    expect(xml).toContain('<c r="A2"><v>2</v></c>');
    expect(xml).toContain('<c r="A3" t="e"><v>#N/A</v></c>');
  });
});

describe('a copy with values only', () => {
  const rows =
    '<row r="1"><c r="A1"><f>_xldudf_NARROWS_TUBE.BORE("3/8 in")</f></c><c r="B1"><f>A1*2</f></c><c r="C1"><f>SUM(_xlfn.ANCHORARRAY(A3))</f></c><c r="D1"><f>Bore+1</f></c></row>' +
    '<row r="3"><c r="A3" s="1"><f>_xldudf_NARROWS_RUN.TABLE(Z1:Z9)</f></c></row>' +
    '<row r="8"><c r="A8"><f t="array" ref="A8:A9">_xlfn._xlws.SORT(B1:B2)</f></c><c r="C8"><f t="shared" ref="C8:C9" si="0">_xldudf_NARROWS_TUBE.BORE(Z8)</f></c></row>' +
    '<row r="9"><c r="C9"><f t="shared" si="0"/></c></row>';

  it('holds no formula that another program would have to give up on', async () => {
    const file = bareFile({
      names: '<definedName name="Bore">_xldudf_NARROWS_TUBE.BORE("1/2 in")</definedName>',
      sheets: [{ name: 'Units', rows }],
    });
    const book = await readWorkbook(file);
    const values = { A1: 8, B1: 16, C1: 3, D1: 12, A3: 'Unit', A8: 1, C8: 5, C9: 6 };
    const spills = [spill([2, 0, 3, 0], [['Unit'], ['A']]), spill([7, 0, 8, 0], [[1], [2]])];
    const xml = sheetXml(writeWorkbook(book, results(book, values, spills), { valuesOnly: true }));
    expect(xml.match(/<f[\s>]/g)).toHaveLength(1);
    expect(xml).toContain('<c r="B1"><f>A1*2</f><v>16</v></c>');
    expect(xml).toContain('<c r="A3" s="1" t="str"><v>Unit</v></c>');
    expect(xml).toContain('<c r="A4" t="str"><v>A</v></c>');
    expect(xml).toContain('<c r="C9"><v>6</v></c>');
  });

  it('otherwise every formula stays', async () => {
    const { xml } = await written(rows, { A1: 8 });
    expect(xml.match(/<f[\s>]/g)).toHaveLength(8);
  });
});

describe('a workbook changed in the sheet', () => {
  it('takes new entries and formulas, and drops cleared ones', async () => {
    const book = await readWorkbook(
      bareFile({
        sheets: [
          {
            name: 'Units',
            rows: '<row r="1"><c r="A1" s="4"><v>1</v></c><c r="B1"><f>A1</f><v>1</v></c><c r="C1"><v>9</v></c></row>',
          },
        ],
      }),
    );
    const changed = results(book, {});
    const cells = changed.snapshot.sheets['sheet-1']?.cellData ?? {};
    cells[0] = { 0: { v: 2, t: 2 }, 1: { f: '=LET(x,A1,x*NARROWS.TUBE.BORE("1/4 in"))', v: 4, t: 2 } };
    cells[4] = { 0: { v: 'new', t: 1 } };
    const xml = sheetXml(writeWorkbook(book, changed));
    expect(xml).toContain('<c r="A1" s="4"><v>2</v></c>');
    expect(xml).toContain('<f>_xlfn.LET(_xlpm.x,A1,_xlpm.x*_xldudf_NARROWS_TUBE.BORE(&quot;1/4 in&quot;))</f><v>4</v>');
    expect(xml).not.toContain('r="C1"');
    expect(xml).toContain('<row r="5"><c r="A5" t="str"><v>new</v></c></row>');
  });

  it('cells that shared a formula with a changed one keep theirs', async () => {
    const book = await readWorkbook(
      bareFile({
        sheets: [
          {
            name: 'Units',
            rows:
              '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f t="shared" ref="B1:B2" si="0">A1*2</f><v>2</v></c></row>' +
              '<row r="2"><c r="B2"><f t="shared" si="0"/><v>0</v></c></row>',
          },
        ],
      }),
    );
    const changed = results(book, { B2: 0 });
    const line = changed.snapshot.sheets['sheet-1']?.cellData?.[0];
    if (line !== undefined) line[1] = { v: 5, t: 2 };
    const xml = sheetXml(writeWorkbook(book, changed));
    expect(xml).toContain('<c r="B1"><v>5</v></c>');
    expect(xml).toContain('<c r="B2"><f>A2*2</f><v>0</v></c>');
  });
});

describe('what a copy does not carry over', () => {
  it('is named, and the rest of the package stays', async () => {
    const file = bareFile({
      mainType: 'application/vnd.ms-excel.sheet.macroEnabled.main+xml',
      parts: {
        'xl/vbaProject.bin': {
          relation: 'http://schemas.microsoft.com/office/2006/relationships/vbaProject',
          type: 'application/vnd.ms-office.vbaProject',
          text: 'x',
        },
        'xl/calcChain.xml': { relation: 'calcChain', type: 'application/x-chain', text: '<calcChain/>' },
        'xl/pivotTables/pivotTable1.xml': { text: '<pivotTableDefinition/>' },
        'xl/charts/chart1.xml': { text: '<chartSpace/>' },
      },
      sheets: [
        {
          name: 'Units',
          rows: '<row r="1"><c r="A1"><f>1+1</f></c><c r="B1"><f t="dataTable" ref="B1:B2" dt2D="0" dtr="0" r1="A1"/><v>4</v></c></row>',
        },
      ],
    });
    const book = await readWorkbook(file);
    expect(lossesOf(book).join(' ')).toMatch(/Macros.*Pivot.*data tables/);
    const parts = readParts(writeWorkbook(book, results(book, { A1: 2 })));
    expect(parts.has('xl/vbaProject.bin')).toBe(false);
    expect(parts.has('xl/calcChain.xml')).toBe(false);
    expect(partText(parts, 'xl/_rels/workbook.xml.rels')).not.toMatch(/vbaProject|calcChain/);
    expect(partText(parts, '[Content_Types].xml')).not.toMatch(/vbaProject|calcChain|macroEnabled/);
    expect(parts.has('xl/charts/chart1.xml')).toBe(true);
    expect(parts.has('xl/pivotTables/pivotTable1.xml')).toBe(true);
    expect(partText(parts, 'xl/worksheets/sheet1.xml')).toContain('t="dataTable"');
  });

  it('leaves no mention of macros, however it leads to them', async () => {
    const type = 'http://schemas.microsoft.com/office/2006/relationships/vbaProject';
    const all = bareParts({
      sheets: [{ name: 'A', rows: '' }],
      parts: { 'xl/vbaProject.bin': { relation: type, text: 'x' } },
    });
    const relations = partText(all, 'xl/_rels/workbook.xml.rels') ?? '';
    all.set('xl/_rels/workbook.xml.rels', textPart(relations.replace('"/xl/vbaProject.bin"', '"vbaProject.bin"')));
    const book = await readWorkbook(writeParts(all));
    const parts = readParts(writeWorkbook(book, results(book, {})));
    expect(partText(parts, 'xl/_rels/workbook.xml.rels')).not.toContain('vbaProject');
  });

  it.each(['vnd.ms-excel.sheet.macroEnabled', 'vnd.openxmlformats-officedocument.spreadsheetml.template'])(
    'a file of the kind %s becomes a plain workbook, as its new name says',
    async (kind) => {
      const file = bareFile({ mainType: `application/${kind}.main+xml`, sheets: [{ name: 'A', rows: '' }] });
      const book = await readWorkbook(file);
      const types = partText(readParts(writeWorkbook(book, results(book, {}))), '[Content_Types].xml');
      expect(types).toContain(
        'ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"',
      );
    },
  );

  it.each([
    ['plan.xlsx', 'plan.xlsx'],
    ['PLAN.XLSX', 'PLAN.XLSX'],
    ['plan.xlsm', 'plan.xlsx'],
    ['plan.xltx', 'plan.xlsx'],
    ['plan.txt', 'plan.xlsx'],
    ['plan 1.2', 'plan 1.2.xlsx'],
    ['plan', 'plan.xlsx'],
  ])('%s is saved as %s', (name, saved) => {
    expect(savedName(name)).toBe(saved);
  });

  it('is nothing for a plain workbook', async () => {
    const book = await readWorkbook(bareFile({ sheets: [{ name: 'A', rows: '' }] }));
    expect(lossesOf(book)).toEqual([]);
  });
});

describe('what is told before a file is written', () => {
  it('says that days count from another year', async () => {
    const sheets = [{ name: 'Units', rows: '<row r="1"><c r="A1"><v>1</v></c></row>' }];
    expect(lossesOf(await readWorkbook(bareFile({ sheets, date1904: true })))).toEqual([
      expect.stringMatching(/days from 1904.* four years and a day off/),
    ]);
    expect(lossesOf(await readWorkbook(bareFile({ sheets })))).toEqual([]);
  });

  it('names formulas whose functions are not known, where the file has values for them', async () => {
    const book = await readWorkbook(
      bareFile({
        sheets: [
          {
            name: 'My units',
            rows:
              '<row r="1"><c r="A1"><f>_xll.OTHER(1)</f><v>42</v></c><c r="B1"><f>A1+1</f><v>43</v></c>' +
              '<c r="C1" t="e"><f>NONE()</f><v>#NAME?</v></c><c r="D1"><f>GETPIVOTDATA("x",A9)</f><v>9</v></c></row>',
          },
        ],
      }),
    );
    const known = results(book, { A1: 42, B1: 43, C1: '#NAME?', D1: 9 });
    expect(lossesOfUnknown(book, known.snapshot)).toEqual([]);
    const unknown = results(book, { A1: '#NAME?', B1: '#VALUE!', C1: '#NAME?', D1: '#NAME?' });
    expect(lossesOfUnknown(book, unknown.snapshot)).toEqual([
      "Functions in 'My units'!A1 and 1 more are not known here: #NAME? takes the place of what the file has there.",
    ]);
  });
});
