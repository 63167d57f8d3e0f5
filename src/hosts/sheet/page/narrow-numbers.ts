import { CellValueType, type ICellData, type IStyleData, isDefaultFormat, type Nullable } from '@univerjs/core';
import { Font, FontCache, getFontStyleString, SpreadsheetSkeleton } from '@univerjs/preset-sheets-core';
import { numberToFit, PADDING, SLACK } from '../number-to-fit.ts';
import type { Grid } from './grid.ts';

/** What the library keeps of a cell in view, to draw it. */
interface CellFont {
  readonly cellData?: Nullable<ICellData>;
  readonly style?: Nullable<IStyleData>;
  readonly fontString?: string;
  /** of cells with several looks or turned text */
  readonly documentSkeleton?: object;
}

/** What the library's drawing of texts has to do with one cell; its types keep it private. */
interface CellContext {
  fontCache?: CellFont;
  readonly startX: number;
  readonly endX: number;
}

interface TextDrawing {
  _renderText(pen: unknown, row: number, column: number, cell: CellContext, ...others: unknown[]): void;
}

interface OverflowMeasuring {
  _calculateOverflowCell(row: number, column: number, font: CellFont): boolean;
}

/** What was drawn for a cell, what it would be with more room, and what that was found from. */
interface Drawn {
  readonly text: string;
  readonly full: string;
  readonly font: string;
  readonly width: number;
}

const drawn = new WeakMap<CellFont, Drawn>();

/**
 * Numbers, dates and times that are wider than their cell: the library cuts them, which makes other numbers of them. They are
 * rounded or hidden behind signs where they are drawn, and nowhere else: what is copied, edited, saved or measured for the width
 * of a column is the number.
 */
export function drawWholeNumbers(): void {
  const drawing = Font.prototype as unknown as TextDrawing;
  const drawText = drawing._renderText;
  drawing._renderText = function (this: TextDrawing, pen, row, column, cell, ...others) {
    const font = cell.fontCache;
    if (font === undefined || !isNumber(font.cellData)) return drawText.call(this, pen, row, column, cell, ...others);
    const text = textOf(font, cell.endX - cell.startX);
    cell.fontCache = text === String(font.cellData?.v) ? font : { ...font, cellData: { ...font.cellData, v: text } };
    drawText.call(this, pen, row, column, cell, ...others);
    cell.fontCache = font;
  };
  // A result that spills has its number elsewhere than its cell: the library would let it run over the cells beside it.
  const measuring = SpreadsheetSkeleton.prototype as unknown as OverflowMeasuring;
  const measureOverflow = measuring._calculateOverflowCell;
  measuring._calculateOverflowCell = function (this: OverflowMeasuring, row, column, font) {
    return !font.documentSkeleton && isNumber(font.cellData) ? true : measureOverflow.call(this, row, column, font);
  };
}

function isNumber(cell: Nullable<ICellData>): boolean {
  const type = cell?.t ?? (typeof cell?.v === 'number' ? CellValueType.NUMBER : undefined);
  return type === CellValueType.NUMBER && cell?.v !== undefined && cell.v !== null;
}

function textOf(font: CellFont, cellWidth: number): string {
  const { cellData, style, fontString = '' } = font;
  const full = String(cellData?.v);
  const width = cellWidth - (style?.pd?.l ?? PADDING) - (style?.pd?.r ?? PADDING) + SLACK;
  const before = drawn.get(font);
  if (before?.full === full && before.width === width && before.font === fontString) return before.text;
  const value = isDefaultFormat(style?.n?.pattern) ? Number(cellData?.v) : undefined;
  const measure = (text: string): number => FontCache.getMeasureText(text, fontString).width;
  const text = numberToFit(full, value, { width, measure });
  drawn.set(font, { text, full, font: fontString, width });
  return text;
}

/** What was drawn last of the number in a cell of the sheet in view; undefined where none was. */
export function drawnNumber(grid: Grid, row: number, column: number): string | undefined {
  const font = skeletonOf(grid)?.getFont(row, column) as Nullable<CellFont>;
  return font ? drawn.get(font)?.text : undefined;
}

/** All of the number that signs stand for in a cell of the sheet in view, as it is now; undefined where they do not. */
export function hiddenNumber(grid: Grid, row: number, column: number): string | undefined {
  const skeleton = skeletonOf(grid);
  const cellData = skeleton?.worksheet.getCell(row, column);
  if (!skeleton || !cellData || !isNumber(cellData) || cellData.p) return undefined;
  const style = skeleton.worksheet.getComposedCellStyleByCellData(row, column, cellData);
  if (style.tr?.a || style.tr?.v) return undefined;
  const place = skeleton.getCellWithCoordByIndex(row, column);
  const { startX, endX } = place.isMergedMainCell ? place.mergeInfo : place;
  const font = { cellData, style, fontString: getFontStyleString(style).fontCache };
  return /^#+$/.test(textOf(font, endX - startX)) ? String(cellData.v).trim() : undefined;
}

const skeletonOf = (grid: Grid): Nullable<SpreadsheetSkeleton> =>
  grid.api.getActiveWorkbook()?.getActiveSheet().getSkeleton();
