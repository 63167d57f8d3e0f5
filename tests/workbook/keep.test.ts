import { describe, expect, it } from 'vitest';
import { lossesOfSave } from '../../src/hosts/sheet/save/losses.ts';
import { rebuild } from '../../src/hosts/sheet/save/rebuild.ts';
import type { SheetEdit } from '../../src/workbook/edits.ts';
import { type Parts, partText, textPart, writeParts } from '../../src/workbook/package.ts';
import { type Book, readWorkbook } from '../../src/workbook/read.ts';
import { startTags } from '../../src/workbook/xml.ts';
import { bareParts } from './bare.ts';

/** What the page does not show, in a file that is made anew since rows, columns or sheets were changed. */

const OFFICE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships';
const X14 = 'xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"';
const XM = 'xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main"';
const ROWS = [1, 2, 3].map((row) => `<row r="${row}"><c r="A${row}"><v>${row}</v></c></row>`).join('');

interface Sheet {
  readonly name?: string;
  readonly before?: string;
  readonly after?: string;
  readonly rows?: string;
}

function parts({ name = 'Data', before = '', after = '', rows = ROWS }: Sheet, more = {}): Parts {
  return bareParts({ sheets: [{ name, rows, before, after }], ...more });
}

/** Relations of a part, each with its kind and target. */
function relate(all: Parts, owner: string, ...to: readonly (readonly [kind: string, target: string])[]): Parts {
  const tags = to.map(
    ([kind, target], at) => `<Relationship Id="rId${at + 1}" Type="${OFFICE}/${kind}" Target="${target}"/>`,
  );
  const part = owner.replace(/([^/]+)$/, '_rels/$1.rels');
  const space = 'http://schemas.openxmlformats.org/package/2006/relationships';
  return all.set(part, textPart(`<Relationships xmlns="${space}">${tags.join('')}</Relationships>`));
}

async function anew(
  all: Parts,
  edits: readonly SheetEdit[] = [],
): Promise<{ before: Book; again: Book; xml: string; at: (part: string) => string }> {
  const before = await readWorkbook(writeParts(all));
  const again = await readWorkbook(await rebuild(before, before.snapshot, edits));
  const at = (part: string): string => partText(again.parts, part) ?? '';
  return { before, again, xml: at(again.sheets[0]?.part ?? ''), at };
}

const inserted = (row: number, count: number): SheetEdit => ({
  kind: 'insert',
  sheet: 'Data',
  axis: 'row',
  at: row,
  count,
});

/** Every relation of the package leads to a part, and every part of which a type of content is told is there. */
function dangling({ parts: all }: Book): string[] {
  const types = startTags(partText(all, '[Content_Types].xml') ?? '', 'Override');
  const gone = types.flatMap((tag) => /PartName="\/([^"]*)"/.exec(tag)?.[1] ?? []).filter((part) => !all.has(part));
  const workbook = startTags(partText(all, 'xl/_rels/workbook.xml.rels') ?? '', 'Relationship');
  const targets = workbook.flatMap((tag) => /Target="\/?(?:xl\/)?([^"]*)"/.exec(tag)?.[1] ?? []);
  return [...gone, ...targets.filter((target) => !all.has(`xl/${target}`))];
}

describe('a file made anew', () => {
  it('has small charts of a sheet whose name holds an &, their ranges where the cells are', async () => {
    const group =
      `<x14:sparklineGroup type="column" negative="1"><x14:colorSeries rgb="FF376092"/><x14:sparklines><x14:sparkline>` +
      `<xm:f>'A &amp; B'!A1:A3</xm:f><xm:sqref>E1</xm:sqref></x14:sparkline></x14:sparklines></x14:sparklineGroup>`;
    const list = `<x14:sparklineGroups ${XM}>${group}</x14:sparklineGroups>`;
    const after = `<extLst><ext uri="{05C60535-1F16-4fd2-B633-F4F36F0B64E0}" ${X14}>${list}</ext></extLst>`;
    const edits: SheetEdit[] = [{ kind: 'insert', sheet: 'A & B', axis: 'row', at: 0, count: 2 }];
    const { xml } = await anew(parts({ name: 'A &amp; B', after }), edits);
    expect(xml).toContain("<xm:f>'A &amp; B'!A3:A5</xm:f><xm:sqref>E3</xm:sqref>");
    expect(xml).toContain('type="column" negative="1"');
  });

  it('has no mention of a theme where the file has none', async () => {
    const { again } = await anew(parts({}));
    expect(again.parts.has('xl/theme/theme1.xml')).toBe(false);
    expect(dangling(again)).toEqual([]);
  });

  it('keeps conditional formats of every kind as they are, at their cells', async () => {
    const rules = [
      '<cfRule type="aboveAverage" dxfId="1" priority="1" aboveAverage="0" stdDev="2"/>',
      '<cfRule type="top10" dxfId="0" priority="2" percent="1" bottom="1" rank="20"/>',
      '<cfRule type="timePeriod" dxfId="0" priority="3" timePeriod="today"><formula>FLOOR(A1,1)=TODAY()</formula></cfRule>',
    ];
    const newer = '<x14:cfRule type="expression" priority="4" id="{2}"><xm:f>Data!$A$1&gt;2</xm:f></x14:cfRule>';
    const list = `<x14:conditionalFormattings><x14:conditionalFormatting ${XM}>${newer}<xm:sqref>B2</xm:sqref></x14:conditionalFormatting></x14:conditionalFormattings>`;
    const dxf = (colour: string) => `<dxf><font><color rgb="FF${colour}"/></font></dxf>`;
    const styles = `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><dxfs count="2">${dxf('111111')}${dxf('222222')}</dxfs></styleSheet>`;
    const after = `<conditionalFormatting sqref="A1:A3">${rules.join('')}</conditionalFormatting><extLst><ext uri="{1}" ${X14}>${list}</ext></extLst>`;
    const { xml, at, before } = await anew(parts({ after }, { styles }), [inserted(0, 1)]);
    const told = lossesOfSave(before, true, [inserted(0, 1)], new Set());
    expect(told).toEqual([]);
    expect(xml).toContain('<conditionalFormatting sqref="A2:A4">');
    expect(xml).toContain('aboveAverage="0" stdDev="2"');
    expect(xml).toContain('percent="1" bottom="1" rank="20"');
    expect(xml).toContain('<formula>FLOOR(A2,1)=TODAY()</formula>');
    expect(xml).toContain('<xm:f>Data!$A$2&gt;2</xm:f></x14:cfRule><xm:sqref>B3</xm:sqref>');
    const average = Number(/type="aboveAverage" dxfId="(\d+)"/.exec(xml)?.[1]);
    const formats = at('xl/styles.xml').match(/<dxf>.*?<\/dxf>/g) ?? [];
    expect(formats[average]).toBe(dxf('222222'));
  });

  it('keeps locks: of cells, of ranges, of the sheet and of the workbook', async () => {
    const protection = '<protection locked="0" hidden="1"/>';
    const xf = (inside: string) =>
      `<xf numFmtId="0" fontId="0" fillId="0" borderId="0" applyProtection="1">${inside}</xf>`;
    const styles = `<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders><cellXfs count="2">${xf('')}${xf(protection)}</cellXfs></styleSheet>`;
    const rows = '<row r="1"><c r="A1" s="1"><v>1</v></c></row>';
    const after =
      '<sheetProtection password="DAA7" sheet="1" formatCells="0"/><protectedRanges><protectedRange sqref="A1:A3" name="open"/></protectedRanges>';
    const all = parts({ rows, after }, { styles });
    const lock = '<workbookProtection workbookPassword="CC1A" lockStructure="1"/>';
    all.set(
      'xl/workbook.xml',
      textPart((partText(all, 'xl/workbook.xml') ?? '').replace('<sheets>', `${lock}<sheets>`)),
    );
    const { xml, at } = await anew(all, [inserted(1, 1)]);
    expect(xml).toContain('<sheetProtection password="DAA7" sheet="1" formatCells="0"/>');
    expect(xml).toContain('<protectedRange sqref="A1:A4" name="open"/>');
    expect(at('xl/workbook.xml')).toContain(`${lock}<bookViews>`);
    const format = Number(/<c r="A1" s="(\d+)"/.exec(xml)?.[1]);
    const [, formats = ''] = /<cellXfs[^>]*>(.*?)<\/cellXfs>/.exec(at('xl/styles.xml')) ?? [];
    expect(formats.match(/<xf .*?(?:\/>|<\/xf>)/g)?.[format]).toContain('locked="0" hidden="1"');
  });

  it('keeps zoom, headings, split panes, heights, groups, filters with their conditions and kept messages', async () => {
    const before =
      '<sheetViews><sheetView showRowColHeaders="0" zoomScale="85" workbookViewId="0"><pane xSplit="2565" ySplit="1100" topLeftCell="C4"/></sheetView></sheetViews>' +
      '<sheetFormatPr defaultRowHeight="24" customHeight="1" outlineLevelRow="1"/><cols><col min="3" max="3" width="9" outlineLevel="2" customWidth="1"/></cols>';
    const after =
      '<autoFilter ref="A1:D3"><filterColumn colId="2"><customFilters><customFilter operator="greaterThan" val="5"/></customFilters></filterColumn></autoFilter>' +
      '<dataValidations count="1"><dataValidation type="list" showDropDown="1" sqref="B3"><formula1>"a,b"</formula1></dataValidation></dataValidations>' +
      '<ignoredErrors><ignoredError sqref="A1:A3" numberStoredAsText="1"/></ignoredErrors>';
    const rows = `${ROWS}<row r="5" outlineLevel="1"><c r="A5"><v>5</v></c></row>`;
    const edits: SheetEdit[] = [inserted(0, 1), { kind: 'remove', sheet: 'Data', axis: 'column', at: 1, count: 1 }];
    const { xml } = await anew(parts({ before, after, rows }), edits);
    expect(startTags(xml, 'sheetView')[0]).toMatch(/zoomScale="85"/);
    expect(startTags(xml, 'sheetView')[0]).toMatch(/showRowColHeaders="0"/);
    expect(xml).toContain('<pane xSplit="2565" ySplit="1100" topLeftCell="C4"/>');
    expect(xml).toContain('<sheetFormatPr defaultRowHeight="24" customHeight="1" outlineLevelRow="1"/>');
    expect(xml).toMatch(/<col min="2" max="2"[^>]*outlineLevel="2"/);
    expect(xml).toMatch(/<row r="6"[^>]*outlineLevel="1"/);
    // the second column is gone: the third, which has the condition, is the second now
    expect(xml).toContain('<autoFilter ref="A2:C4"><filterColumn colId="1"><customFilters>');
    expect(xml).not.toContain('showDropDown');
    expect(xml).toContain('<ignoredError sqref="A2:A4" numberStoredAsText="1"/>');
  });

  it('keeps a list without its button', async () => {
    const rule =
      '<dataValidation type="list" showDropDown="1" sqref="B3"><formula1>$A$1:$A$3</formula1></dataValidation>';
    const { xml } = await anew(parts({ after: `<dataValidations count="1">${rule}</dataValidations>` }), [
      inserted(2, 1),
    ]);
    expect(xml).toContain(rule.replace('B3', 'B4').replace('$A$3', '$A$4'));
  });

  it('keeps a sheet that only a program can show hidden so, and properties that somebody named', async () => {
    const all = bareParts({
      sheets: [
        { name: 'Data', rows: ROWS },
        { name: 'Very', rows: ROWS },
      ],
    });
    const workbook = partText(all, 'xl/workbook.xml') ?? '';
    all.set('xl/workbook.xml', textPart(workbook.replace('name="Very"', 'name="Very" state="veryHidden"')));
    const type = 'application/vnd.openxmlformats-officedocument.custom-properties+xml';
    const types = partText(all, '[Content_Types].xml') ?? '';
    all.set(
      '[Content_Types].xml',
      textPart(types.replace('</Types>', `<Override PartName="/docProps/custom.xml" ContentType="${type}"/></Types>`)),
    );
    all.set('docProps/custom.xml', textPart('<Properties><property name="Job"/></Properties>'));
    const root = partText(all, '_rels/.rels') ?? '';
    const relation = `<Relationship Id="rId7" Type="${OFFICE}/custom-properties" Target="docProps/custom.xml"/>`;
    all.set('_rels/.rels', textPart(root.replace('</Relationships>', `${relation}</Relationships>`)));
    const { at, again } = await anew(all);
    expect(at('xl/workbook.xml')).toMatch(/name="Very"[^>]*state="veryHidden"/);
    expect(at('docProps/custom.xml')).toContain('name="Job"');
    expect(at('_rels/.rels')).toMatch(/custom-properties"[^>]*custom\.xml"/);
    expect(at('[Content_Types].xml')).toContain(type);
    expect(dangling(again)).toEqual([]);
  });

  it('keeps charts on a sheet that also has a picture', async () => {
    const all = parts({ after: '<drawing r:id="rId1"/>' });
    const frame = '<xdr:graphicFrame><c:chart r:id="rId2"/></xdr:graphicFrame>';
    const drawing = `<xdr:wsDr xmlns:xdr="x" xmlns:c="c"><xdr:twoCellAnchor><xdr:pic><a:blip r:embed="rId1"/></xdr:pic></xdr:twoCellAnchor><xdr:twoCellAnchor>${frame}</xdr:twoCellAnchor></xdr:wsDr>`;
    relate(all, 'xl/worksheets/sheet1.xml', ['drawing', '../drawings/drawing1.xml']);
    all.set('xl/drawings/drawing1.xml', textPart(drawing));
    relate(all, 'xl/drawings/drawing1.xml', ['image', '../media/image1.png'], ['chart', '../charts/chart1.xml']);
    all.set('xl/media/image1.png', new Uint8Array([137, 80, 78, 71]));
    all.set('xl/charts/chart1.xml', textPart('<c:chartSpace xmlns:c="c"><c:f>Data!$A$1:$A$3</c:f></c:chartSpace>'));
    const types = partText(all, '[Content_Types].xml') ?? '';
    all.set(
      '[Content_Types].xml',
      textPart(types.replace('<Default', '<Default Extension="png" ContentType="image/png"/><Default')),
    );
    const { xml, at, again } = await anew(all, [inserted(0, 1)]);
    expect(xml).toContain('<drawing r:id=');
    expect(at('xl/drawings/drawing1.xml')).toBe(drawing);
    expect(at('xl/charts/chart1.xml')).toContain('Data!$A$2:$A$4');
    expect([...(again.parts.get('xl/media/image1.png') ?? [])]).toEqual([137, 80, 78, 71]);
    expect(at('[Content_Types].xml')).toContain('image/png');
    expect(dangling(again)).toEqual([]);
  });

  it('has widths that hold for many columns as one entry', async () => {
    const { xml } = await anew(parts({ before: '<cols><col min="3" max="16384" width="9" customWidth="1"/></cols>' }));
    expect(startTags(xml, 'col')).toEqual(['<col min="3" max="16384" width="9" customWidth="true"/>']);
  });
});

describe('pivot tables of a file made anew', () => {
  it('find their data by the number that they have, in the sheet and rows where the data are', async () => {
    const pivot = '<pivotTableDefinition cacheId="4"><location ref="C2:D3"/></pivotTableDefinition>';
    const source =
      '<pivotCacheDefinition><cacheSource type="worksheet"><worksheetSource ref="A1:B3" sheet="Data"/></cacheSource></pivotCacheDefinition>';
    const all = parts(
      {},
      { parts: { 'xl/pivotCache/pivotCacheDefinition1.xml': { relation: 'pivotCacheDefinition', text: source } } },
    );
    const workbook = partText(all, 'xl/workbook.xml') ?? '';
    const caches = '<pivotCaches><pivotCache cacheId="4" r:id="rId2"/></pivotCaches></workbook>';
    all.set('xl/workbook.xml', textPart(workbook.replace('</workbook>', caches)));
    all.set('xl/pivotTables/pivotTable1.xml', textPart(pivot));
    relate(all, 'xl/worksheets/sheet1.xml', ['pivotTable', '../pivotTables/pivotTable1.xml']);
    relate(all, 'xl/pivotTables/pivotTable1.xml', ['pivotCacheDefinition', '../pivotCache/pivotCacheDefinition1.xml']);
    const before = await readWorkbook(writeParts(all));
    const [id = ''] = before.snapshot.sheetOrder;
    const sheets = { [id]: { ...before.snapshot.sheets[id], name: 'Sold' } };
    const edits: SheetEdit[] = [inserted(0, 2), { kind: 'rename', sheet: 'Data', to: 'Sold' }];
    const again = await readWorkbook(await rebuild(before, { ...before.snapshot, sheets }, edits));
    const at = (part: string): string => partText(again.parts, part) ?? '';
    expect(startTags(at('xl/workbook.xml'), 'pivotCache')[0]).toContain('cacheId="4"');
    expect(at('xl/pivotCache/pivotCacheDefinition1.xml')).toContain('<worksheetSource ref="A3:B5" sheet="Sold"/>');
    expect(at('xl/pivotTables/pivotTable1.xml')).toContain('<location ref="C4:D5"/>');
  });
});

describe('what a file made anew does not keep', () => {
  const told = async (sheet: Sheet): Promise<string[]> =>
    lossesOfSave(await readWorkbook(writeParts(parts(sheet))), true, [], new Set());

  it('is told in one sentence a sheet', async () => {
    expect(
      await told({
        before: '<cols><col min="1" max="3" width="9" style="2"/></cols>',
        after: '<scenarios><scenario/></scenarios>',
      }),
    ).toEqual(['On Data, looks of whole rows and columns and scenarios are not kept.']);
    expect(await told({ after: '<controls><control/></controls>' })).toEqual([
      'On Data, buttons, slicers, objects of other programs and the charts and shapes beside them are not kept.',
    ]);
    expect(await told({})).toEqual([]);
  });

  it('is told of conditional formats that a copy of a sheet has not', async () => {
    const rule = '<cfRule type="top10" priority="1" percent="1" rank="20"/>';
    const after = `<conditionalFormatting sqref="A1:A3">${rule}</conditionalFormatting>`;
    const book = await readWorkbook(writeParts(parts({ after })));
    const copy = ['copy', { book, name: 'Data', edits: [], since: 0 }] as const;
    expect(lossesOfSave(book, true, [], new Set(), [copy])).toEqual([
      'A copy of Data comes without its newer and rarer kinds of conditional formats.',
    ]);
  });

  it('is told of formulas that are not worked out: they become values', async () => {
    const rows = '<row r="1"><c r="A1"><f t="dataTable" ref="A1:A3" r1="B1"/><v>1</v></c></row>';
    const book = await readWorkbook(writeParts(parts({ rows })));
    expect(lossesOfSave(book, false, [], new Set())).toEqual([
      'What-if data tables keep the values stored in the file.',
    ]);
    expect(lossesOfSave(book, true, [], new Set())).toEqual([
      'What-if data tables become the values stored in the file, and are no formulas any more.',
    ]);
  });
});
