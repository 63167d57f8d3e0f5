import { type Block, columnLetters, MOST_COLUMNS, MOST_ROWS, parseBlock, quoteSheetName } from './address.ts';

/**
 * What was done to whole rows, columns and names of sheets. Formulas and names follow by themselves; what a file says of
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
    }
  | { readonly kind: 'rename'; readonly sheet: string; readonly to: string };

type Shift = Extract<SheetEdit, { kind: 'insert' | 'remove' }>;

/** Where first and last of a run of rows or columns stand afterwards; undefined when all of them are gone. */
function movedRun(first: number, last: number, { kind, at, count }: Shift): readonly [number, number] | undefined {
  if (kind === 'insert') return [first >= at ? first + count : first, last >= at ? last + count : last];
  const end = at + count;
  const from = first < at ? first : Math.max(first - count, at);
  const to = last < at ? last : Math.max(last - count, at - (last < end ? 1 : 0));
  return first >= at && last < end ? undefined : [from, to];
}

/** A block of cells after an edit of its own sheet; undefined when it is gone. Whole columns and rows stay whole. */
export function movedBlock(block: Block, edit: Shift): Block | undefined {
  const rows = edit.axis === 'row';
  const [first, last] = rows ? [block.startRow, block.endRow] : [block.startColumn, block.endColumn];
  if (first === 0 && last === (rows ? MOST_ROWS : MOST_COLUMNS) - 1) return block;
  const run = movedRun(first, last, edit);
  if (run === undefined) return undefined;
  const [from, to] = run;
  return rows ? { ...block, startRow: from, endRow: to } : { ...block, startColumn: from, endColumn: to };
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

const REFERENCE = /^(?:'((?:[^']|'')+)'|([^'!]+))!(.+)$/;
const GONE = '#REF!';

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

/** A list of ranges as files write them, with blanks between; '' when nothing is left. */
export function movedRanges(text: string, edits: readonly Shift[]): string {
  return text
    .split(/\s+/)
    .map((range) => movedRange(range, edits))
    .filter((range) => range !== GONE)
    .join(' ');
}
