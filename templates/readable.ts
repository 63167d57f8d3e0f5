import type { ModelSheet } from '../src/workbook/model.ts';
import { columnBreaks } from '../src/workbook/page-setup.ts';
import { CHARACTER_PIXELS, DEFAULT_WIDTH } from '../src/workbook/sheet-frame.ts';
import { letter } from './layout.ts';

/** px of columns that a page of 1280 px shows beside the task pane */
const SHOWN = 880;
/** px of a character where Calibri is not there and a wide font stands in for it, the ends of lines counted in; points of a line */
const LOOKS = { note: { character: 7.2, line: 14 }, text: { character: 8.4, line: 17 } } as const;

/** Columns, from A to `last`, and points of height in which a text is read without scrolling. */
interface Room {
  readonly last: string;
  readonly height: number;
}

/**
 * The room that a text at the left of a sheet needs; undefined where it runs on over blank cells in one line.
 * @param most columns that it may go over: a page may end with the last one
 */
export function roomFor(
  text: string,
  look: keyof typeof LOOKS,
  widths: ModelSheet['widths'] = [],
  most = widths.length,
): Room | undefined {
  const { character, line } = LOOKS[look];
  const needed = text.length * character;
  if (needed <= SHOWN) return undefined;
  let [last, width] = [-1, 0];
  for (const characters of widths.slice(0, most)) {
    const next = width + (characters === undefined ? DEFAULT_WIDTH : characters * CHARACTER_PIXELS);
    if (last >= 0 && next > SHOWN) break;
    [last, width] = [last + 1, next];
  }
  return { last: letter(last), height: Math.ceil(needed / width) * line };
}

/**
 * The sheet with the note under its title in as many lines as it needs to be read without scrolling, over the columns that
 * are in view. Other programs break lines only within the cell that a text stands in, so the cells are merged.
 */
export function withReadableNote(sheet: ModelSheet): ModelSheet {
  const note = sheet.cells?.A2;
  if (typeof note !== 'object' || note === null || note.look !== 'note' || typeof note.value !== 'string') return sheet;
  const room = roomFor(note.value, 'note', sheet.widths, columnBreaks(sheet)[0]);
  if (room === undefined) return sheet;
  return {
    ...sheet,
    heights: { ...sheet.heights, 2: room.height },
    merges: [...(sheet.merges ?? []), `A2:${room.last}2`],
    cells: { ...sheet.cells, A2: { ...note, wrap: true } },
  };
}
