import { describe, expect, it } from 'vitest';
import { lossesOfSave } from '../../src/hosts/sheet/save/losses.ts';
import { rebuild } from '../../src/hosts/sheet/save/rebuild.ts';
import type { SheetEdit } from '../../src/workbook/edits.ts';
import { type Parts, partText, readParts, textPart, writeParts } from '../../src/workbook/package.ts';
import { type Book, readWorkbook } from '../../src/workbook/read.ts';
import { tableFormulas } from '../../src/workbook/table-formulas.ts';
import { writeWorkbook } from '../../src/workbook/write.ts';
import { attributes, startTags } from '../../src/workbook/xml.ts';
import { bareParts } from './bare.ts';

/** A table in B2:D4 of T (Item, Qty, Sum, the last with a formula), and formulas over it on U. */

const MAIN = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const NAMES = ['Item', 'Qty', 'Sum'];
const PER_ROW = 'Sales[[#This Row],[Qty]]*2';

const text = (spot: string, value: string) => `<c r="${spot}" t="inlineStr"><is><t>${value}</t></is></c>`;

function sales(more = '', headerRow = true): Parts {
  const column = (name: string, at: number): string => {
    const inside =
      name === 'Sum' ? `><calculatedColumnFormula>${PER_ROW}</calculatedColumnFormula></tableColumn>` : '/>';
    return `<tableColumn id="${at + 1}" name="${name}"${inside}`;
  };
  const line = (row: number) =>
    `<row r="${row}">${text(`B${row}`, 'x')}<c r="C${row}"><v>${row}</v></c><c r="D${row}"><f>${PER_ROW}</f><v>${2 * row}</v></c></row>`;
  const header = `<row r="2">${NAMES.map((name, at) => text(`${'BCD'[at]}2`, name)).join('')}</row>`;
  const all = bareParts({
    sheets: [
      {
        name: 'T',
        rows: `${headerRow ? header : line(2)}${line(3)}${line(4)}`,
        after: '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
      },
      {
        name: 'U',
        rows: '<row r="1"><c r="A1"><f>SUM(Sales[Qty])</f><v>7</v></c><c r="B1"><f>ROWS(Sales)</f><v>2</v></c></row>',
      },
    ],
    parts: {
      'xl/tables/table1.xml': {
        type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml',
        text:
          `<table xmlns="${MAIN}" id="1" name="Sales" displayName="Sales" ref="B2:D4"${more}>` +
          `${headerRow ? '<autoFilter ref="B2:D4"/>' : ''}<tableColumns count="3">${NAMES.map(column).join('')}</tableColumns>` +
          '<tableStyleInfo name="TableStyleMedium9" showFirstColumn="1" showRowStripes="0"/></table>',
      },
    },
  });
  const relation = `<Relationship Id="rId1" Type="${OFFICE}/table" Target="../tables/table1.xml"/>`;
  const space = 'http://schemas.openxmlformats.org/package/2006/relationships';
  return all.set(
    'xl/worksheets/_rels/sheet1.xml.rels',
    textPart(`<Relationships xmlns="${space}">${relation}</Relationships>`),
  );
}

const tableOf = (parts: Parts): string => partText(parts, 'xl/tables/table1.xml') ?? '';
const refOf = (xml: string) => attributes(startTags(xml, 'table')[0] ?? '').get('ref');
const namesOf = (xml: string) => startTags(xml, 'tableColumn').map((tag) => attributes(tag).get('name'));

/** Cells of T with some changed, by their addresses; undefined takes one out. */
function changed({ snapshot }: Book, cells: Readonly<Record<string, string | number | undefined>>): Book['snapshot'] {
  const now = structuredClone(snapshot);
  const [id = ''] = now.sheetOrder;
  for (const [spot, value] of Object.entries(cells)) {
    const [row, column] = [Number(spot.slice(1)) - 1, spot.charCodeAt(0) - 65];
    const line = now.sheets[id]?.cellData?.[row] ?? {};
    if (value === undefined) delete line[column];
    else line[column] = { v: value, t: typeof value === 'number' ? 2 : 1 };
    Object.assign(now.sheets[id]?.cellData ?? {}, { [row]: line });
  }
  return now;
}

/** The texts of the header cells in the file, which have to be the names of the columns. */
async function headersOf(bytes: Uint8Array, row: number, columns: readonly number[]): Promise<unknown[]> {
  const { snapshot } = await readWorkbook(bytes);
  const cells = snapshot.sheets[snapshot.sheetOrder[0] ?? '']?.cellData?.[row];
  return columns.map((column) => cells?.[column]?.v);
}

const column = (kind: 'insert' | 'remove', at: number, count = 1): SheetEdit => ({
  kind,
  sheet: 'T',
  axis: 'column',
  at,
  count,
});

describe('a table of a file that is made anew', () => {
  it('loses a column that is taken out, and the formulas that name it', async () => {
    const book = await readWorkbook(writeParts(sales()));
    const snapshot = changed(book, { C2: 'Sum', D2: undefined });
    const bytes = await rebuild(book, snapshot, [column('remove', 2)]);
    const xml = tableOf(readParts(bytes));
    expect(refOf(xml)).toBe('B2:C4');
    expect(namesOf(xml)).toEqual(['Item', 'Sum']);
    expect(attributes(startTags(xml, 'tableColumns')[0] ?? '').get('count')).toBe('2');
    expect(startTags(xml, 'autoFilter')[0]).toContain('ref="B2:C4"');
    expect(xml).not.toContain('calculatedColumnFormula');
    expect(xml).toContain('showFirstColumn="1" showRowStripes="0"');
  });

  it('has a new column where one was put in, under a name that its header cell has, too', async () => {
    const book = await readWorkbook(writeParts(sales()));
    const snapshot = changed(book, { D2: undefined, E2: 'Sum' });
    const bytes = await rebuild(book, snapshot, [column('insert', 3)]);
    const xml = tableOf(readParts(bytes));
    expect(refOf(xml)).toBe('B2:E4');
    expect(namesOf(xml)).toEqual(['Item', 'Qty', 'Column1', 'Sum']);
    const ids = startTags(xml, 'tableColumn').map((tag) => attributes(tag).get('id'));
    expect(new Set(ids).size).toBe(4);
    expect(xml).toContain(`<calculatedColumnFormula>${PER_ROW}</calculatedColumnFormula>`);
    expect(await headersOf(bytes, 1, [1, 2, 3, 4])).toEqual(['Item', 'Qty', 'Column1', 'Sum']);
  });

  it('stays one without a header row', async () => {
    const book = await readWorkbook(writeParts(sales(' headerRowCount="0"', false)));
    // all three rows are data
    expect(book.snapshot.sheets['sheet-2']?.cellData?.[0]?.[0]?.f).toBe('=SUM(T!$C$2:$C$4)');
    const bytes = await rebuild(book, book.snapshot, []);
    const xml = tableOf(readParts(bytes));
    expect(startTags(xml, 'table')[0]).toContain('headerRowCount="0"');
    expect(namesOf(xml)).toEqual(NAMES);
    expect(xml).not.toContain('<autoFilter');
    expect(await headersOf(bytes, 1, [1, 2])).toEqual(['x', 2]);
  });

  it('has no header row when that row was taken out', async () => {
    const book = await readWorkbook(writeParts(sales()));
    const edits: SheetEdit[] = [{ kind: 'remove', sheet: 'T', axis: 'row', at: 1, count: 1 }];
    const xml = tableOf(readParts(await rebuild(book, book.snapshot, edits)));
    expect(startTags(xml, 'table')[0]).toContain('headerRowCount="0"');
    expect(refOf(xml)).toBe('B2:D3');
  });

  it('is left out when no row of its data is left, which is told', async () => {
    const book = await readWorkbook(writeParts(sales()));
    const edits: SheetEdit[] = [{ kind: 'remove', sheet: 'T', axis: 'row', at: 2, count: 2 }];
    expect(lossesOfSave(book, true, edits, new Set())).toEqual([
      'On T, the table Sales is left out, since no row for its data is left.',
    ]);
    const parts = readParts(await rebuild(book, book.snapshot, edits));
    expect([...parts.keys()].some((part) => part.startsWith('xl/tables/'))).toBe(false);
  });

  it('has its columns in their new order, and is left out when its header is dragged away, which is told', async () => {
    const book = await readWorkbook(writeParts(sales()));
    const across: SheetEdit = { kind: 'move', sheet: 'T', axis: 'column', at: 1, count: 1, to: 3 };
    const snapshot = changed(book, { B2: NAMES[1], C2: NAMES[0] });
    const xml = tableOf(readParts(await rebuild(book, snapshot, [across])));
    expect(refOf(xml)).toBe('B2:D4');
    expect(namesOf(xml)).toEqual([NAMES[1], NAMES[0], NAMES[2]]);
    const down: SheetEdit = { kind: 'move', sheet: 'T', axis: 'row', at: 1, count: 1, to: 3 };
    expect(lossesOfSave(book, true, [down], new Set())).toEqual([
      'On T, the table Sales is left out, since its header or its totals left their place.',
    ]);
    const parts = readParts(await rebuild(book, book.snapshot, [down]));
    expect([...parts.keys()].some((part) => part.startsWith('xl/tables/'))).toBe(false);
  });

  it('keeps the formulas that refer to it, as long as they mean the same ranges', async () => {
    const book = await readWorkbook(writeParts(sales()));
    const edits: SheetEdit[] = [{ kind: 'insert', sheet: 'T', axis: 'row', at: 0, count: 2 }];
    const [id = ''] = book.snapshot.sheetOrder;
    const rows = Object.entries(book.snapshot.sheets[id]?.cellData ?? {});
    const cellData = Object.fromEntries(rows.map(([row, cells]) => [Number(row) + 2, cells]));
    const sheets = { ...book.snapshot.sheets, [id]: { ...book.snapshot.sheets[id], cellData } };
    const again = await readWorkbook(await rebuild(book, { ...book.snapshot, sheets }, edits));
    const stored = tableFormulas(book, again, edits);
    expect(stored('U', 0, 0, '=SUM(T!$C$5:$C$6)')).toBe('SUM(Sales[Qty])');
    expect(stored('T', 4, 3, '=T!$C$5*2')).toBe(PER_ROW);
    // the name of the formula's own sheet may be left out
    expect(stored('T', 4, 3, '=$C$5*2')).toBe(PER_ROW);
    expect(stored('U', 0, 1, '=ROWS(T!$B$5:$D$6)')).toBe('ROWS(Sales)');
    // another formula was typed
    expect(stored('U', 0, 0, '=SUM(T!$C$5:$C$5)')).toBeUndefined();
    expect(stored('U', 1, 0, '=SUM(T!$C$5:$C$6)')).toBeUndefined();
  });
});

describe('a header cell of a table that is typed over', () => {
  const saved = async (cells: Readonly<Record<string, string | number | undefined>>) => {
    const book = await readWorkbook(writeParts(sales()));
    const bytes = writeWorkbook(book, { snapshot: changed(book, cells), spills: [] });
    return { bytes, parts: readParts(bytes), before: book.parts };
  };

  it('gives the column its name, in every formula, too', async () => {
    const { parts, bytes } = await saved({ C2: 'No. [#] & more' });
    expect(namesOf(tableOf(parts))).toEqual(['Item', 'No. [#] & more', 'Sum']);
    const named = "Sales[[#This Row],[No. '['#'] &amp; more]]*2";
    expect(tableOf(parts)).toContain(`<calculatedColumnFormula>${named}</calculatedColumnFormula>`);
    expect(partText(parts, 'xl/worksheets/sheet1.xml')).toContain(`<f>${named}</f>`);
    expect(partText(parts, 'xl/worksheets/sheet2.xml')).toContain("<f>SUM(Sales[No. '['#'] &amp; more])</f>");
    expect(await headersOf(bytes, 1, [2])).toEqual(['No. [#] & more']);
  });

  it('holds text that is the name of no other column, and is never blank', async () => {
    const { parts, bytes } = await saved({ B2: undefined, C2: 'Sum', D2: 2024 });
    expect(namesOf(tableOf(parts))).toEqual(['Column1', 'Sum', '2024']);
    expect(await headersOf(bytes, 1, [1, 2, 3])).toEqual(['Column1', 'Sum', '2024']);
    const twice = await saved({ C2: 'sum' });
    expect(namesOf(tableOf(twice.parts))).toEqual(['Item', 'sum2', 'Sum']);
  });

  it('lets two columns change names with each other', async () => {
    const { parts } = await saved({ C2: 'Sum', D2: 'Qty' });
    expect(namesOf(tableOf(parts))).toEqual(['Item', 'Sum', 'Qty']);
    expect(partText(parts, 'xl/worksheets/sheet2.xml')).toContain('<f>SUM(Sales[Sum])</f>');
  });

  it('leaves the table as it is to the byte when it stays', async () => {
    const { parts, before } = await saved({ C3: 9 });
    expect(tableOf(parts)).toBe(tableOf(before));
  });
});
