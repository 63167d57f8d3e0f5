import type {
  HorizontalAlign,
  IBorderStyleData,
  IColorStyle,
  IStyleData,
  VerticalAlign,
  WrapStrategy,
} from '@univerjs/core';
import type { BorderSide, CellStyle, Color } from 'hucre';

/** Looks of cells: from a file's records to the sheet's. Colours leave as #RRGGBB. */

/** The sheet's numbers for alignment, wrapping and lines; its own names are not imported so that this folder stays light. */
const HORIZONTAL: Readonly<Record<string, HorizontalAlign>> = {
  left: 1,
  center: 2,
  centerContinuous: 2,
  right: 3,
  justify: 4,
  distributed: 6,
};
const VERTICAL: Readonly<Record<string, VerticalAlign>> = { top: 1, center: 2, bottom: 3 };
const WRAP: WrapStrategy = 3;
const LINES: Readonly<Record<string, number>> = {
  thin: 1,
  hair: 2,
  dotted: 3,
  dashed: 4,
  dashDot: 5,
  dashDotDot: 6,
  double: 7,
  medium: 8,
  mediumDashed: 9,
  mediumDashDot: 10,
  mediumDashDotDot: 11,
  slantDashDot: 12,
  thick: 13,
};
/** Pixels of one step of indentation: three blanks of the usual font. */
const INDENT_PIXELS = 9;

/** The first 64 indexed colours (ISO/IEC 29500-1 §18.8.27): 8 twice, then the old palette. */
const PRIMARY = ['000000', 'FFFFFF', 'FF0000', '00FF00', '0000FF', 'FFFF00', 'FF00FF', '00FFFF'];
const INDEXED = [
  ...PRIMARY,
  ...PRIMARY,
  ...'800000 008000 000080 808000 800080 008080 C0C0C0 808080 9999FF 993366 FFFFCC CCFFFF 660066 FF8080 0066CC CCCCFF'.split(
    ' ',
  ),
  ...'000080 FF00FF FFFF00 00FFFF 800080 800000 008080 0000FF 00CCFF CCFFFF CCFFCC FFFF99 99CCFF FF99CC CC99FF FFCC99'.split(
    ' ',
  ),
  ...'3366FF 33CCCC 99CC00 FFCC00 FF9900 FF6600 666699 969696 003366 339966 003300 333300 993300 993366 333399 333333'.split(
    ' ',
  ),
];

/** A file's look as the sheet's. `theme` holds the file's theme colours by index, as RRGGBB. */
export function sheetStyle(style: CellStyle, theme: readonly string[]): IStyleData {
  const { font, fill, border, alignment, numFmt } = style;
  const look: IStyleData = {};
  if (font?.name !== undefined) look.ff = font.name;
  if (font?.size !== undefined) look.fs = font.size;
  if (font?.bold === true) look.bl = 1;
  if (font?.italic === true) look.it = 1;
  if (font?.underline !== undefined && font.underline !== false) look.ul = { s: 1 };
  if (font?.strikethrough === true) look.st = { s: 1 };
  const ink = colour(font?.color, theme);
  if (ink !== undefined) look.cl = ink;
  if (fill?.type === 'pattern' && fill.pattern === 'solid') {
    const ground = colour(fill.fgColor ?? fill.bgColor, theme);
    if (ground !== undefined) look.bg = ground;
  }
  if (border !== undefined) {
    const sides = {
      t: side(border.top, theme),
      r: side(border.right, theme),
      b: side(border.bottom, theme),
      l: side(border.left, theme),
    };
    const drawn = Object.fromEntries(Object.entries(sides).filter(([, line]) => line !== undefined));
    if (Object.keys(drawn).length > 0) look.bd = drawn;
  }
  const across = HORIZONTAL[alignment?.horizontal ?? ''];
  if (across !== undefined) look.ht = across;
  const down = VERTICAL[alignment?.vertical ?? ''];
  if (down !== undefined) look.vt = down;
  if (alignment?.wrapText === true) look.tb = WRAP;
  if (alignment?.indent !== undefined && alignment.indent > 0) look.pd = { l: alignment.indent * INDENT_PIXELS };
  if (alignment?.textRotation !== undefined && alignment.textRotation !== 0) look.tr = { a: -alignment.textRotation };
  if (numFmt !== undefined && numFmt !== 'General') look.n = { pattern: numFmt };
  return look;
}

function side(line: BorderSide | undefined, theme: readonly string[]): IBorderStyleData | undefined {
  const kind = LINES[line?.style ?? ''];
  if (kind === undefined) return undefined;
  return { s: kind, cl: colour(line?.color, theme) ?? { rgb: '#000000' } };
}

/** Colour as #RRGGBB; undefined when the file leaves it to the program. */
export function colour(given: Color | undefined, theme: readonly string[]): IColorStyle | undefined {
  if (given === undefined) return undefined;
  const base =
    given.rgb ??
    (given.theme !== undefined ? theme[given.theme] : undefined) ??
    (given.indexed !== undefined ? INDEXED[given.indexed] : undefined);
  if (base === undefined || !/^[0-9a-f]{6,8}$/i.test(base)) return undefined;
  const rgb = base.slice(-6);
  return { rgb: `#${given.tint === undefined || given.tint === 0 ? rgb.toUpperCase() : tinted(rgb, given.tint)}` };
}

/** Lighter (tint above 0) or darker by the luminance of HSL (ISO/IEC 29500-1 §18.8.19), done on each channel. */
function tinted(rgb: string, tint: number): string {
  return [0, 2, 4]
    .map((at) => {
      const value = Number.parseInt(rgb.slice(at, at + 2), 16);
      const turned = tint < 0 ? value * (1 + tint) : value + (255 - value) * tint;
      return Math.round(Math.min(Math.max(turned, 0), 255))
        .toString(16)
        .toUpperCase()
        .padStart(2, '0');
    })
    .join('');
}
