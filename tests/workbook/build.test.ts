import { describe, expect, it } from 'vitest';
import { Fault } from '../../src/faults/issue.ts';
import { newWorkbook } from '../../src/workbook/build.ts';
import type { WorkbookModel } from '../../src/workbook/model.ts';
import { partText, readParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { writeWorkbook } from '../../src/workbook/write.ts';

/** An invented workbook with one of everything that a model can hold. */
const MODEL: WorkbookModel = {
  title: 'Test workbook',
  names: [{ name: 'Sizes', range: "'Pipe runs'!$A$2:$A$4" }],
  sheets: [
    {
      name: 'Pipe runs',
      widths: [20, undefined, 12],
      heights: { 1: 30 },
      frozenRows: 1,
      frozenColumns: 1,
      gridLines: false,
      tabColour: '12424A',
      blocks: [
        {
          at: 'A1',
          look: 'input',
          columns: [{}, { look: 'formula', format: '0.00' }],
          rows: [
            [
              { value: 'Size', look: 'header' },
              { value: 'Bore (mm)', look: 'header' },
            ],
            ['1/4 in', { formula: '=NARROWS.TUBE.BORE(A2)', value: 4.8 }],
            ['3/8 in', { formula: '=NARROWS.TUBE.BORE(A3)' }],
          ],
        },
      ],
      cells: {
        D1: { formula: '=FILTER(A2:A4,B2:B4>5)', spills: 'unknown' },
        E9: true,
        F9: { value: 12, comment: 'why' },
      },
      merges: ['A8:C8'],
      validations: [
        { range: 'A2:A9', list: ['1/4 in', '3/8 in'], message: 'A tube size.' },
        { range: 'C2:C9', list: '=Sizes', strict: true },
      ],
      numberRules: [{ range: 'B2:B9', least: 0, most: 100 }],
      charts: [
        {
          kind: 'line',
          title: 'Bores',
          from: 'H1',
          to: 'N14',
          categories: "'Pipe runs'!$A$2:$A$3",
          series: [{ name: 'Bore', values: "'Pipe runs'!$B$2:$B$3" }],
          yTitle: 'mm',
          yLog: true,
          altText: 'Bores by size',
        },
      ],
      print: { landscape: true, repeatRows: '1:1', breaksBefore: [7], area: 'A1:G40', paper: 'letter' },
    },
    { name: 'Lists', hidden: true, cells: { A1: 'x' } },
  ],
};

describe('a workbook built from a model', () => {
  it('is the same bytes each time', async () => {
    expect(await newWorkbook(MODEL)).toEqual(await newWorkbook(MODEL));
  });

  it('reads back with its cells, formulas as typed, looks, widths, names and frozen panes', async () => {
    const book = await readWorkbook(await newWorkbook(MODEL));
    const sheet = book.snapshot.sheets['sheet-1'];
    const cells = sheet?.cellData ?? {};
    expect(cells[1]?.[0]?.v).toBe('1/4 in');
    expect(cells[1]?.[1]).toMatchObject({ f: '=NARROWS.TUBE.BORE(A2)', v: 4.8 });
    expect(cells[0]?.[3]?.f).toBe('=FILTER(A2:A4,B2:B4>5)');
    expect(book.sheets[0]?.filled).toMatchObject([{ row: 0, column: 3, dynamic: true }]);
    expect(cells[8]?.[4]).toMatchObject({ v: 1, t: 3 });
    const look = (row: number, column: number) => book.snapshot.styles[String(cells[row]?.[column]?.s)];
    expect(look(0, 0)).toMatchObject({ bl: 1, cl: { rgb: '#FFFFFF' }, bg: { rgb: '#12424A' } });
    expect(look(1, 0)).toMatchObject({ bg: { rgb: '#FFF8DC' }, bd: { t: { s: 1 } } });
    expect(look(1, 1)).toMatchObject({ n: { pattern: '0.00' } });
    expect(sheet).toMatchObject({
      columnData: { 0: { w: 140 }, 2: { w: 84 } },
      rowData: { 0: { h: 40 } },
      freeze: { xSplit: 1, ySplit: 1 },
      mergeData: [{ startRow: 7, endRow: 7, startColumn: 0, endColumn: 2 }],
      showGridlines: 0,
      tabColor: '#12424A',
    });
    expect(book.snapshot.sheets['sheet-2']?.hidden).toBe(1);
    expect(book.snapshot.resources?.[0]?.data).toContain("'Pipe runs'!$A$2:$A$4");
  });

  it('keeps validations, charts, comments and print set-up when values are stored', async () => {
    const book = await readWorkbook(await newWorkbook(MODEL));
    const parts = readParts(writeWorkbook(book, { snapshot: structuredClone(book.snapshot), spills: [] }));
    const sheet = partText(parts, 'xl/worksheets/sheet1.xml') ?? '';
    expect(sheet).toContain('<formula1>"1/4 in,3/8 in"</formula1>');
    expect(sheet).toContain('<formula1>Sizes</formula1>');
    expect(sheet).toContain('type="decimal"');
    expect(sheet).toContain('orientation="landscape"');
    expect(sheet).toContain('_xldudf_NARROWS_TUBE.BORE(A2)');
    expect(sheet).toContain('_xlfn._xlws.FILTER');
    // a break is named by the row above it (ISO/IEC 29500-1 §18.3.1.3)
    expect(sheet).toMatch(/<rowBreaks[^>]*><brk id="6"/);
    expect(book.sheets[0]?.extras.print.breaks).toEqual([6]);
    const chart = partText(parts, 'xl/charts/chart1.xml') ?? '';
    expect(chart).toContain("'Pipe runs'!$B$2:$B$3");
    expect(chart).toContain('logBase');
    expect([...parts.keys()].some((name) => /comments/.test(name))).toBe(true);
    const names = partText(parts, 'xl/workbook.xml') ?? '';
    // a sheet's name with a space stands in quotes, else other programs drop the range or refuse the file
    expect(names).toMatch(/_xlnm\.Print_Titles"[^>]*>'Pipe runs'!\$1:\$1</);
    expect(names).toMatch(/_xlnm\.Print_Area"[^>]*>'Pipe runs'!\$A\$1:\$G\$40</);
  });

  it('draws curves over x of their own as lines, and readings as points without a line', async () => {
    const file = await newWorkbook({
      title: 'Two curves',
      sheets: [
        {
          name: 'Two',
          charts: [
            {
              kind: 'scatter',
              title: 'Two',
              from: 'H1',
              to: 'N14',
              categories: 'Two!$A$2:$A$9',
              series: [
                { name: 'curve', values: 'Two!$B$2:$B$9' },
                { name: 'readings', values: 'Two!$D$2:$D$5', categories: 'Two!$C$2:$C$5', points: true },
              ],
              yLog: true,
              altText: 'A curve and the readings beside it',
            },
          ],
        },
      ],
    });
    const xml = partText(readParts(file), 'xl/charts/chart1.xml') ?? '';
    const [curve = '', readings = ''] = xml.match(/<c:ser>.*?<\/c:ser>/gs) ?? [];
    const order = (series: string): string[] =>
      [...series.matchAll(/<c:(spPr|marker|xVal|yVal|smooth)[ >]/g)].map(([, tag = '']) => tag);
    // the order that ISO/IEC 29500-1 asks for in CT_ScatterSer
    expect(order(curve)).toEqual(['marker', 'xVal', 'yVal', 'smooth']);
    expect(curve).toContain('<c:symbol val="none"/>');
    expect(curve).toContain('<c:smooth val="0"/>');
    expect(curve).toMatch(/<c:xVal>.*\$A\$2:\$A\$9.*<\/c:xVal>/s);
    expect(order(readings).slice(0, 2)).toEqual(['spPr', 'marker']);
    expect(readings).toContain('<c:symbol val="circle"/>');
    expect(readings).toContain('<c:spPr><a:ln><a:noFill/></a:ln></c:spPr><c:marker>');
    expect(readings).toMatch(/<c:xVal>.*\$C\$2:\$C\$5.*<\/c:xVal>/s);
    expect(readings).toMatch(/<c:yVal>.*\$D\$2:\$D\$5.*<\/c:yVal>/s);
  });

  it('draws a schedule as bars that begin later, with nothing drawn before them', async () => {
    const file = await newWorkbook({
      title: 'Plan',
      sheets: [
        {
          name: 'Plan',
          charts: [
            {
              kind: 'bar',
              title: 'Plan',
              from: 'H1',
              to: 'N14',
              categories: 'Plan!$A$2:$A$9',
              series: [
                { name: 'begins', values: 'Plan!$B$2:$B$9', unseen: true },
                { name: 'lasts', values: 'Plan!$C$2:$C$9' },
              ],
              stacked: true,
              yStep: 24,
              scaleOnTop: true,
              altText: 'Bars from the start of each unit to its end',
            },
          ],
        },
      ],
    });
    const xml = partText(readParts(file), 'xl/charts/chart1.xml') ?? '';
    const [begins = '', lasts = ''] = xml.match(/<c:ser>.*?<\/c:ser>/gs) ?? [];
    expect(xml).toContain('<c:grouping val="stacked"/>');
    expect(xml).toContain('<c:overlap val="100"/>');
    expect(begins).toContain('<c:spPr><a:noFill/><a:ln><a:noFill/></a:ln></c:spPr>');
    expect(lasts).not.toContain('noFill');
    expect(xml).toContain('<c:majorUnit val="24"/>');
    // one series that is seen needs no legend
    expect(xml).not.toContain('<c:legend>');
    expect(xml).not.toMatch(/<c:crosses val="max"\/>/);
  });

  it('refuses an address that is none', async () => {
    await expect(newWorkbook({ title: 'x', sheets: [{ name: 'A', cells: { '1A': 1 } }] })).rejects.toThrow(Fault);
  });
});
