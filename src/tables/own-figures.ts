import { DEFAULT_DISCHARGE } from '../engine/flow/opening.ts';
import { DEFAULT_TUBE_LOSS } from '../engine/flow/tube.ts';
import { shortNumber, type Words } from '../faults/words.ts';
import { fromSI, isUnit } from '../units/quantity.ts';
import type { CellRange } from './cells.ts';
import { findLibraryPart, type LibraryPart } from './library/parts.ts';
import { PARTS_COLUMNS, type PartsColumn } from './parts-columns.ts';
import { kindNamed } from './rigs.ts';
import {
  type Column,
  type FaultSink,
  headerWithoutUnit,
  MOST_ROWS,
  type OpenTable,
  openTable,
  splitHeader,
} from './table.ts';

/** A figure that a row of a parts table gives itself, where the library's part of that name has another one. */
export interface OwnFigure {
  readonly column: PartsColumn;
  /** header as the person wrote it */
  readonly header: string;
  /** of its column within the range, from 0 */
  readonly index: number;
  /** with its unit */
  readonly own: string;
  /** in the unit of the column, or the kind of part; undefined where the library's part has none */
  readonly library: number | string | undefined;
  /** with its unit, or "none" */
  readonly libraryWords: string;
}

/** A row that bears the name of a library part and differs from it. */
export interface OwnRow {
  /** within the range, from 1 at its header */
  readonly row: number;
  /** as the library writes it */
  readonly part: string;
  readonly figures: readonly OwnFigure[];
}

type Source = OpenTable<PartsColumn>;

/** Part by which figures may differ and be the same: 1.5 m is written for 5 ft. */
const ROUNDED = 0.02;

/** What counts of a row, by what it is; the library says nothing in the other columns. */
const OF_PUMPS = ['speed', 'ultimate', 'waterLimit'] as const;
const OF_TUBES = ['bore', 'length', 'loss'] as const;
const OF_OPENINGS = ['bore', 'coefficient'] as const;
type Compared = (typeof OF_PUMPS)[number] | (typeof OF_TUBES)[number] | (typeof OF_OPENINGS)[number];

/** What counts where neither the row nor the library says anything. */
const DEFAULTS: Readonly<Partial<Record<Compared, number>>> = {
  coefficient: DEFAULT_DISCHARGE,
  loss: DEFAULT_TUBE_LOSS,
};

type Unplaced = Omit<OwnFigure, 'index'>;

const passOver: FaultSink = () => {};

/**
 * The rows of a parts table that bear the name of a library part and give other figures than it: their own count. That is
 * as it should be for a part that was measured, and a mistake where only the name was changed. Figures within 2 % are the same.
 * Empty for a range that is no parts table; faults are passed over.
 */
export function ownFigures(range: CellRange): readonly OwnRow[] {
  if (range.length > MOST_ROWS + 1 || range[0]?.some((cell) => typeof cell === 'string') !== true) return [];
  const table = openTable(range, 'parts', PARTS_COLUMNS, passOver);
  if (!table.has('rig') || !table.has('part')) return [];
  return Array.from({ length: table.rowCount }, (_, row) => ownRow(table, row, range)).flatMap((found) => found ?? []);
}

function ownRow(table: Source, row: number, range: CellRange): OwnRow | undefined {
  const library = findLibraryPart(table.text(row, 'part') ?? '');
  if (library === undefined) return undefined;
  const figures = [
    ...otherKind(table, row, library),
    ...compared(table, row, library).flatMap((column) => ownFigure(table, row, library, column) ?? []),
  ];
  const placed = figures.map((figure) => ({ ...figure, index: indexOf(range, figure.header) }));
  return placed.length === 0 ? undefined : { row: table.rowNumber(row), part: library.name, figures: placed };
}

/** With another kind goes what parts of that kind are swapped for. */
function otherKind(table: Source, row: number, library: LibraryPart): readonly Unplaced[] {
  const own = table.text(row, 'kind');
  const kind = own === undefined ? undefined : kindNamed(own);
  if (kind === undefined || kind === library.kind) return [];
  return (['kind', 'swapGroup'] as const).flatMap((column): Unplaced[] => {
    const [text, usual] = [table.text(row, column), library[column]];
    if (text === undefined || text === usual) return [];
    return [{ column, header: headerOf(table, row, column), own: text, library: usual, libraryWords: usual ?? 'none' }];
  });
}

function compared(table: Source, row: number, library: LibraryPart): readonly Compared[] {
  if (library.kind === 'pump') return OF_PUMPS;
  // a flow coefficient of the row's own takes the place of all dimensions
  const measured = (['kv', 'cv', 'sonic'] as const).some((column) => !table.blank(row, column));
  if (measured) return [];
  const isTube = library.kind !== 'port' && (table.number(row, 'length') ?? library.length) !== undefined;
  return isTube ? OF_TUBES : OF_OPENINGS;
}

function ownFigure(table: Source, row: number, library: LibraryPart, column: Compared): Unplaced | undefined {
  const own = table.number(row, column);
  if (own === undefined) return undefined;
  const usual = library[column] ?? DEFAULTS[column];
  if (usual !== undefined && Math.abs(own - usual) <= ROUNDED * Math.max(Math.abs(own), Math.abs(usual))) {
    return undefined;
  }
  const header = headerOf(table, row, column);
  const { quantity, unit: usualUnit = '' } = PARTS_COLUMNS[column] as Column;
  if (quantity === undefined || quantity === 'number') {
    return { column, header, own: shortNumber(own), library: usual, libraryWords: worded(usual, '') };
  }
  const unit = splitHeader(header).unit ?? usualUnit;
  const known = isUnit(unit, quantity) ? unit : usualUnit;
  const shown = usual === undefined ? undefined : Number(fromSI(usual, known, quantity).toPrecision(5));
  const ownShown = Number(fromSI(own, known, quantity).toPrecision(5));
  return { column, header, own: worded(ownShown, known), library: shown, libraryWords: worded(shown, known) };
}

function worded(value: number | undefined, unit: string): string {
  return value === undefined ? 'none' : `${shortNumber(value)} ${unit}`.trim();
}

const headerOf = (table: Source, row: number, column: PartsColumn): string => table.place(row, column).column ?? '';

function indexOf(range: CellRange, header: string): number {
  return (range[0] ?? []).findIndex((cell) => typeof cell === 'string' && cell.trim() === header);
}

/** Such a row in words. The second sentence leaves it to the reader: a measure of one's own is nothing to mend. */
export function ownWords({ part, figures }: OwnRow): Words {
  const [first] = figures;
  if (first?.column === 'kind') {
    return {
      what: `The parts library knows ${part} as a ${first.library}: as a ${first.own} none of its figures count.`,
      todo: `Set ${first.header} to ${first.library}, or give the part a name of its own.`,
    };
  }
  const [counts, them, cells] = figures.length === 1 ? ['counts', 'it', 'cell'] : ['count', 'them', 'cells'];
  const own = listed(figures.map(({ header, own: value }) => `${headerWithoutUnit(header)} ${value}`));
  const theirs = listed(figures.map(({ libraryWords }) => libraryWords));
  return {
    what: `${part}: the row's own ${own} ${counts}, not the library's ${theirs}.`,
    todo: `Leave ${them} where you measured; otherwise clear the ${cells}, and the library counts.`,
  };
}

function listed(texts: readonly string[]): string {
  return texts.length < 2 ? texts.join('') : `${texts.slice(0, -1).join(', ')} and ${texts.at(-1)}`;
}
