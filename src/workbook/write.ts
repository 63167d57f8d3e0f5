import type { ICellData, IObjectMatrixPrimitiveType, Nullable } from '@univerjs/core';
import { type Block, blockName } from './address.ts';
import { worksOnArrays } from './array-formulas.ts';
import { plainKind, withoutMacros } from './losses.ts';
import { keptNames } from './names.ts';
import { type Parts, partText, textPart, writeParts } from './package.ts';
import { type CellPatch, patchedSheet, type Stored } from './patch.ts';
import { asStored, isNewer } from './prefixes.ts';
import type { Book, BookSheet } from './read.ts';
import { type Results, type SpilledRange, storedCell, storedOf } from './results.ts';
import { dropCalculationOrder, spillMark } from './spill-mark.ts';
import type { FormulaText } from './table-formulas.ts';
import { nameColumns, type TextAt } from './table-headers.ts';
import { namesOfOurs, needsOurs } from './values-only.ts';
import { withZoom, zoomOf } from './zoom.ts';

export interface WriteOptions {
  /**
   * Our formulas, those that refer to a spilled range, and those that fill a range by functions newer than the format are
   * replaced by their values. Other programs work formulas that fill a range out anew and mark what they do not know.
   */
  readonly valuesOnly?: boolean;
  /** formulas that a file has under another text than the page */
  readonly formulaText?: FormulaText | undefined;
}

type Cells = IObjectMatrixPrimitiveType<Nullable<ICellData>>;

/**
 * The workbook with fresh values stored beside its formulas. Cells whose entry differs from the file are written anew, and
 * how large a sheet is shown; everything else that is not a cell stays as it is in the file, to the byte.
 * @param book the workbook as read
 * @param results what the calculation of it gave
 * @returns an .xlsx file; the same bytes for the same book and results
 */
export function writeWorkbook(book: Book, results: Results, options: WriteOptions = {}): Uint8Array {
  const parts: Parts = new Map(book.parts);
  const ours = options.valuesOnly === true ? namesOfOurs(book.snapshot) : undefined;
  let mark: number | undefined | 'unasked' = 'unasked';
  const spillingMark = (): number | undefined => {
    if (mark === 'unasked') mark = spillMark(parts, book.layout);
    return mark;
  };
  for (const sheet of book.sheets) {
    const patch = sheetPatch(book, sheet, results, spillingMark, ours, options.formulaText);
    const { [sheet.id]: now } = results.snapshot.sheets;
    if (now !== undefined) {
      nameColumns(
        parts,
        sheet.part,
        textsOf(now.cellData),
        textsOf(book.snapshot.sheets[sheet.id]?.cellData),
        (...change) => putIn(patch, ...change),
      );
    }
    const xml = partText(parts, sheet.part);
    if (xml === undefined) continue;
    const zoom = now?.zoomRatio;
    const patched = patchedSheet(xml, patch);
    const written = zoom === undefined || zoom === zoomOf(xml) ? patched : withZoom(patched, zoom);
    if (written !== xml) parts.set(sheet.part, textPart(written));
  }
  dropCalculationOrder(parts, book.layout);
  withoutMacros(parts, book.layout);
  plainKind(parts);
  return writeParts(parts);
}

function putIn(patch: Map<number, Map<number, CellPatch>>, row: number, column: number, change: CellPatch): void {
  const line = patch.get(row);
  if (line === undefined) patch.set(row, new Map([[column, change]]));
  else line.set(column, change);
}

/** What cells show, as far as a header of a table goes. */
export function textsOf(cells: Cells | undefined): TextAt {
  return (row, column) => {
    const stored = storedOf(cells?.[row]?.[column] ?? {});
    if (typeof stored === 'boolean') return stored ? 'TRUE' : 'FALSE';
    return stored === null ? '' : String(typeof stored === 'object' ? stored.error : stored);
  };
}

function sheetPatch(
  book: Book,
  sheet: BookSheet,
  results: Results,
  spillingMark: () => number | undefined,
  ours: ReadonlySet<string> | undefined,
  formulaText: FormulaText = () => undefined,
): Map<number, Map<number, CellPatch>> {
  const before = (book.snapshot.sheets[sheet.id]?.cellData ?? {}) as Cells;
  const now = (results.snapshot.sheets[sheet.id]?.cellData ?? {}) as Cells;
  const patch = new Map<number, Map<number, CellPatch>>();
  const put = (row: number, column: number, change: CellPatch): void => putIn(patch, row, column, change);
  const spills = new Map<string, SpilledRange>();
  for (const spill of results.spills) {
    if (spill.sheet === sheet.name) spills.set(`${spill.range.startRow},${spill.range.startColumn}`, spill);
  }
  const shared = new Set(sheet.shared.map((spot) => `${spot.row},${spot.column}`));
  const filled = new Map(sheet.filled.map((range) => [`${range.row},${range.column}`, range]));
  const ranges = namesOfRanges(results.snapshot);

  // Values that the file stored in filled ranges are gone unless they are filled again.
  for (const { block, row, column } of sheet.filled) {
    eachSpot(block, (at, across) => {
      if (at !== row || across !== column) put(at, across, { value: null, formula: 'none' });
    });
  }
  let formulasChange = false;
  eachCell(now, (row, column, cell) => {
    const was = before[row]?.[column];
    if (cell.f === undefined || cell.f === null || cell.f === '') {
      if (was?.f != null || was?.v !== cell.v) put(row, column, { value: storedOf(cell), formula: 'none' });
      if (was?.f != null) formulasChange = true;
      return;
    }
    const value = storedOf(cell);
    const text = formulaText(sheet.name, row, column, cell.f) ?? asStored(cell.f);
    const key = `${row},${column}`;
    const spill = spills.get(key);
    const range = filled.get(key);
    if (ours !== undefined && (needsOurs(cell.f, ours) || (spill !== undefined && isNewer(cell.f)))) {
      put(row, column, { value, formula: 'none' });
      formulasChange = true;
    } else if (spill === undefined && range === undefined && (was?.f === cell.f || !worksOnArrays(cell.f, ranges))) {
      const same = was?.f === cell.f;
      put(row, column, { value, formula: same ? 'keep' : { text } });
      if (!same && was?.f != null) formulasChange = true;
    } else {
      const tied = range !== undefined && !range.dynamic;
      const block = tied
        ? range.block
        : (spill?.range ?? { startRow: row, startColumn: column, endRow: row, endColumn: column });
      const cellMark = tied ? undefined : spillingMark();
      const own = was?.f === cell.f && !shared.has(key);
      const formula = { ...(own ? {} : { text }), range: blockName(block) };
      put(row, column, { value, formula: cellMark === undefined ? formula : { ...formula, mark: cellMark } });
      if (range === undefined) formulasChange = true;
    }
    if (spill !== undefined) fill(spill, range !== undefined && !range.dynamic ? range.block : spill.range, put);
  });
  eachCell(before, (row, column, was) => {
    const gone = now[row]?.[column];
    if ((gone === undefined || gone === null) && (was.v != null || was.f != null)) {
      put(row, column, { value: null, formula: 'none' });
      if (was.f != null) formulasChange = true;
    }
  });
  if (formulasChange) freeShared(sheet, now, patch, put);
  return patch;
}

/** Tells the defined names (upper case) that may stand for more than a cell. */
function namesOfRanges(snapshot: Results['snapshot']): (name: string) => boolean {
  const single = /^(?:(?:'(?:[^']|'')*'|[^'!:(]+)!)?\$?[A-Z]{1,3}\$?\d+$|^[-+]?[\d.]+$|^"[^"]*"$/i;
  const several = keptNames(snapshot).filter(
    ({ formulaOrRefString }) => !single.test(formulaOrRefString.replace(/^=/, '')),
  );
  const names = new Set(several.map(({ name }) => name.toUpperCase()));
  return (name) => names.has(name);
}

/** Puts a spilled result into the cells of `block`; the first cell is its formula's own. */
function fill(spill: SpilledRange, block: Block, put: (row: number, column: number, change: CellPatch) => void): void {
  const { startRow, startColumn } = spill.range;
  eachSpot(block, (row, column) => {
    if (row === startRow && column === startColumn) return;
    const line = spill.cells[row - startRow];
    const inside = line !== undefined && column - startColumn < line.length;
    // A formula tied to a range larger than its result shows #N/A in the rest.
    const value: Stored = inside ? storedCell(line[column - startColumn]) : { error: '#N/A' };
    put(row, column, { value, formula: 'none' });
  });
}

/** Formulas that share their text with another cell's get their own: the one that they share may be gone. */
function freeShared(
  sheet: BookSheet,
  now: Cells,
  patch: ReadonlyMap<number, ReadonlyMap<number, CellPatch>>,
  put: (row: number, column: number, change: CellPatch) => void,
): void {
  for (const { row, column } of sheet.shared) {
    const change = patch.get(row)?.get(column);
    const formula = now[row]?.[column]?.f;
    if (change?.formula === 'keep' && formula != null)
      put(row, column, { ...change, formula: { text: asStored(formula) } });
  }
}

function eachCell(cells: Cells, visit: (row: number, column: number, cell: ICellData) => void): void {
  for (const row of Object.keys(cells)) {
    const line = cells[Number(row)] ?? {};
    for (const column of Object.keys(line)) {
      const cell = line[Number(column)];
      if (cell !== undefined && cell !== null) visit(Number(row), Number(column), cell);
    }
  }
}

function eachSpot(block: Block, visit: (row: number, column: number) => void): void {
  for (let row = block.startRow; row <= block.endRow; row++) {
    for (let column = block.startColumn; column <= block.endColumn; column++) visit(row, column);
  }
}
