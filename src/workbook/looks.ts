import type { AlignmentStyle, BorderStyle, CellStyle, FillStyle } from 'hucre';
import type { Look, ModelCell } from './model.ts';

/** How cells of a built workbook look. Text stands out from its ground by at least 7:1 (WCAG 2.2, enhanced contrast). */
const INK = '1D2B33';
const DEEP = '12424A';
const FONT = 'Calibri';
const INPUT_GROUND = 'FFF8DC';
const INPUT_INK = '0B3D91';
const FIGURE_GROUND = 'E3F1F1';
const CAUTION_GROUND = 'FCE9D9';
const LINE = 'A9B7BC';

const solid = (rgb: string): FillStyle => ({ type: 'pattern', pattern: 'solid', fgColor: { rgb } });
const thin = { style: 'thin', color: { rgb: LINE } } as const;
const box: BorderStyle = { top: thin, right: thin, bottom: thin, left: thin };
/** One line through a label, its cell and its unit, however tall the row. */
const middle: AlignmentStyle = { vertical: 'center' };
const wrapped: AlignmentStyle = { vertical: 'center', wrapText: true };

const LOOKS: Readonly<Record<Look, CellStyle>> = {
  title: { font: { name: FONT, size: 18, bold: true, color: { rgb: DEEP } } },
  heading: { font: { name: FONT, size: 13, bold: true, color: { rgb: DEEP } } },
  header: {
    font: { name: FONT, size: 11, bold: true, color: { rgb: 'FFFFFF' } },
    fill: solid(DEEP),
    border: box,
    alignment: { vertical: 'center', wrapText: true },
  },
  text: { font: { name: FONT, size: 11, color: { rgb: INK } }, alignment: wrapped },
  label: { font: { name: FONT, size: 11, bold: true, color: { rgb: INK } }, alignment: middle },
  input: {
    font: { name: FONT, size: 11, color: { rgb: INPUT_INK } },
    fill: solid(INPUT_GROUND),
    border: box,
    alignment: middle,
    protection: { locked: false },
  },
  formula: { font: { name: FONT, size: 11, color: { rgb: INK } }, alignment: middle },
  figure: {
    font: { name: FONT, size: 16, bold: true, color: { rgb: DEEP } },
    fill: solid(FIGURE_GROUND),
    border: box,
    alignment: middle,
  },
  note: { font: { name: FONT, size: 10, italic: true, color: { rgb: '3D4C54' } }, alignment: wrapped },
  caution: {
    font: { name: FONT, size: 11, color: { rgb: '5A1E00' } },
    fill: solid(CAUTION_GROUND),
    alignment: wrapped,
  },
  link: { font: { name: FONT, size: 11, underline: true, color: { rgb: INPUT_INK } } },
};

export const BASE_FONT = { name: FONT, size: 11 };

/** The look of a cell of a built workbook; undefined when it has none of its own. */
export function styleOf(cell: ModelCell): CellStyle | undefined {
  const look = cell.look === undefined ? undefined : LOOKS[cell.look];
  const alignment: AlignmentStyle = { ...look?.alignment };
  if (cell.align !== undefined) alignment.horizontal = cell.align;
  if (cell.wrap !== undefined) alignment.wrapText = cell.wrap;
  const style: CellStyle = { ...look };
  if (Object.keys(alignment).length > 0) style.alignment = alignment;
  if (cell.format !== undefined) style.numFmt = cell.format;
  return Object.keys(style).length === 0 ? undefined : style;
}
