import {
  type Block,
  blockName,
  columnLetters,
  MOST_COLUMNS,
  MOST_ROWS,
  parseBlock,
  quoteSheetName,
} from './address.ts';

/**
 * What was done to rows, columns, cells and names of sheets. Formulas and names follow by themselves; what a file says of
 * its cells beside them (lists, charts, comments) has to be brought along. Rows and columns count from 0.
 */
export type SheetEdit =
  | {
      readonly kind: 'insert' | 'remove';
      /** name of the sheet at that time */
      readonly sheet: string;
      readonly axis: 'row' | 'column';
      readonly at: number;
      readonly count: number;
      /** the columns, or rows, in which cells came or went, both ends included; absent where they are whole rows or columns */
      readonly across?: { readonly first: number; readonly last: number };
    }
  | { readonly kind: 'rename'; readonly sheet: string; readonly to: string };

type Shift = Extract<SheetEdit, { kind: 'insert' | 'remove' }>;

/** Where first and last of a run of rows or columns stand afterwards; undefined when all of them are gone. */
function movedRun(
  first: number,
  last: number,
  most: number,
  { kind, at, count }: Shift,
): readonly [number, number] | undefined {
  const end = at + count;
  if (kind === 'insert') {
    const from = first >= at ? first + count : first;
    // what is pushed over the end of the sheet is gone
    return from >= most ? undefined : [from, Math.min(most - 1, last >= at ? last + count : last)];
  }
  const from = first < at ? first : Math.max(first - count, at);
  const to = last < at ? last : Math.max(last - count, at - (last < end ? 1 : 0));
  return first >= at && last < end ? undefined : [from, to];
}

/** A block as seen along an edit, and across it: the rows and columns of one of rows, the columns and rows of one of columns. */
function sides(block: Block, { axis }: Shift) {
  const { startRow, endRow, startColumn, endColumn } = block;
  return axis === 'row'
    ? { first: startRow, last: endRow, most: MOST_ROWS, left: startColumn, right: endColumn }
    : { first: startColumn, last: endColumn, most: MOST_COLUMNS, left: startRow, right: endRow };
}

/**
 * A range after an edit of its own sheet, as references take it: cells alone move it where they reach across all of it.
 * Undefined when it is gone. Whole columns and rows stay whole.
 */
export function movedBlock(block: Block, edit: Shift): Block | undefined {
  const { first, last, most, left, right } = sides(block, edit);
  if (first === 0 && last === most - 1) return block;
  if (edit.across !== undefined && (left < edit.across.first || right > edit.across.last)) return block;
  const run = movedRun(first, last, most, edit);
  if (run === undefined) return undefined;
  const [from, to] = run;
  return edit.axis === 'row'
    ? { ...block, startRow: from, endRow: to }
    : { ...block, startColumn: from, endColumn: to };
}

/** The sheet under its name of now: the edits of one sheet, told by the name that it had at first. */
export function editsOf(edits: readonly SheetEdit[], sheet: string): Shift[] {
  let name = sheet;
  return edits.flatMap((edit) => {
    if (edit.sheet !== name) return [];
    if (edit.kind !== 'rename') return [edit];
    name = edit.to;
    return [];
  });
}

export function movedBlocks(block: Block, edits: readonly Shift[]): Block | undefined {
  return edits.reduce<Block | undefined>((moved, edit) => moved && movedBlock(moved, edit), block);
}

/** Rows, or columns, of a list that are whole, as those that begin a page, without those that are gone. */
export function movedLines(lines: readonly number[], axis: Shift['axis'], edits: readonly Shift[]): number[] {
  return lines.flatMap((at) => {
    const whole = { startRow: 0, endRow: MOST_ROWS - 1, startColumn: 0, endColumn: MOST_COLUMNS - 1 };
    const line = axis === 'row' ? { ...whole, startRow: at, endRow: at } : { ...whole, startColumn: at, endColumn: at };
    const moved = movedBlocks(line, edits);
    if (moved === undefined) return [];
    return [axis === 'row' ? moved.startRow : moved.startColumn];
  });
}

/** Where the cells of a block stand after the edits, each of them: in several blocks where cells alone came or went. */
export function movedCells(block: Block, edits: readonly Shift[]): Block[] {
  return edits.reduce(
    (blocks, edit) => blocks.flatMap((one) => pieces(one, edit).flatMap((piece) => movedBlock(piece, edit) ?? [])),
    [block],
  );
}

/** The block cut where an edit of cells alone moves a part of it. */
function pieces(block: Block, edit: Shift): Block[] {
  const { first, last, most, left, right } = sides(block, edit);
  if (edit.across === undefined || last < edit.at || (first === 0 && last === most - 1)) return [block];
  const { first: from, last: to } = edit.across;
  const cuts = [
    [left, Math.min(right, from - 1)],
    [Math.max(left, from), Math.min(right, to)],
    [Math.max(left, to + 1), right],
  ] as const;
  return cuts
    .filter(([start, end]) => start <= end)
    .map(([start, end]) =>
      edit.axis === 'row'
        ? { ...block, startColumn: start, endColumn: end }
        : { ...block, startRow: start, endRow: end },
    );
}

const REFERENCE = /^(?:'((?:[^']|'')+)'|([^'!]+))!(.+)$/;
/** What stands in the place of a reference to cells that are gone. */
export const GONE = '#REF!';

/**
 * A reference to a range of a sheet, such as 'Pipe runs'!$A$5:$B$9, after the edits. What is no such reference stays; a
 * range that is gone becomes #REF!.
 */
export function movedReference(text: string, edits: readonly SheetEdit[]): string {
  const match = REFERENCE.exec(text);
  if (match === null) return text;
  const sheet = match[1]?.replaceAll("''", "'") ?? match[2] ?? '';
  const range = match[3] ?? '';
  let name = sheet;
  for (const edit of edits) if (edit.kind === 'rename' && edit.sheet === name) name = edit.to;
  const own = editsOf(edits, sheet);
  if (name === sheet && own.length === 0) return text;
  const cells = own.length === 0 ? range : movedRange(range, own);
  return `${quoteSheetName(name)}!${cells}`;
}

/** A range in A1 style after the edits of its sheet; fixed parts ($) stay fixed. */
export function movedRange(range: string, edits: readonly Shift[]): string {
  const block = parseBlock(range);
  if (block === undefined) return range;
  const moved = movedBlocks(block, edits);
  if (moved === undefined) return GONE;
  const [left = '', right] = range.split(':');
  const from = movedCorner(left, moved.startRow, moved.startColumn);
  return right === undefined ? from : `${from}:${movedCorner(right, moved.endRow, moved.endColumn)}`;
}

/** One end of a range in another place: a cell, a whole column or a whole row, its parts as fixed as they were. */
function movedCorner(end: string, row: number, column: number): string {
  return end.replace(/[A-Za-z]+/, columnLetters(column)).replace(/\d+/, String(row + 1));
}

/** The cells of a list of ranges as files write them, with blanks between; '' when nothing is left. */
export function movedRanges(text: string, edits: readonly Shift[]): string {
  return text
    .split(/\s+/)
    .flatMap((range) => {
      const block = edits.some(({ across }) => across) ? parseBlock(range) : undefined;
      return block === undefined ? [movedRange(range, edits)] : movedCells(block, edits).map(blockName);
    })
    .filter((range) => range !== GONE)
    .join(' ');
}
