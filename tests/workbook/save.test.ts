import { describe, expect, it } from 'vitest';
import { newWorkbook } from '../../src/workbook/build.ts';
import { partText, readParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { saveWorkbook } from '../../src/workbook/save.ts';

const book = async () =>
  readWorkbook(
    await newWorkbook({
      title: 'Rigs',
      names: [{ name: 'Sizes', range: 'Rigs!$A$1:$A$2' }],
      sheets: [
        {
          name: 'Rigs',
          widths: [20],
          frozenRows: 1,
          cells: {
            A1: { value: 'Size', look: 'header' },
            A2: { value: '3/8 in', look: 'input', comment: 'of the hose' },
            B2: { formula: '=NARROWS.TUBE.BORE(A2)', look: 'formula', format: '0.00' },
            C2: { formula: '=1/0' },
            D2: { formula: '=SEQUENCE(2)', spills: 'unknown' },
          },
          validations: [{ range: 'A2:A9', list: ['1/4 in', '3/8 in'] }],
          charts: [
            {
              kind: 'column',
              title: 'Bores',
              from: 'F2',
              to: 'L12',
              categories: 'Rigs!$A$2:$A$2',
              series: [{ name: 'Bore', values: 'Rigs!$B$2:$B$2' }],
              altText: 'Bores',
            },
          ],
        },
        { name: 'Gone', cells: { A1: 1 } },
      ],
    }),
  );

describe('a workbook changed in looks and sheets', () => {
  it('is saved as it stands, with what the sheet does not show carried over from its file', async () => {
    const before = await book();
    const snapshot = structuredClone(before.snapshot);
    const rigs = snapshot.sheets['sheet-1'];
    if (rigs === undefined) throw new Error('no sheet');
    const cells = rigs.cellData ?? {};
    const line = cells[1] ?? {};
    Object.assign(line[1] ?? {}, { v: 7.9, t: 2 });
    Object.assign(line[2] ?? {}, { v: '#DIV/0!', t: 1 });
    Object.assign(line[3] ?? {}, { v: 1, t: 2 });
    line[0] = { v: '1/2 in', t: 1, s: { bl: 1, bg: { rgb: 'rgb(255, 0, 0)' }, ht: 2 } };
    rigs.name = 'My rigs';
    rigs.columnData = { 0: { w: 210 }, 1: { hd: 1 } };
    rigs.mergeData = [{ startRow: 5, endRow: 5, startColumn: 0, endColumn: 1 }];
    snapshot.sheets = {
      'sheet-1': rigs,
      fresh: {
        id: 'fresh',
        name: 'Fresh',
        cellData: { 0: { 0: { f: "='My rigs'!B2*2", v: 15.8, t: 2 }, 1: { v: 1, t: 3 } } },
      },
    };
    snapshot.sheetOrder = ['fresh', 'sheet-1'];
    const spills = [
      { sheet: 'My rigs', range: { startRow: 1, startColumn: 3, endRow: 2, endColumn: 3 }, cells: [[1], [2]] },
    ];
    const bytes = await saveWorkbook(before, { snapshot, spills });
    const after = await readWorkbook(bytes);
    expect(after.sheets.map(({ name }) => name)).toEqual(['Fresh', 'My rigs']);
    expect(after.snapshot.sheets['sheet-1']?.cellData?.[0]).toMatchObject({
      0: { f: "='My rigs'!B2*2", v: 15.8 },
      1: { v: 1, t: 3 },
    });
    const saved = after.snapshot.sheets['sheet-2'];
    expect(saved).toMatchObject({
      columnData: { 0: { w: 210 }, 1: { hd: 1 } },
      freeze: { ySplit: 1 },
      mergeData: [{ startRow: 5 }],
    });
    const look = after.snapshot.styles[String(saved?.cellData?.[1]?.[0]?.s)];
    expect(look).toMatchObject({ bl: 1, bg: { rgb: '#FF0000' }, ht: 2 });
    expect(saved?.cellData?.[1]?.[1]).toMatchObject({ f: '=NARROWS.TUBE.BORE(A2)', v: 7.9 });
    expect(after.sheets[1]?.filled).toMatchObject([{ row: 1, column: 3, dynamic: true, block: { endRow: 2 } }]);
    const parts = readParts(bytes);
    const xml = partText(parts, 'xl/worksheets/sheet2.xml') ?? '';
    expect(xml).toContain('t="e"');
    expect(xml).toContain('"1/4 in,3/8 in"');
    expect([...parts.keys()].filter((name) => /charts\/chart\d/.test(name))).toHaveLength(1);
    expect([...parts.keys()].some((name) => /comments/.test(name))).toBe(true);
    expect(await saveWorkbook(before, { snapshot, spills })).toEqual(bytes);
  });

  it('that never was a file is saved too', async () => {
    const { snapshot } = await book();
    const empty = {
      ...snapshot,
      resources: [],
      sheetOrder: ['one'],
      sheets: { one: { id: 'one', name: 'Sheet1', cellData: { 2: { 1: { v: 'text', t: 1 } } } } },
    };
    const after = await readWorkbook(await saveWorkbook(undefined, { snapshot: empty, spills: [] }));
    expect(after.snapshot.sheets['sheet-1']?.cellData?.[2]?.[1]).toMatchObject({ v: 'text' });
  });
});
