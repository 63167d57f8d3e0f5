import type { IBorderStyleData, IColorStyle, IStyleData, Nullable } from '@univerjs/core';
import type { BorderLineStyle, BorderSide, CellStyle, Color, FontStyle } from 'hucre';

/** The sheet's numbers for alignment, wrapping and lines, as files name them. */
const HORIZONTAL = ['general', 'left', 'center', 'right', 'justify', 'justify', 'distributed'] as const;
const VERTICAL = [undefined, 'top', 'center', 'bottom'] as const;
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

/** A look of the sheet as a file has it. */
export function fileStyle(look: IStyleData): CellStyle {
  const style: CellStyle = {};
  const font = fontOf(look);
  if (Object.keys(font).length > 0) style.font = font;
  const ground = colourOf(look.bg);
  if (ground !== undefined) style.fill = { type: 'pattern', pattern: 'solid', fgColor: ground };
  if (look.bd) {
    const { t, r, b, l } = look.bd;
    const sides = { top: sideOf(t), right: sideOf(r), bottom: sideOf(b), left: sideOf(l) };
    style.border = Object.fromEntries(Object.entries(sides).filter(([, side]) => side !== undefined));
  }
  const alignment: CellStyle['alignment'] = {};
  const across = HORIZONTAL[look.ht ?? 0];
  if (across !== undefined && across !== 'general') alignment.horizontal = across;
  const down = VERTICAL[look.vt ?? 0];
  if (down !== undefined) alignment.vertical = down;
  if (look.tb === WRAP) alignment.wrapText = true;
  if (look.tr?.a) alignment.textRotation = -look.tr.a;
  if (Object.keys(alignment).length > 0) style.alignment = alignment;
  if (look.n?.pattern) style.numFmt = look.n.pattern;
  return style;
}

function fontOf(look: IStyleData): FontStyle {
  const font: FontStyle = {};
  if (look.ff) font.name = look.ff;
  if (look.fs !== undefined) font.size = look.fs;
  if (look.bl === 1) font.bold = true;
  if (look.it === 1) font.italic = true;
  if (look.ul?.s === 1) font.underline = true;
  if (look.st?.s === 1) font.strikethrough = true;
  const ink = colourOf(look.cl);
  if (ink !== undefined) font.color = ink;
  return font;
}

function sideOf(line: Nullable<IBorderStyleData>): BorderSide | undefined {
  const style = LINES[line?.s ?? 0];
  if (style === undefined) return undefined;
  const color = colourOf(line?.cl);
  return color === undefined ? { style } : { style, color };
}

/** #RRGGBB or rgb(r, g, b), the two that the sheet writes; undefined for its own default. */
export function colourOf(given: Nullable<IColorStyle>): Color | undefined {
  const text = given?.rgb?.trim() ?? '';
  const hex = /^#([0-9a-f]{6})/i.exec(text)?.[1];
  if (hex !== undefined) return { rgb: hex.toUpperCase() };
  const short = /^#([0-9a-f])([0-9a-f])([0-9a-f])$/i.exec(text);
  if (short !== null)
    return {
      rgb: [...short.slice(1)]
        .map((digit) => digit + digit)
        .join('')
        .toUpperCase(),
    };
  const parts = /^rgba?\(\s*(\d+)\s*,\s*(\d+)\s*,\s*(\d+)/i.exec(text);
  if (parts === null) return undefined;
  const rgb = parts
    .slice(1, 4)
    .map((part) => Math.min(255, Number(part)).toString(16).padStart(2, '0'))
    .join('');
  return { rgb: rgb.toUpperCase() };
}
