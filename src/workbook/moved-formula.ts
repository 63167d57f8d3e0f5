import { type Block, parseBlock, parseSpot, type Spot } from './address.ts';
import { editsOf, GONE, movedCells, movedRange, movedReference, type SheetEdit } from './edits.ts';
import { shifted } from './shift.ts';
import { joined, type Token, tokens } from './tokens.ts';

/**
 * Formulas that no cell holds (conditions of formats, lists and limits of input) after edits of rows, columns and names.
 */

/** What may be a whole column or a whole row on one side of a colon. */
const SIDE = /^\$?(?:[A-Za-z]{1,3}|\d{1,7})$/;

interface Reference {
  /** sheet name with its quotes and !, '' for the formula's own sheet */
  readonly sheet: string;
  readonly cells: string;
  /** index of the first token after it */
  readonly end: number;
}

/** The reference that begins at a token: a cell, an area, whole columns or rows. */
function referenceAt(list: readonly Token[], from: number): Reference | undefined {
  const text = (index: number): string => list[index]?.text ?? '';
  const prefixed = /^(?:sheet|name)$/.test(list[from]?.kind ?? '') && text(from + 1) === '!';
  // [1]Sheet!A1 is a cell of another file
  if (prefixed && list[from - 1]?.kind === 'bracket') return undefined;
  const at = prefixed ? from + 2 : from;
  if (!prefixed && text(from - 1) === '!') return undefined;
  const isCell = (index: number): boolean => parseSpot(text(index)) !== undefined && !/^[(!]$/.test(text(index + 1));
  const sheet = prefixed ? `${text(from)}!` : '';
  const area = `${text(at)}:${text(at + 2)}`;
  const whole = SIDE.test(text(at)) && SIDE.test(text(at + 2)) && parseBlock(area) !== undefined;
  if (text(at + 1) === ':' && ((isCell(at) && isCell(at + 2)) || whole)) return { sheet, cells: area, end: at + 3 };
  return isCell(at) ? { sheet, cells: text(at), end: at + 1 } : undefined;
}

/**
 * A formula of a sheet after the edits: its references follow their cells; one whose cells are gone becomes #REF!.
 *
 * @param sheet the name that the formula's own sheet had at first
 */
export function movedFormula(formula: string, sheet: string, edits: readonly SheetEdit[]): string {
  if (edits.length === 0) return formula;
  const own = editsOf(edits, sheet);
  const list = tokens(formula);
  let moved = '';
  for (let at = 0; at < list.length; ) {
    const found = referenceAt(list, at);
    if (found === undefined) moved += list[at++]?.text;
    else {
      moved += found.sheet === '' ? movedRange(found.cells, own) : movedReference(found.sheet + found.cells, edits);
      at = found.end;
    }
  }
  return moved;
}

/**
 * A formula that is meant for the first cell of a range, after the edits: where that cell is gone or another one comes first,
 * for the one that is first then. Where cells of the range moved away from each other, it is what most of them read then.
 *
 * @param range the ranges of the rule before the edits, blanks between
 */
export function movedRuleFormula(formula: string, range: string, sheet: string, edits: readonly SheetEdit[]): string {
  const blocks = range.split(/\s+/).flatMap((part) => parseBlock(part) ?? []);
  const own = editsOf(edits, sheet);
  const before = firstCell(blocks);
  const after = firstCell(blocks.flatMap((block) => movedCells(block, own)));
  if (before === undefined || after === undefined) return movedFormula(formula, sheet, edits);
  const parted = own.some(({ kind }) => kind === 'move');
  const left = blocks.flatMap((block) => (parted ? cellsLeft(block, own) : (cellLeft(block, own) ?? [])));
  const found = (parted ? left : left.slice(0, 1)).map(({ from, to }) => {
    const there = shifted(formula, from.row - before.row, from.column - before.column);
    return shifted(movedFormula(there, sheet, edits), after.row - to.row, after.column - to.column);
  });
  return mostOften(found) ?? movedFormula(formula, sheet, edits);
}

function mostOften(texts: readonly string[]): string | undefined {
  const counts = new Map<string, number>();
  for (const text of texts) counts.set(text, (counts.get(text) ?? 0) + 1);
  const most = Math.max(...counts.values());
  return texts.find((text) => counts.get(text) === most);
}

function firstCell(blocks: readonly Block[]): Spot | undefined {
  if (blocks.length === 0) return undefined;
  return {
    row: Math.min(...blocks.map(({ startRow }) => startRow)),
    column: Math.min(...blocks.map(({ startColumn }) => startColumn)),
  };
}

type Shifts = ReturnType<typeof editsOf>;

/** A cell of a block that the edits leave, the first one where that is: its place before and after; undefined when all are gone. */
function cellLeft(block: Block, edits: Shifts): { readonly from: Spot; readonly to: Spot } | undefined {
  if (movedCells(block, edits).length === 0) return undefined;
  const left = (part: Partial<Block>): Block | undefined => movedCells({ ...block, ...part }, edits)[0];
  let { startRow: row, startColumn: column } = block;
  while (row < block.endRow && left({ startRow: row, endRow: row }) === undefined) row++;
  const cell = (): Block | undefined => left({ startRow: row, endRow: row, startColumn: column, endColumn: column });
  while (column < block.endColumn && cell() === undefined) column++;
  const to = cell();
  return to && { from: { row, column }, to: { row: to.startRow, column: to.startColumn } };
}

/** Cells that are asked of each side of a block at most. */
const MOST_ASKED = 64;

/** Cells of the first column and of the first row of a block that the edits leave, of large ones some: their places before and after. */
function cellsLeft(block: Block, edits: Shifts): { readonly from: Spot; readonly to: Spot }[] {
  const { startRow, startColumn, endRow, endColumn } = block;
  const down = some(startRow, endRow).map((row) => ({ row, column: startColumn }));
  const across = some(startColumn + 1, endColumn).map((column) => ({ row: startRow, column }));
  return [...down, ...across].flatMap((from) => {
    const { row, column } = from;
    const to = movedCells({ startRow: row, endRow: row, startColumn: column, endColumn: column }, edits)[0];
    return to === undefined ? [] : [{ from, to: { row: to.startRow, column: to.startColumn } }];
  });
}

function some(first: number, last: number): number[] {
  const count = Math.min(MOST_ASKED, last - first + 1);
  return Array.from({ length: Math.max(0, count) }, (_, at) => first + Math.floor((at * (last - first + 1)) / count));
}

/** A formula after a sheet was taken out: what referred to the sheet, its cells and names of its own, becomes #REF!. */
export function formulaWithoutSheet(formula: string, sheet: string): string {
  const list = tokens(formula);
  let left = '';
  for (let at = 0; at < list.length; ) {
    const found = referenceAt(list, at);
    const end = found?.end ?? at + (list[at + 1]?.text === '!' && list[at - 1]?.kind !== 'bracket' ? 3 : 1);
    const text = joined(list.slice(at, end));
    left += isOfSheet(text, sheet) ? GONE : text;
    at = end;
  }
  return left;
}

/** Whether a reference names a sheet; capitals are the same as small letters there. */
function isOfSheet(reference: string, sheet: string): boolean {
  const upper = reference.toUpperCase();
  return [sheet, `'${sheet.replaceAll("'", "''")}'`].some((name) => upper.startsWith(`${name.toUpperCase()}!`));
}
