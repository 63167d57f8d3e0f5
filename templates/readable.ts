import type { ModelSheet } from '../src/workbook/model.ts';
import { CHARACTER_PIXELS, DEFAULT_WIDTH } from '../src/workbook/sheet-frame.ts';
import { letter } from './layout.ts';

/** px of columns that a page of 1280 px shows beside the task pane */
const SHOWN = 880;
/** px of a character of a note where Calibri is not there and a wide font stands in for it, the ends of lines counted in */
const NOTE_CHARACTER = 7.2;
/** points of a line of a note */
const NOTE_LINE = 14;

/**
 * The sheet with the note under its title in as many lines as it needs to be read without scrolling, over the columns that
 * are in view. Other programs break lines only within the cell that a text stands in, so the cells are merged.
 */
export function withReadableNote(sheet: ModelSheet): ModelSheet {
  const note = sheet.cells?.A2;
  if (typeof note !== 'object' || note === null || note.look !== 'note' || typeof note.value !== 'string') return sheet;
  const needed = note.value.length * NOTE_CHARACTER;
  if (needed <= SHOWN) return sheet;
  let [last, width] = [-1, 0];
  for (const characters of sheet.widths ?? []) {
    const next = width + (characters === undefined ? DEFAULT_WIDTH : characters * CHARACTER_PIXELS);
    if (last >= 0 && next > SHOWN) break;
    [last, width] = [last + 1, next];
  }
  const lines = Math.ceil(needed / width);
  return {
    ...sheet,
    heights: { ...sheet.heights, 2: lines * NOTE_LINE },
    merges: [...(sheet.merges ?? []), `A2:${letter(last)}2`],
    cells: { ...sheet.cells, A2: { ...note, wrap: true } },
  };
}
