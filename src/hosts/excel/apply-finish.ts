import type { BorderSide, Color } from 'hucre';
import { styleOf } from '../../workbook/looks.ts';
import type { Finish } from './sheet-plan.ts';

const EDGES = ['EdgeTop', 'EdgeRight', 'EdgeBottom', 'EdgeLeft', 'InsideHorizontal', 'InsideVertical'] as const;

/** Gives cells the look that the workbook's file gives them; the looks themselves are decided there. */
export function applyFinish(range: Excel.Range, finish: Finish, rows: number, columns: number): void {
  const style = styleOf(finish);
  if (style === undefined) return;
  const { alignment, border, fill, font, numFmt } = style;
  const { format } = range;
  if (font?.name !== undefined) format.font.name = font.name;
  if (font?.size !== undefined) format.font.size = font.size;
  if (font?.bold === true) format.font.bold = true;
  if (font?.italic === true) format.font.italic = true;
  if (font?.underline === true) format.font.underline = 'Single';
  const ink = hex(font?.color);
  if (ink !== undefined) format.font.color = ink;
  const ground = fill?.type === 'pattern' && fill.pattern === 'solid' ? hex(fill.fgColor) : undefined;
  if (ground !== undefined) format.fill.color = ground;
  if (border?.top !== undefined) for (const edge of EDGES) line(format.borders.getItem(edge), border.top);
  if (alignment?.vertical === 'top') format.verticalAlignment = 'Top';
  if (alignment?.vertical === 'center') format.verticalAlignment = 'Center';
  if (alignment?.wrapText !== undefined) format.wrapText = alignment.wrapText;
  const across = { left: 'Left', center: 'Center', right: 'Right' } as const;
  if (finish.align !== undefined) format.horizontalAlignment = across[finish.align];
  if (numFmt !== undefined) {
    range.numberFormat = Array.from({ length: rows }, () => Array.from({ length: columns }, () => numFmt));
  }
}

function line(border: Excel.RangeBorder, side: BorderSide): void {
  border.style = 'Continuous';
  border.weight = 'Thin';
  const ink = hex(side.color);
  if (ink !== undefined) border.color = ink;
}

function hex(color: Color | undefined): string | undefined {
  return color?.rgb === undefined ? undefined : `#${color.rgb.slice(-6)}`;
}
