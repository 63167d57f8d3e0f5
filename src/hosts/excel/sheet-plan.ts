import { type Block, blockName, parseSpot } from '../../workbook/address.ts';
import type { Look, ModelBlock, ModelCell, ModelSheet, ModelValue } from '../../workbook/model.ts';

/** What one cell of a range is given: a value, a formula, text with a leading apostrophe, or null for "leave it". */
export type Entry = string | number | boolean | null;

/** How cells of a range look and what their numbers are shown as. */
export type Finish = Pick<ModelCell, 'look' | 'format' | 'align' | 'wrap'>;

export interface SheetPlan {
  readonly writes: readonly { readonly range: string; readonly entries: readonly (readonly Entry[])[] }[];
  readonly finishes: readonly {
    readonly range: string;
    readonly rows: number;
    readonly columns: number;
    readonly finish: Finish;
  }[];
}

/** A sheet of the model as the fewest ranges to write and to format. */
export function planSheet(sheet: ModelSheet): SheetPlan {
  const finishes = new Map<string, Finish>();
  const writes = (sheet.blocks ?? []).map((block) => planBlock(block, finishes));
  for (const [address, given] of Object.entries(sheet.cells ?? {})) {
    const cell = asCell(given);
    const spot = spotOf(address);
    finishes.set(keyOf(spot.row, spot.column), finishOf(cell, undefined, undefined));
    writes.push({ range: address.replaceAll('$', ''), entries: [[entryOf(cell)]] });
  }
  return { writes, finishes: gather(finishes) };
}

function planBlock(block: ModelBlock, finishes: Map<string, Finish>): SheetPlan['writes'][number] {
  const start = spotOf(block.at);
  const width = Math.max(1, ...block.rows.map((row) => row.length));
  const entries = block.rows.map((row, down) =>
    Array.from({ length: width }, (_, across): Entry => {
      const given = row[across];
      if (given === undefined) return null;
      const cell = asCell(given);
      const column = block.columns?.[across];
      const look = column?.look ?? block.look;
      const format = column?.format ?? block.format;
      finishes.set(keyOf(start.row + down, start.column + across), finishOf(cell, look, format));
      return entryOf(cell);
    }),
  );
  const range = blockName({
    startRow: start.row,
    startColumn: start.column,
    endRow: start.row + Math.max(block.rows.length, 1) - 1,
    endColumn: start.column + width - 1,
  });
  return { range, entries };
}

function spotOf(address: string): { readonly row: number; readonly column: number } {
  const spot = parseSpot(address);
  if (spot === undefined) throw new Error(`The template names a cell "${address}", which no sheet has.`);
  return spot;
}

function asCell(given: ModelCell | ModelValue): ModelCell {
  return typeof given === 'object' && given !== null ? given : { value: given };
}

/** Text that Excel would take for a number, a date, a formula or a logical value gets the mark that keeps it text. */
const MISTAKABLE = /\d|^[\s+\-=@'.,($£€%]|^(?:true|false)$/i;

function entryOf(cell: ModelCell): Entry {
  if (cell.formula !== undefined) return cell.formula;
  const { value } = cell;
  if (value === undefined || value === null) return null;
  return typeof value === 'string' && MISTAKABLE.test(value) ? `'${value}` : value;
}

function finishOf(cell: ModelCell, ownLook: Look | undefined, ownFormat: string | undefined): Finish {
  const look = cell.look ?? ownLook;
  const format = cell.format ?? ownFormat;
  return {
    ...(look === undefined ? {} : { look }),
    ...(format === undefined ? {} : { format }),
    ...(cell.align === undefined ? {} : { align: cell.align }),
    ...(cell.wrap === undefined ? {} : { wrap: cell.wrap }),
  };
}

function keyOf(row: number, column: number): string {
  return `${row},${column}`;
}

/** Cells of the same finish joined into rectangles: runs along each row first, then equal runs of rows that touch. */
function gather(finishes: ReadonlyMap<string, Finish>): SheetPlan['finishes'] {
  const cells = [...finishes]
    .map(([key, finish]) => {
      const [row = 0, column = 0] = key.split(',').map(Number);
      return { row, column, finish, text: JSON.stringify(finish) };
    })
    .filter(({ text }) => text !== '{}')
    .sort((a, b) => a.row - b.row || a.column - b.column);

  interface Patch {
    readonly block: { -readonly [K in keyof Block]: Block[K] };
    readonly finish: Finish;
    readonly text: string;
  }
  const patches: Patch[] = [];
  const growing = new Map<string, Patch>();
  let index = 0;
  while (index < cells.length) {
    const first = cells[index];
    if (first === undefined) break;
    let end = index;
    while (cells[end + 1]?.row === first.row && cells[end + 1]?.text === first.text) {
      if (cells[end + 1]?.column !== first.column + (end + 1 - index)) break;
      end += 1;
    }
    const endColumn = first.column + (end - index);
    const span = `${first.column}:${endColumn}:${first.text}`;
    const above = growing.get(span);
    if (above !== undefined && above.block.endRow === first.row - 1) above.block.endRow = first.row;
    else {
      const block = { startRow: first.row, endRow: first.row, startColumn: first.column, endColumn };
      const patch = { block, finish: first.finish, text: first.text };
      patches.push(patch);
      growing.set(span, patch);
    }
    index = end + 1;
  }
  return patches.map(({ block, finish }) => ({
    range: blockName(block),
    rows: block.endRow - block.startRow + 1,
    columns: block.endColumn - block.startColumn + 1,
    finish,
  }));
}
