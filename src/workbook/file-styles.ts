import type { IBorderStyleData, IColorStyle, IStyleData, Nullable } from '@univerjs/core';
import type { AlignmentStyle, BorderLineStyle, BorderSide, BorderStyle, CellStyle, Color, FontStyle } from 'hucre';

/** Looks of cells: from the sheet's records to a file's. The way back is in `styles.ts`. */

const HORIZONTAL: readonly (AlignmentStyle['horizontal'] | undefined)[] = [
  undefined,
  'left',
  'center',
  'right',
  'justify',
  'justify',
  'distributed',
];
const VERTICAL: readonly (AlignmentStyle['vertical'] | undefined)[] = [undefined, 'top', 'center', 'bottom'];
const WRAP = 3;
const LINES: readonly (BorderLineStyle | undefined)[] = [
  undefined,
  'thin',
  'hair',
  'dotted',
  'dashed',
  'dashDot',
  'dashDotDot',
  'double',
  'medium',
  'mediumDashed',
  'mediumDashDot',
  'mediumDashDotDot',
  'slantDashDot',
  'thick',
];
const INDENT_PIXELS = 9;

/** The sheet's look as a file's; undefined when there is nothing in it. */
export function fileStyle(look: Nullable<IStyleData>): CellStyle | undefined {
  if (look === undefined || look === null) return undefined;
  const style: CellStyle = {};
  const font = fontOf(look);
  if (Object.keys(font).length > 0) style.font = font;
  const ground = colourOf(look.bg);
  if (ground !== undefined) style.fill = { type: 'pattern', pattern: 'solid', fgColor: ground };
  const border = borderOf(look);
  if (border !== undefined) style.border = border;
  const alignment = alignmentOf(look);
  if (Object.keys(alignment).length > 0) style.alignment = alignment;
  if (look.n?.pattern !== undefined && look.n.pattern !== '') style.numFmt = look.n.pattern;
  return Object.keys(style).length === 0 ? undefined : style;
}

function fontOf(look: IStyleData): FontStyle {
  const font: FontStyle = {};
  if (typeof look.ff === 'string') font.name = look.ff;
  if (typeof look.fs === 'number') font.size = look.fs;
  if (look.bl === 1) font.bold = true;
  if (look.it === 1) font.italic = true;
  if (look.ul?.s === 1) font.underline = true;
  if (look.st?.s === 1) font.strikethrough = true;
  const ink = colourOf(look.cl);
  if (ink !== undefined) font.color = ink;
  return font;
}

function borderOf({ bd }: IStyleData): BorderStyle | undefined {
  const border: BorderStyle = {};
  const top = sideOf(bd?.t);
  const right = sideOf(bd?.r);
  const bottom = sideOf(bd?.b);
  const left = sideOf(bd?.l);
  if (top !== undefined) border.top = top;
  if (right !== undefined) border.right = right;
  if (bottom !== undefined) border.bottom = bottom;
  if (left !== undefined) border.left = left;
  return Object.keys(border).length === 0 ? undefined : border;
}

function sideOf(line: Nullable<IBorderStyleData>): BorderSide | undefined {
  const style = LINES[line?.s ?? 0];
  if (style === undefined) return undefined;
  const color = colourOf(line?.cl);
  return color === undefined ? { style } : { style, color };
}

function alignmentOf(look: IStyleData): AlignmentStyle {
  const alignment: AlignmentStyle = {};
  const across = HORIZONTAL[look.ht ?? 0];
  const down = VERTICAL[look.vt ?? 0];
  if (across !== undefined) alignment.horizontal = across;
  if (down !== undefined) alignment.vertical = down;
  if (look.tb === WRAP) alignment.wrapText = true;
  if (look.pd?.l !== undefined && look.pd.l >= INDENT_PIXELS) alignment.indent = Math.round(look.pd.l / INDENT_PIXELS);
  if (look.tr?.a !== undefined && look.tr.a !== 0) alignment.textRotation = -look.tr.a;
  return alignment;
}

/** #RRGGBB or rgb(r, g, b) as RRGGBB. */
function colourOf(given: Nullable<IColorStyle>): Color | undefined {
  const text = given?.rgb ?? '';
  const hex = /^#?([0-9a-f]{6})$/i.exec(text)?.[1];
  if (hex !== undefined) return { rgb: hex.toUpperCase() };
  const channels = /^rgba?\(\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)/i.exec(text);
  if (channels === null) return undefined;
  const rgb = [1, 2, 3].map((at) => Math.min(Number(channels[at]), 255).toString(16).padStart(2, '0')).join('');
  return { rgb: rgb.toUpperCase() };
}
