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
  | {
      readonly kind: 'move';
      readonly sheet: string;
      readonly axis: 'row' | 'column';
      readonly at: number;
      readonly count: number;
      /** the row or column, as counted before, in front of which they come to stand */
      readonly to: number;
      readonly across?: undefined;
    }
  | { readonly kind: 'rename'; readonly sheet: string; readonly to: string }
  /** the sheet is taken out */
  | { readonly kind: 'drop'; readonly sheet: string };

type Move = Extract<SheetEdit, { kind: 'move' }>;
type Shift = Extract<SheetEdit, { kind: 'insert' | 'remove' }>;
/** What is done to rows, columns or cells of one sheet. */
export type LineEdit = Shift | Move;

/** Where a row, or column, stands after a move. */
export function placeAfter({ at, count, to }: Move, line: number): number {
  const end = at + count;
  if (to >= at && to <= end) return line;
  if (line >= at && line < end) return line - at + (to < at ? to : to - count);
  if (to < at) return line >= to && line < at ? line + count : line;
  return line >= end && line < to ? line - count : line;
}

/**
 * Where a run of rows or columns stands after a move of some. It spans those of its own that stayed, and with them what came
 * in between; those that moved belong to it where they stand among or right beside these, and alone where all of it moved.
 */
function runAfter(first: number, last: number, move: Move): readonly [number, number] {
  const { at, count } = move;
  const end = at + count;
  const place = (line: number): number => placeAfter(move, line);
  const moves = (line: number): boolean => line >= at && line < end;
  if (last < at || first >= end || (moves(first) && moves(last))) return [place(first), place(last)];
  const stay = [place(moves(first) ? end : first), place(moves(last) ? at - 1 : last)] as const;
  const gone = [place(Math.max(first, at)), place(Math.min(last, end - 1))] as const;
  return gone[1] < stay[0] - 1 || gone[0] > stay[1] + 1
    ? stay
    : [Math.min(stay[0], gone[0]), Math.max(stay[1], gone[1])];
}

/** Where first and last of a run of rows or columns stand afterwards; undefined when all of them are gone. */
function movedRun(first: number, last: number, most: number, edit: LineEdit): readonly [number, number] | undefined {
  if (edit.kind === 'move') return runAfter(first, last, edit);
  const { kind, at, count } = edit;
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
function sides(block: Block, { axis }: LineEdit) {
  const { startRow, endRow, startColumn, endColumn } = block;
  return axis === 'row'
    ? { first: startRow, last: endRow, most: MOST_ROWS, left: startColumn, right: endColumn }
    : { first: startColumn, last: endColumn, most: MOST_COLUMNS, left: startRow, right: endRow };
}

/**
 * A range after an edit of its own sheet, as references take it: cells alone move it where they reach across all of it.
 * Undefined when it is gone. Whole columns and rows stay whole.
 */
export function movedBlock(block: Block, edit: LineEdit): Block | undefined {
  const { first, last, most, left, right } = sides(block, edit);
  if (first === 0 && last === most - 1) return block;
  if (edit.across !== undefined && (left < edit.across.first || right > edit.across.last)) return block;
  const run = movedRun(first, last, most, edit);
  if (run === undefined) return undefined;
  return along(block, edit, ...run);
}

/** The sheet under its name of now: the edits of one sheet, told by the name that it had at first. */
export function editsOf(edits: readonly SheetEdit[], sheet: string): LineEdit[] {
  let name: string | undefined = sheet;
  return edits.flatMap((edit) => {
    if (edit.sheet !== name) return [];
    if (edit.kind !== 'rename' && edit.kind !== 'drop') return [edit];
    // another sheet may take the name of one that is gone
    name = edit.kind === 'rename' ? edit.to : undefined;
    return [];
  });
}

export function movedBlocks(block: Block, edits: readonly LineEdit[]): Block | undefined {
  return edits.reduce<Block | undefined>((moved, edit) => moved && movedBlock(moved, edit), block);
}

/** Rows, or columns, of a list that are whole, as those that begin a page, without those that are gone. */
export function movedLines(lines: readonly number[], axis: LineEdit['axis'], edits: readonly LineEdit[]): number[] {
  return lines.flatMap((at) => {
    const whole = { startRow: 0, endRow: MOST_ROWS - 1, startColumn: 0, endColumn: MOST_COLUMNS - 1 };
    const line = axis === 'row' ? { ...whole, startRow: at, endRow: at } : { ...whole, startColumn: at, endColumn: at };
    const moved = movedBlocks(line, edits);
    if (moved === undefined) return [];
    return [axis === 'row' ? moved.startRow : moved.startColumn];
  });
}

/** Where the cells of a block stand after the edits, each of them: in several blocks where cells alone came or went, or some moved. */
export function movedCells(block: Block, edits: readonly LineEdit[]): Block[] {
  return edits.reduce(
    (blocks, edit) =>
      blocks.flatMap((one) => {
        const moved = pieces(one, edit).flatMap((piece) => movedBlock(piece, edit) ?? []);
        return edit.kind === 'move' ? together(moved, edit) : moved;
      }),
    [block],
  );
}

/** The block cut where rows or columns of it part in a move. */
function cut(block: Block, edit: Move): Block[] {
  const { first, last, most } = sides(block, edit);
  if (first === 0 && last === most - 1) return [block];
  const inside = [edit.at, edit.at + edit.count, edit.to].filter((at) => at > first && at <= last);
  const starts = [...new Set([first, ...inside])].sort((a, b) => a - b);
  return starts.map((start, index) => along(block, edit, start, (starts[index + 1] ?? last + 1) - 1));
}

function along(block: Block, { axis }: LineEdit, first: number, last: number): Block {
  return axis === 'row'
    ? { ...block, startRow: first, endRow: last }
    : { ...block, startColumn: first, endColumn: last };
}

/** Blocks of the same width, those that meet along a move as one. */
function together(blocks: readonly Block[], edit: Move): Block[] {
  const list: Block[] = [];
  for (const block of [...blocks].sort((a, b) => sides(a, edit).first - sides(b, edit).first)) {
    const before = list.at(-1);
    if (before === undefined || sides(before, edit).last + 1 < sides(block, edit).first) list.push(block);
    else list.splice(-1, 1, along(before, edit, sides(before, edit).first, sides(block, edit).last));
  }
  return list;
}

/** The block cut where an edit of cells alone moves a part of it. */
function pieces(block: Block, edit: LineEdit): Block[] {
  const { first, last, most, left, right } = sides(block, edit);
  if (edit.kind === 'move') return cut(block, edit);
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
 * range that is gone becomes #REF!, and so does all of the reference where its sheet is gone.
 */
export function movedReference(text: string, edits: readonly SheetEdit[]): string {
  const match = REFERENCE.exec(text);
  if (match === null) return text;
  const sheet = match[1]?.replaceAll("''", "'") ?? match[2] ?? '';
  const range = match[3] ?? '';
  let name = sheet;
  for (const edit of edits) {
    if (edit.sheet !== name) continue;
    if (edit.kind === 'drop') return GONE;
    if (edit.kind === 'rename') name = edit.to;
  }
  const own = editsOf(edits, sheet);
  if (name === sheet && own.length === 0) return text;
  const cells = own.length === 0 ? range : movedRange(range, own);
  if (name === sheet && cells === range) return text;
  return `${quoteSheetName(name)}!${cells}`;
}

/** A range in A1 style after the edits of its sheet; fixed parts ($) stay fixed. */
export function movedRange(range: string, edits: readonly LineEdit[]): string {
  const block = parseBlock(range);
  if (block === undefined) return range;
  const moved = movedBlocks(block, edits);
  if (moved === undefined) return GONE;
  if (blockName(moved) === blockName(block)) return range;
  const [left = '', right] = range.split(':');
  const from = movedCorner(left, moved.startRow, moved.startColumn);
  return right === undefined ? from : `${from}:${movedCorner(right, moved.endRow, moved.endColumn)}`;
}

/** One end of a range in another place: a cell, a whole column or a whole row, its parts as fixed as they were. */
function movedCorner(end: string, row: number, column: number): string {
  return end.replace(/[A-Za-z]+/, columnLetters(column)).replace(/\d+/, String(row + 1));
}

/** The cells of a list of ranges as files write them, with blanks between; '' when nothing is left. */
export function movedRanges(text: string, edits: readonly LineEdit[]): string {
  return text
    .split(/\s+/)
    .flatMap((range) => {
      const block = edits.some(({ kind, across }) => kind === 'move' || across) ? parseBlock(range) : undefined;
      return block === undefined ? [movedRange(range, edits)] : movedCells(block, edits).map(blockName);
    })
    .filter((range) => range !== GONE)
    .join(' ');
}
