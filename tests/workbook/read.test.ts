import { describe, expect, it } from 'vitest';
import { readWorkbook } from '../../src/workbook/read.ts';
import { bareFile } from './bare.ts';

const cellsOf = async (file: Uint8Array, sheet = 'sheet-1') =>
  (await readWorkbook(file)).snapshot.sheets[sheet]?.cellData ?? {};

const METADATA = `<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000" cellMeta="1"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`;

describe('a workbook from another program', () => {
  it('gives numbers, text, truth values and errors as the file has them', async () => {
    const cells = await cellsOf(
      bareFile({
        strings: ['Unit &amp; rig'],
        sheets: [
          {
            name: 'Units',
            rows:
              '<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><v>12.5</v></c><c r="C1" t="b"><v>1</v></c>' +
              '<c r="D1" t="e"><v>#N/A</v></c><c r="E1" t="inlineStr"><is><t>in line</t></is></c></row>',
          },
        ],
      }),
    );
    expect(cells[0]).toMatchObject({
      0: { v: 'Unit & rig', t: 1 },
      1: { v: 12.5, t: 2 },
      2: { v: 1, t: 3 },
      3: { v: '#N/A', t: 1 },
      4: { v: 'in line', t: 1 },
    });
  });

  it('gives each cell of a shared formula its own', async () => {
    const cells = await cellsOf(
      bareFile({
        sheets: [
          {
            name: 'Units',
            rows:
              '<row r="1"><c r="A1"><v>1</v></c><c r="B1"><f t="shared" ref="B1:B3" si="0">A1*$A$1+_xldudf_NARROWS_TUBE.BORE("A1")</f><v>1</v></c></row>' +
              '<row r="2"><c r="B2"><f t="shared" si="0"/><v>2</v></c></row><row r="3"><c r="B3"><f t="shared" si="0"/><v>3</v></c></row>',
          },
        ],
      }),
    );
    expect([0, 1, 2].map((row) => cells[row]?.[1]?.f)).toEqual([
      '=A1*$A$1+NARROWS.TUBE.BORE("A1")',
      '=A2*$A$1+NARROWS.TUBE.BORE("A1")',
      '=A3*$A$1+NARROWS.TUBE.BORE("A1")',
    ]);
  });

  it('knows what a spilling formula fills, and takes those cells as its result', async () => {
    const book = await readWorkbook(
      bareFile({
        parts: {
          'xl/metadata.xml': {
            relation: 'sheetMetadata',
            type: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml',
            text: METADATA,
          },
        },
        sheets: [
          {
            name: 'Results',
            rows:
              '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:B2">_xlfn.SEQUENCE(2,2)</f><v>1</v></c><c r="B1"><v>2</v></c><c r="C1"><v>9</v></c></row>' +
              '<row r="2"><c r="A2"><v>3</v></c><c r="B2"><v>4</v></c></row>' +
              '<row r="4"><c r="A4"><f t="array" ref="A4:A5">ROW(A1:A2)</f><v>1</v></c></row><row r="5"><c r="A5"><v>2</v></c></row>',
          },
        ],
      }),
    );
    const cells = book.snapshot.sheets['sheet-1']?.cellData ?? {};
    expect(cells[0]?.[0]).toMatchObject({ f: '=SEQUENCE(2,2)', v: 1 });
    expect(cells[0]?.[1]).toBeUndefined();
    expect(cells[1]?.[0]).toBeUndefined();
    expect(cells[0]?.[2]).toMatchObject({ v: 9 });
    expect(
      book.sheets[0]?.filled.map(({ row, dynamic, block }) => [row, dynamic, block.endRow, block.endColumn]),
    ).toEqual([
      [0, true, 1, 1],
      [3, false, 4, 0],
    ]);
  });

  it('a formula tied to whole columns is held to the rows that the file has', async () => {
    const book = await readWorkbook(
      bareFile({
        sheets: [{ name: 'A', rows: '<row r="1"><c r="A1"><f t="array" ref="A1:A1048576">B:B</f><v>1</v></c></row>' }],
      }),
    );
    expect(book.sheets[0]?.filled[0]?.block.endRow).toBe(0);
  });

  it('counts days from the year that the file says', async () => {
    const styles =
      '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellXfs count="2"><xf/><xf numFmtId="14" applyNumberFormat="1"/></cellXfs></styleSheet>';
    const sheets = [{ name: 'Log', rows: '<row r="1"><c r="A1" s="1"><v>45000.25</v></c></row>' }];
    for (const date1904 of [false, true]) {
      const cells = await cellsOf(bareFile({ sheets, styles, date1904 }));
      expect(cells[0]?.[0]?.v).toBeCloseTo(45000.25, 6);
      expect(cells[0]?.[0]?.t).toBe(2);
    }
  });

  it('carries widths, heights, merged cells, frozen panes, hidden sheets and names', async () => {
    const { snapshot } = await readWorkbook(
      bareFile({
        names:
          '<definedName name="Conditions">Start!$A$1:$C$9</definedName><definedName name="Bore" localSheetId="1">_xldudf_NARROWS_TUBE.BORE("3/8 in")</definedName>',
        sheets: [
          {
            name: 'Start',
            before:
              '<sheetViews><sheetView showGridLines="0" workbookViewId="0"><pane xSplit="1" ySplit="2" topLeftCell="B3" state="frozen"/></sheetView></sheetViews><cols><col min="1" max="1" width="20" customWidth="1"/><col min="2" max="2" width="9" hidden="1" customWidth="1"/></cols>',
            rows: '<row r="1" ht="30" customHeight="1"><c r="A1"><v>1</v></c></row>',
            after: '<mergeCells count="1"><mergeCell ref="A1:C1"/></mergeCells>',
          },
          { name: 'Lists', rows: '', state: 'hidden' },
        ],
      }),
    );
    const start = snapshot.sheets['sheet-1'];
    expect(start).toMatchObject({
      showGridlines: 0,
      freeze: { xSplit: 1, ySplit: 2, startRow: 2, startColumn: 1 },
      mergeData: [{ startRow: 0, endRow: 0, startColumn: 0, endColumn: 2 }],
      columnData: { 0: { w: 140 }, 1: { hd: 1 } },
      rowData: { 0: { h: 40 } },
    });
    expect(snapshot.sheets['sheet-2']?.hidden).toBe(1);
    const names = Object.values(JSON.parse(snapshot.resources?.[0]?.data ?? '{}'));
    expect(names).toMatchObject([
      { name: 'Conditions', formulaOrRefString: 'Start!$A$1:$C$9', localSheetId: 'AllDefaultWorkbook' },
      { name: 'Bore', formulaOrRefString: 'NARROWS.TUBE.BORE("3/8 in")', localSheetId: 'sheet-2' },
    ]);
  });

  it('shows colours by theme, palette and tint as the format defines them', async () => {
    const fill = (colour: string) => `<fill><patternFill patternType="solid"><fgColor ${colour}/></patternFill></fill>`;
    const theme = `<a:theme xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main"><a:themeElements><a:clrScheme name="x"><a:dk1><a:sysClr val="windowText" lastClr="000000"/></a:dk1><a:lt1><a:sysClr val="window" lastClr="FFFFFF"/></a:lt1><a:dk2><a:srgbClr val="111111"/></a:dk2><a:lt2><a:srgbClr val="EEEEEE"/></a:lt2><a:accent1><a:srgbClr val="204060"/></a:accent1></a:clrScheme></a:themeElements></a:theme>`;
    const styles = `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><fonts count="1"><font><sz val="11"/><name val="Calibri"/></font></fonts><fills count="6"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill>${fill('theme="0"')}${fill('theme="1"')}${fill('theme="4" tint="0.5"')}${fill('indexed="10"')}</fills><borders count="1"><border/></borders><cellXfs count="5"><xf/>${[2, 3, 4, 5].map((id) => `<xf fillId="${id}" applyFill="1"/>`).join('')}</cellXfs></styleSheet>`;
    const { snapshot } = await readWorkbook(
      bareFile({
        styles,
        parts: {
          'xl/theme/theme1.xml': {
            relation: 'theme',
            type: 'application/vnd.openxmlformats-officedocument.theme+xml',
            text: theme,
          },
        },
        sheets: [
          { name: 'A', rows: '<row r="1"><c r="A1" s="1"/><c r="B1" s="2"/><c r="C1" s="3"/><c r="D1" s="4"/></row>' },
        ],
      }),
    );
    const line = snapshot.sheets['sheet-1']?.cellData?.[0] ?? {};
    const ground = [0, 1, 2, 3].map((column) => snapshot.styles[String(line[column]?.s)]?.bg?.rgb);
    // theme 0 is the light colour and 1 the dark one; half a tint goes half the way to white; palette entry 10 is red
    expect(ground).toEqual(['#FFFFFF', '#000000', '#90A0B0', '#FF0000']);
  });
});
