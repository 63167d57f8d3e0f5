import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { partText, readParts, textPart, writeParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { attributes, startTags } from '../../src/workbook/xml.ts';
import { bareParts } from '../workbook/bare.ts';
import { type SheetPage, type SheetTests, startSheetTests } from './sheet-page.ts';

const NAMES = ['Item', 'Column1', 'Sum'];
const text = (spot: string, value: string) => `<c r="${spot}" t="inlineStr"><is><t>${value}</t></is></c>`;

/** A table in B2:D3, one of whose columns has the first name that a new one would get; H1 counts its header. */
function file(): Uint8Array {
  const header = NAMES.map((name, at) => text(`${'BCD'[at]}2`, name)).join('');
  const columns = NAMES.map((name, at) => `<tableColumn id="${at + 1}" name="${name}"/>`).join('');
  const parts = bareParts({
    sheets: [
      {
        name: 'T',
        rows:
          '<row r="1"><c r="H1"><f>COUNTA(A2:G2)</f><v>3</v></c></row>' +
          `<row r="2">${header}</row><row r="3">${text('B3', 'x')}<c r="C3"><v>2</v></c><c r="D3"><v>4</v></c></row>`,
        after: '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
      },
    ],
    parts: {
      'xl/tables/table1.xml': {
        type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml',
        text:
          '<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="1" name="Sales" displayName="Sales" ref="B2:D3">' +
          `<autoFilter ref="B2:D3"/><tableColumns count="3">${columns}</tableColumns></table>`,
      },
    },
  });
  const type = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/table';
  const relations = `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${type}" Target="../tables/table1.xml"/></Relationships>`;
  return writeParts(parts.set('xl/worksheets/_rels/sheet1.xml.rels', textPart(relations)));
}

describe('columns that are put into a table', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'narrows-columns-'));
  let tests: SheetTests;
  let sheet: SheetPage;
  beforeAll(async () => {
    const book = path.join(folder, 'table.xlsx');
    writeFileSync(book, file());
    tests = await startSheetTests(book);
    sheet = await tests.open();
  });
  afterAll(async () => {
    await tests?.close();
    rmSync(folder, { recursive: true });
  });

  const header = () => sheet.values(['B', 'C', 'D', 'E', 'F'].map((column) => `T!${column}2`));
  const press = async (keys: string): Promise<void> => {
    await sheet.page.keyboard.press(keys);
    await sheet.page.waitForTimeout(500);
  };

  it('have a name that is free at once, which formulas count, and one undo takes back both', async () => {
    await sheet.menu('T!D3', 'Insert', /cols left/);
    await expect.poll(header).toEqual(['Item', 'Column1', 'Column2', 'Sum', null]);
    await expect.poll(() => sheet.value('T!I1')).toBe(4);
    await press('Control+z');
    await expect.poll(header).toEqual(['Item', 'Column1', 'Sum', null, null]);
    await expect.poll(() => sheet.value('T!H1')).toBe(3);
    await press('Control+y');
    await expect.poll(header).toEqual(['Item', 'Column1', 'Column2', 'Sum', null]);
  });

  it('follow the table when it has moved, and stay without a name in front of it', async () => {
    await sheet.menu('T!B3', 'Insert', /cols left/);
    await sheet.menu('T!A1', 'Insert', /rows above/);
    await sheet.menu('T!F4', 'Insert', /cols left/);
    const row = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H'].map((column) => `T!${column}3`);
    await expect
      .poll(() => sheet.values(row))
      .toEqual([null, null, 'Item', 'Column1', 'Column2', 'Column3', 'Sum', null]);
  });

  it('have the same names in the saved file', async () => {
    const download = sheet.page.waitForEvent('download');
    await sheet.page.getByRole('button', { name: 'Save as .xlsx' }).click();
    const bytes = readFileSync(await (await download).path());
    const xml = partText(readParts(bytes), 'xl/tables/table1.xml') ?? '';
    const names = startTags(xml, 'tableColumn').map((tag) => attributes(tag).get('name'));
    expect(names).toEqual(['Item', 'Column1', 'Column2', 'Column3', 'Sum']);
    const { snapshot } = await readWorkbook(bytes);
    const cells = snapshot.sheets[snapshot.sheetOrder[0] ?? '']?.cellData?.[2];
    expect([2, 3, 4, 5, 6].map((column) => cells?.[column]?.v)).toEqual(names);
    expect(sheet.trouble).toEqual([]);
  });
});
