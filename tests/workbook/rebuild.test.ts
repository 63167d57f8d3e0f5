import { readFileSync } from 'node:fs';
import { writeXlsx } from 'hucre/xlsx';
import { describe, expect, it } from 'vitest';
import { lossesOfLetters, lossesOfSave } from '../../src/hosts/sheet/save/losses.ts';
import { rebuild } from '../../src/hosts/sheet/save/rebuild.ts';
import { blockName } from '../../src/workbook/address.ts';
import type { SheetEdit } from '../../src/workbook/edits.ts';
import { partText, readParts, textPart, writeParts } from '../../src/workbook/package.ts';
import { type Book, readWorkbook } from '../../src/workbook/read.ts';
import { writeWorkbook } from '../../src/workbook/write.ts';
import { attributes, startTags } from '../../src/workbook/xml.ts';
import { bareParts } from './bare.ts';

const TEMPLATE = new Uint8Array(readFileSync('templates/narrows-template.xlsx'));

/** A workbook with what lies beside its cells: a comment, a link, letters of two looks, a list, a filter, a table. */
async function full(): Promise<Book> {
  const cells = new Map([
    ['0,0', { value: 'x', type: 'string' as const, comment: { text: 'why', author: 'me' } }],
    ['1,0', { value: 'to the list', type: 'string' as const, hyperlink: { target: '', location: 'Other!A1' } }],
    [
      '2,0',
      {
        value: 'one two',
        type: 'string' as const,
        richText: [{ text: 'one ' }, { text: 'two', font: { bold: true } }],
      },
    ],
  ]);
  const table = { name: 'Things', range: 'D1:E3', columns: [{ name: 'a' }, { name: 'b' }] };
  const bytes = await writeXlsx({
    sheets: [
      {
        name: 'First',
        rows: [
          ['x', null, null, 'a', 'b'],
          ['to the list', null, null, 1, 2],
          ['one two', null, null, 3, 4],
        ],
        cells,
        dataValidations: [{ type: 'list', values: ['p', 'q'], range: 'B2:B9' }],
        tables: [table],
        pageSetup: { printArea: 'A1:E9', printTitlesRow: '1:2' },
        // pages that end with the second row, the fifth row and the third column
        rowBreaks: [1, 4],
        colBreaks: [2],
      },
      { name: 'Other', rows: [['y', 'z']], autoFilter: { range: 'A1:B5' } },
      { name: 'Third', rows: [[3]] },
    ],
    namedRanges: [{ name: 'local', range: 'Third!$A$1', scope: 'Third' }],
  });
  return readWorkbook(bytes);
}

const names = (book: Book) => book.layout.sheets.map(({ name }) => name);
const partOf = (book: Book, name: string): string =>
  partText(book.parts, book.sheets.find((sheet) => sheet.name === name)?.part ?? '') ?? '';
const has = (book: Book, pattern: RegExp): boolean => [...book.parts.keys()].some((part) => pattern.test(part));

describe('a file made anew', () => {
  it('keeps comments, links, letters of several looks, lists, filters and tables', async () => {
    const book = await full();
    const again = await readWorkbook(await rebuild(book, book.snapshot));
    expect(names(again)).toEqual(['First', 'Other', 'Third']);
    const first = partOf(again, 'First');
    expect(first).toMatch(/hyperlink [^>]*location="Other!A1"/);
    expect(first).toMatch(/<r>.*<b\/>.*two/);
    expect(first).toContain('tablePart');
    expect(first).toContain('sqref="B2:B9"');
    expect(partOf(again, 'Other')).toContain('autoFilter');
    const comments = [...again.parts.keys()].find((part) => /comments\d*\.xml$/.test(part)) ?? '';
    expect(partText(again.parts, comments)).toContain('why');
  });

  it('keeps all of it when its sheets change places, and the names of one sheet stay with it', async () => {
    const book = await full();
    const { sheetOrder } = book.snapshot;
    const again = await readWorkbook(await rebuild(book, { ...book.snapshot, sheetOrder: [...sheetOrder].reverse() }));
    expect(names(again)).toEqual(['Third', 'Other', 'First']);
    expect(partOf(again, 'First')).toContain('tablePart');
    expect(has(again, /comments\d*\.xml$/)).toBe(true);
    expect(partText(again.parts, again.layout.workbook)).toMatch(/name="local" localSheetId="0"/);
    expect(again.snapshot.sheets[again.snapshot.sheetOrder[0] ?? '']?.cellData?.[0]?.[0]?.v).toBe(3);
  });

  it('takes a sheet out, and everything that is only about it', async () => {
    const book = await full();
    const [first = '', other = '', third = ''] = book.snapshot.sheetOrder;
    const { [third]: _, ...sheets } = book.snapshot.sheets;
    const now = { ...book.snapshot, sheetOrder: [other, first], sheets };
    const again = await readWorkbook(await rebuild(book, now));
    expect(names(again)).toEqual(['Other', 'First']);
    const part = book.sheets.find(({ name }) => name === 'Third')?.part ?? '';
    expect(again.parts.has(part)).toBe(false);
    expect(partText(again.parts, '[Content_Types].xml')).not.toContain(part);
    expect(partText(again.parts, again.layout.workbook)).not.toMatch(/localSheetId="2"|"local"/);
  });

  it('has the names of now, their formulas as files write them', async () => {
    const book = await full();
    const name = { id: 'n', name: 'Half', formulaOrRefString: '=NARROWS.SERIES(First!$D$2,2)' };
    const resources = [{ name: 'SHEET_DEFINED_NAME_PLUGIN', data: JSON.stringify({ n: name }) }];
    const again = await readWorkbook(await rebuild(book, { ...book.snapshot, resources }));
    const xml = partText(again.parts, again.layout.workbook) ?? '';
    expect(xml).toMatch(/name="Half"[^>]*>_xldudf_NARROWS_SERIES\(First!\$D\$2,2\)</);
    expect(xml).not.toContain('"local"');
  });

  it('adds a sheet, at the place that it has', async () => {
    const book = await full();
    const [first = '', ...others] = book.snapshot.sheetOrder;
    const sheets = { ...book.snapshot.sheets, fresh: { id: 'fresh', name: 'Fresh', cellData: { 0: { 0: { v: 8 } } } } };
    const now = { ...book.snapshot, sheetOrder: [first, 'fresh', ...others], sheets };
    const again = await readWorkbook(await rebuild(book, now));
    expect(names(again)).toEqual(['First', 'Fresh', 'Other', 'Third']);
    expect(again.snapshot.sheets[again.snapshot.sheetOrder[1] ?? '']?.cellData?.[0]?.[0]?.v).toBe(8);
    expect(partOf(again, 'First')).toContain('tablePart');
  });

  it('brings lists, tables, comments and links along when a row is put in above them', async () => {
    const book = await full();
    const [first = ''] = book.snapshot.sheetOrder;
    const rows = Object.entries(book.snapshot.sheets[first]?.cellData ?? {});
    const cellData = Object.fromEntries(rows.map(([row, cells]) => [Number(row) + 1, cells]));
    const sheets = { ...book.snapshot.sheets, [first]: { ...book.snapshot.sheets[first], cellData } };
    const edits: SheetEdit[] = [{ kind: 'insert', sheet: 'First', axis: 'row', at: 0, count: 1 }];
    const again = await readWorkbook(await rebuild(book, { ...book.snapshot, sheets }, edits));
    const xml = partOf(again, 'First');
    expect(xml).toContain('sqref="B3:B10"');
    expect(xml).toMatch(/hyperlink [^>]*ref="A3"|hyperlink ref="A3"/);
    const table = [...again.parts.keys()].find((part) => /tables\/table\d+\.xml$/.test(part)) ?? '';
    expect(partText(again.parts, table)).toContain('ref="D2:E4"');
    const { print } = again.sheets[0]?.extras ?? {};
    expect(print?.repeat).toEqual({ first: 1, last: 2 });
    expect(print?.areas).toMatchObject([{ startRow: 1, endRow: 9 }]);
    // one row down from where they were, counted from 1 the third and the sixth
    expect([...xml.matchAll(/<brk id="(\d+)"/g)].map(([, at]) => at)).toEqual(['3', '6', '3']);
    expect(lossesOfSave(book, true, edits, new Set())).not.toContainEqual(expect.stringContaining('page breaks'));
    const comments = [...again.parts.keys()].find((part) => /comments\d*\.xml$/.test(part)) ?? '';
    expect(partText(again.parts, comments)).toContain('ref="A2"');
  });

  it('has no page break any more where the row is gone that began the page', async () => {
    const book = await full();
    const edits: SheetEdit[] = [{ kind: 'remove', sheet: 'First', axis: 'row', at: 2, count: 1 }];
    const xml = partOf(await readWorkbook(await rebuild(book, book.snapshot, edits)), 'First');
    expect([...xml.matchAll(/<brk id="(\d+)"/g)].map(([, at]) => at)).toEqual(['4', '3']);
  });

  it('keeps no filter and no table whose cells are all gone', async () => {
    const book = await full();
    const edits: SheetEdit[] = [
      { kind: 'remove', sheet: 'First', axis: 'column', at: 3, count: 2 },
      { kind: 'remove', sheet: 'Other', axis: 'row', at: 0, count: 5 },
    ];
    const again = await readWorkbook(await rebuild(book, book.snapshot, edits));
    expect(partOf(again, 'First')).not.toContain('tablePart');
    expect(has(again, /tables\//)).toBe(false);
    expect(partOf(again, 'Other')).not.toContain('autoFilter');
  });

  it('has the lists, charts and print set-up of a sheet that came from another file, or is a copy, where its cells are', async () => {
    const book = await full();
    const template = await readWorkbook(TEMPLATE);
    const sheetOf = (name: string) => Object.values(template.snapshot.sheets).find((sheet) => sheet.name === name);
    const now = {
      ...book.snapshot,
      sheetOrder: [...book.snapshot.sheetOrder, 'runs', 'one', 'copy'],
      sheets: {
        ...book.snapshot.sheets,
        runs: { ...sheetOf('Pipe runs'), id: 'runs' },
        one: { ...sheetOf('One rig'), id: 'one' },
        copy: { ...book.snapshot.sheets[book.snapshot.sheetOrder[0] ?? ''], id: 'copy', name: 'First (Copy)' },
      },
    };
    // a row is put in above the rig's table after it came, one above the list before it was copied
    const edits: SheetEdit[] = [
      { kind: 'insert', sheet: 'First', axis: 'row', at: 0, count: 1 },
      { kind: 'insert', sheet: 'One rig', axis: 'row', at: 0, count: 3 },
    ];
    const copied: SheetEdit = { kind: 'rename', sheet: 'First', to: 'First (Copy)' };
    const again = await readWorkbook(
      await rebuild(
        book,
        now,
        edits,
        new Map([
          ['runs', { book: template, name: 'Pipe runs', edits: [], since: 1 }],
          ['one', { book: template, name: 'One rig', edits: [], since: 1 }],
          ['copy', { book, name: 'First', edits: [...edits.slice(0, 1), copied], since: 1 }],
        ]),
      ),
    );
    const extras = (name: string, from: Book = again) => from.sheets.find((sheet) => sheet.name === name)?.extras;
    expect(extras('Pipe runs')?.lists).toEqual(extras('Pipe runs', template)?.lists);
    expect(extras('Pipe runs')?.print).toEqual(extras('Pipe runs', template)?.print);
    expect(partText(again.parts, again.layout.workbook)).toMatch(/Print_Titles"[^>]*>'Pipe runs'!\$/);
    const [chart, was] = [extras('One rig')?.charts[0], extras('One rig', template)?.charts[0]];
    const rows = (reference = '') => [...reference.matchAll(/\$(\d+)/g)].map(([, row]) => Number(row));
    expect(rows(was?.series[0]?.values).length).toBe(2);
    expect(rows(chart?.series[0]?.values)).toEqual(rows(was?.series[0]?.values).map((row) => row + 3));
    expect(chart).toMatchObject({ kind: was?.kind, title: was?.title, altText: was?.altText });
    expect(extras('First (Copy)')?.lists.map(({ blocks }) => blocks.map(blockName))).toEqual([['B3:B10']]);
    expect(partOf(again, 'First (Copy)')).not.toContain('tablePart');
    // a workbook that never was a file
    const { runs, one } = now.sheets;
    const fresh = { ...now, sheetOrder: ['runs', 'one'], sheets: { runs, one }, resources: [] };
    const made = await readWorkbook(
      await rebuild(undefined, fresh, [], new Map([['one', { book: template, name: 'One rig', edits: [], since: 0 }]])),
    );
    expect(extras('One rig', made)?.charts[0]?.series).toEqual(was?.series);
  });

  it('has the charts of the template at the rows where their cells are', async () => {
    const book = await readWorkbook(TEMPLATE);
    const edits: SheetEdit[] = [
      { kind: 'insert', sheet: 'Results', axis: 'row', at: 0, count: 2 },
      { kind: 'rename', sheet: 'Results', to: 'My results' },
    ];
    const references = (parts: Book['parts']): string[] =>
      [...parts.keys()]
        .filter((part) => /charts\/chart\d+\.xml$/.test(part))
        .flatMap((part) =>
          [...(partText(parts, part) ?? '').matchAll(/<c:f>([^<]*)<\/c:f>/g)].map((one) => one[1] ?? ''),
        );
    const before = references(book.parts).filter((one) => one.startsWith('Results!'));
    expect(before.length).toBeGreaterThan(0);
    const after = references((await readWorkbook(await rebuild(book, book.snapshot, edits))).parts);
    for (const one of before) {
      // both rows of the range two further down
      const moved = one.replace(/\$(\d+)/g, (_, row) => `$${Number(row) + 2}`).replace('Results!', "'My results'!");
      expect(after).toContain(moved);
    }
    expect(after.some((one) => one.startsWith('Results!'))).toBe(false);
  });
});

describe('a file made anew without a sheet', () => {
  it('has no part of it left to which nothing leads, and every chart of the others', async () => {
    const book = await readWorkbook(TEMPLATE);
    const gone = book.sheets.find(({ name }) => name === 'Results')?.id ?? '';
    const sheetOrder = book.snapshot.sheetOrder.filter((id) => id !== gone);
    const { parts, sheets } = await readWorkbook(await rebuild(book, { ...book.snapshot, sheetOrder }));
    const charts = (all: Book['parts']): string[] =>
      [...all.keys()].filter((part) => /charts\/chart\d+\.xml$/.test(part));
    const ofGone = book.sheets.find(({ id }) => id === gone)?.extras.charts.length ?? 0;
    expect(ofGone).toBeGreaterThan(0);
    expect(charts(parts)).toHaveLength(charts(book.parts).length - ofGone);
    expect(sheets.reduce((sum, { extras }) => sum + extras.charts.length, 0)).toBe(charts(parts).length);
    const targets = [...parts.keys()]
      .filter((part) => part.endsWith('.rels'))
      .flatMap((part) => startTags(partText(parts, part) ?? '', 'Relationship'))
      .map((tag) => (attributes(tag).get('Target') ?? '').split('/').at(-1));
    const others = [...parts.keys()].filter((part) => !part.endsWith('.rels') && part !== '[Content_Types].xml');
    expect(others.filter((part) => !targets.includes(part.split('/').at(-1)))).toEqual([]);
    const told = startTags(partText(parts, '[Content_Types].xml') ?? '', 'Override').map((tag) =>
      attributes(tag).get('PartName')?.slice(1),
    );
    expect(told.filter((part) => !parts.has(part ?? ''))).toEqual([]);
  });
});

describe('a workbook of a newer program', () => {
  const NEWER = 'xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"';
  const OFFICE = 'xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main"';
  const withExtension = (inside: string): Uint8Array => {
    const rows = '<row r="5"><c r="B5"><v>4</v></c></row>';
    const after = `<extLst><ext uri="{1}" ${NEWER}>${inside}</ext></extLst>`;
    return writeParts(
      bareParts({
        sheets: [
          { name: 'Data', rows, after },
          { name: 'Rigs', rows },
        ],
      }),
    );
  };

  it('has its lists that refer to other sheets, and keeps them at their cells when it is made anew', async () => {
    const rule =
      '<x14:dataValidation type="list" allowBlank="1" promptTitle="Rig"><x14:formula1><xm:f>Rigs!$A$1:$A$5</xm:f></x14:formula1>' +
      '<xm:sqref>B5:B9 D5</xm:sqref></x14:dataValidation>';
    const book = await readWorkbook(
      withExtension(`<x14:dataValidations count="1" ${OFFICE}>${rule}</x14:dataValidations>`),
    );
    expect(book.sheets[0]?.extras.lists).toMatchObject([{ from: 'Rigs!$A$1:$A$5', title: 'Rig' }]);
    const edits: SheetEdit[] = [
      { kind: 'insert', sheet: 'Data', axis: 'row', at: 0, count: 2 },
      { kind: 'rename', sheet: 'Rigs', to: 'Gear' },
    ];
    const [, rigs = ''] = book.snapshot.sheetOrder;
    const sheets = { ...book.snapshot.sheets, [rigs]: { ...book.snapshot.sheets[rigs], name: 'Gear' } };
    const again = await readWorkbook(await rebuild(book, { ...book.snapshot, sheets }, edits));
    const [list, ...more] = again.sheets[0]?.extras.lists ?? [];
    expect([list?.from, list?.blocks.map(blockName), more]).toEqual(['Gear!$A$1:$A$5', ['B7:B11', 'D7'], []]);
  });
});

describe('looks of single letters that were given in the page', () => {
  it('are told once for each sheet, before the file is written', async () => {
    const { snapshot } = await full();
    expect(lossesOfLetters(snapshot)).toEqual([]);
    const [id = ''] = snapshot.sheetOrder;
    const bold = { body: { dataStream: 'one two\r\n', textRuns: [{ st: 4, ed: 7, ts: { bl: 1 } }] } };
    const cells = { 5: { 1: { v: 'one two', p: bold }, 2: { v: 'a', p: bold } }, 6: { 1: null } };
    const sheets = { ...snapshot.sheets, [id]: { ...snapshot.sheets[id], cellData: cells } };
    // a link that a formula gives has no looks of letters
    const link = { f: '=HYPERLINK("#First!A1","go")', p: { body: { dataStream: 'go\r\n' } } };
    const linked = { ...snapshot.sheets, [id]: { ...snapshot.sheets[id], cellData: { 5: { 1: link } } } };
    expect(lossesOfLetters({ ...snapshot, sheets: linked } as never)).toEqual([]);
    expect(lossesOfLetters({ ...snapshot, sheets } as never)).toEqual([
      'On First, the looks of single letters are not kept, as of one bold word; the text is.',
    ]);
  });
});

describe('a copy of a sheet', () => {
  it('comes without tables, which is told once, before the file is written', async () => {
    const book = await full();
    const origin = (name: string) => ({ book, name, edits: [], since: 0 });
    const own = book.sheets.map(({ id, name }) => [id, origin(name)] as const);
    expect(lossesOfSave(book, true, [], new Set(), own)).toEqual([]);
    const copies = [['a', origin('First')] as const, ['b', origin('First')] as const, ['c', origin('Third')] as const];
    const told = ['A copy of First comes without its tables.'];
    expect(lossesOfSave(book, true, [], new Set(), [...own, ...copies])).toEqual(told);
    expect(lossesOfSave(book, false, [], new Set(), [...own, ...copies])).toEqual([]);
  });

  it('comes without pictures, which is told', async () => {
    const book = await full();
    const parts = new Map(book.parts);
    const part = book.sheets.find(({ name }) => name === 'Third')?.part ?? '';
    parts.set(part, textPart(partOf(book, 'Third').replace('</worksheet>', '<drawing r:id="rId1"/></worksheet>')));
    const origin = { book: { ...book, parts }, name: 'Third', edits: [], since: 0 };
    expect(lossesOfSave(book, true, [], new Set(), [['a', origin]])).toEqual([]);
    parts.set('xl/media/image1.png', parts.get(part) ?? textPart(''));
    expect(lossesOfSave(book, true, [], new Set(), [['a', origin]])).toEqual([
      'A copy of Third comes without its pictures.',
    ]);
  });
});

describe('a workbook with a sheet that is one large chart', () => {
  const type = 'application/vnd.openxmlformats-officedocument.spreadsheetml.chartsheet+xml';
  const withChart = (): Book['parts'] => {
    const rows = '<row r="1"><c r="A1"><v>4</v></c></row>';
    const parts = bareParts({
      sheets: [
        { name: 'Data', rows },
        { name: 'More', rows },
      ],
      names: '<definedName name="mine" localSheetId="2">More!$A$1</definedName>',
      parts: { 'xl/chartsheets/sheet1.xml': { relation: 'chartsheet', type, text: '<chartsheet/>' } },
    });
    const sheet = '<sheet name="Picture" sheetId="9" r:id="rId3"/>';
    const xml = partText(parts, 'xl/workbook.xml') ?? '';
    return parts.set('xl/workbook.xml', textPart(xml.replace('<sheet name="More"', `${sheet}<sheet name="More"`)));
  };

  it('opens with its other sheets, whose names stay theirs, and is kept as it is while cells change', async () => {
    const book = await readWorkbook(writeParts(withChart()));
    expect(book.sheets.map(({ name }) => name)).toEqual(['Data', 'More']);
    expect(JSON.stringify(book.snapshot.resources)).toContain('"localSheetId\\":\\"sheet-2\\"');
    const written = readParts(writeWorkbook(book, { snapshot: book.snapshot, spills: [] }));
    expect(partText(written, 'xl/workbook.xml')).toContain('name="Picture"');
    expect(lossesOfSave(book, false, [], new Set())).toEqual([]);
    expect(lossesOfSave(book, true, [], new Set())).toEqual(['Sheets that are one chart are left out.']);
    expect(names(await readWorkbook(await rebuild(book, book.snapshot)))).toEqual(['Data', 'More']);
  });

  it('is still refused where a sheet of cells is missing', async () => {
    const parts = withChart();
    parts.delete('xl/worksheets/sheet2.xml');
    await expect(readWorkbook(writeParts(parts))).rejects.toThrow('wrong');
  });
});

describe('what a saved file will not keep', () => {
  it('is nothing for the template, whatever was typed into it', async () => {
    const book = await readWorkbook(TEMPLATE);
    expect(lossesOfSave(book, false, [], new Set())).toEqual([]);
    expect(lossesOfSave(book, true, [], new Set())).toEqual([]);
    expect(lossesOfSave(undefined, true, [], new Set())).toEqual([]);
  });

  it('is told by sheet when rows came, went or changed places', async () => {
    const book = await readWorkbook(TEMPLATE);
    const edits: SheetEdit[] = [
      { kind: 'rename', sheet: 'Results', to: 'Mine' },
      { kind: 'remove', sheet: 'Mine', axis: 'row', at: 30, count: 1 },
    ];
    expect(lossesOfSave(book, true, edits, new Set())).toEqual([
      'On Mine, charts and pictures stay at their old place on the sheet, since rows or columns came or went.',
    ]);
    const cells: SheetEdit[] = [
      { kind: 'insert', sheet: 'Units', axis: 'row', at: 5, count: 1, across: { first: 1, last: 1 } },
    ];
    expect(lossesOfSave(book, true, cells, new Set())).toEqual([]);
    const [said = '', ...more] = lossesOfSave(book, true, [], new Set(['Units']));
    expect(said).toMatch(/^On Units, .*lists.* stay where they were, since cells changed places\.$/);
    expect(more).toEqual([]);
  });
});
