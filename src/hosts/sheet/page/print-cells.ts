import { type IStyleData, isDefaultFormat, numfmt } from '@univerjs/core';
import { FontCache } from '@univerjs/preset-sheets-core';
import { type Cell, isBlank, isCellError } from '../../../tables/cells.ts';
import { numberToFit, SIDES } from '../number-to-fit.ts';

const HORIZONTAL: readonly string[] = ['', 'left', 'center', 'right', 'justify'];
const POINTS_PER_PIXEL = 0.75;
const DEFAULT_SIZE = 11;

/**
 * Puts into a cell on paper what it shows.
 *
 * @param width px of the cell in its own size
 */
export function fillCell(box: HTMLElement, cell: Cell, look: IStyleData, width: number): void {
  box.textContent = typeof cell === 'number' ? shownNumber(cell, look, width - SIDES) : shown(cell);
}

function shown(cell: Cell): string {
  if (isBlank(cell)) return '';
  if (isCellError(cell)) return cell.error;
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return String(cell);
}

/**
 * A number as far as its cell has room for it, as on the screen.
 *
 * @param width px for the number in its own size
 */
function shownNumber(value: number, look: IStyleData, width: number): string {
  const measure = (text: string): number => FontCache.getMeasureText(text, fontOf(look)).width;
  const plain = Number(value.toPrecision(10));
  const pattern = look.n?.pattern;
  if (isDefaultFormat(pattern)) return numberToFit(String(plain), plain, { width, measure });
  return numberToFit(formatted(value, pattern), undefined, { width, measure });
}

function formatted(value: number, pattern: string): string {
  try {
    return numfmt.format(pattern, value);
  } catch {
    return String(value);
  }
}

/** The font of paper, as the style sheet of the page has it, in its own size. */
function fontOf(look: IStyleData): string {
  const words = [look.it === 1 ? 'italic' : '', look.bl === 1 ? 'bold' : ''];
  return `${words.join(' ')} ${(look.fs ?? DEFAULT_SIZE) / POINTS_PER_PIXEL}px Calibri, sans-serif`.trim();
}

/** Gives a cell on paper the looks of one of the sheet. */
export function dress(box: HTMLElement, look: IStyleData, cell: Cell, scale: number): void {
  box.style.fontSize = `${((look.fs ?? DEFAULT_SIZE) * scale) / POINTS_PER_PIXEL}px`;
  if (look.bl === 1) box.style.fontWeight = 'bold';
  if (look.it === 1) box.style.fontStyle = 'italic';
  if (typeof cell === 'number') box.style.whiteSpace = 'nowrap';
  box.style.color = look.cl?.rgb ?? '';
  box.style.backgroundColor = look.bg?.rgb ?? '';
  if (look.bd?.b) box.classList.add('nw-boxed');
  box.style.textAlign = HORIZONTAL[look.ht ?? 0] || (typeof cell === 'number' ? 'right' : 'left');
}
