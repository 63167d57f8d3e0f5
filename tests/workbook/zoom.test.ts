import { describe, expect, it } from 'vitest';
import { partText, readParts } from '../../src/workbook/package.ts';
import { readWorkbook } from '../../src/workbook/read.ts';
import { writeWorkbook } from '../../src/workbook/write.ts';
import { bareFile } from './bare.ts';

const ROWS = '<row r="1"><c r="A1"><v>1</v></c></row>';
const file = (before: string) => bareFile({ sheets: [{ name: 'Data', rows: ROWS, before }] });
const views = (view: string) => `<sheetViews>${view}</sheetViews>`;

/** How large the page shows a sheet of a file, and the file's part after it was shown at another zoom and saved. */
async function shownAt(before: string, zoom?: number): Promise<{ readonly was: number; readonly xml: string }> {
  const book = await readWorkbook(file(before));
  const was = book.snapshot.sheets['sheet-1']?.zoomRatio ?? 0;
  const snapshot = structuredClone(book.snapshot);
  const sheet = snapshot.sheets['sheet-1'];
  if (sheet !== undefined && zoom !== undefined) sheet.zoomRatio = zoom;
  const written = writeWorkbook(book, { snapshot, spills: [] });
  return { was, xml: partText(readParts(written), 'xl/worksheets/sheet1.xml') ?? '' };
}

describe('the zoom of a sheet', () => {
  // what the attributes mean: ISO/IEC 29500-1 §18.3.1.87
  it.each([
    ['', 1],
    [views('<sheetView workbookViewId="0"/>'), 1],
    [views('<sheetView zoomScale="85" zoomScaleNormal="70" workbookViewId="0"/>'), 0.85],
    [views('<sheetView view="pageBreakPreview" zoomScale="60" zoomScaleNormal="120" workbookViewId="0"/>'), 1.2],
    [views('<sheetView view="pageLayout" zoomScale="60" workbookViewId="0"/>'), 1],
    [views('<sheetView zoomScale="0" workbookViewId="0"/>'), 1],
    [views('<sheetView zoomScale="5000" workbookViewId="0"/>'), 1],
    [views('<sheetView zoomScale="wide" workbookViewId="0"/>'), 1],
  ])('is read from the normal view: %s', async (before, zoom) => {
    expect((await shownAt(before)).was).toBe(zoom);
  });

  it('leaves the file to the letter where it is as it was', async () => {
    const before = views('<sheetView zoomScale="85" workbookViewId="0"/>');
    expect((await shownAt(before)).xml).toContain(before);
    expect((await shownAt('')).xml).not.toContain('sheetView');
    // a hundred percent that nobody wrote down
    expect((await shownAt('', 1)).xml).not.toContain('sheetView');
  });

  it.each([
    [
      'where the file has one',
      views(
        '<sheetView showGridLines="0" zoomScale="85" zoomScaleNormal=\'85\' workbookViewId="0"><selection/></sheetView>',
      ),
      views(
        '<sheetView showGridLines="0" zoomScale="110" zoomScaleNormal="110" workbookViewId="0"><selection/></sheetView>',
      ),
    ],
    [
      'where it has none',
      views('<sheetView workbookViewId="0"/>'),
      views('<sheetView workbookViewId="0" zoomScale="110" zoomScaleNormal="110"/>'),
    ],
    [
      'beside that of another view',
      views('<sheetView view="pageBreakPreview" zoomScale="60" workbookViewId="0"/>'),
      views('<sheetView view="pageBreakPreview" zoomScale="60" workbookViewId="0" zoomScaleNormal="110"/>'),
    ],
    [
      'before the widths where there are no views',
      '<cols><col min="1" max="1" width="9"/></cols>',
      `${views('<sheetView zoomScale="110" zoomScaleNormal="110" workbookViewId="0"/>')}<cols><col min="1" max="1" width="9"/></cols>`,
    ],
  ])('is written %s', async (_, before, after) => {
    const { xml } = await shownAt(before, 1.1);
    expect(xml).toContain(`${after}<sheetData>`);
  });

  it('is a whole percent', async () => {
    expect((await shownAt(views('<sheetView workbookViewId="0"/>'), 0.70001)).xml).toContain('zoomScale="70"');
  });
});
