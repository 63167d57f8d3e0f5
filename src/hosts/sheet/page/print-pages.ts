import type { Worksheet } from '@univerjs/core';
import { isBlank } from '../../../tables/cells.ts';
import type { Block } from '../../../workbook/address.ts';
import type { PrintSetup } from '../../../workbook/extras.ts';
import { LEAST_SCALE, PAGE_PIXELS } from '../../../workbook/page-setup.ts';
import { sideBySide } from '../side-by-side.ts';
import type { Grid } from './grid.ts';

/** What of a sheet goes on paper: its print areas, or the cells in use, without what is blank at their ends. */
export function printedAreas(grid: Grid, sheet: Worksheet, { areas }: PrintSetup, used: Block): Block[] {
  const asked = areas.length === 0 ? [used] : areas.flatMap((area) => within(area, used) ?? []);
  return asked.flatMap((area) => withoutBlankEnds(grid, sheet, area) ?? []);
}

/** What of an area lies within the used cells of its sheet. */
function within(area: Block, used: Block): Block | undefined {
  if (area.startRow > used.endRow || area.startColumn > used.endColumn) return undefined;
  return {
    ...area,
    endRow: Math.min(area.endRow, used.endRow),
    endColumn: Math.min(area.endColumn, used.endColumn),
  };
}

type IsBlankLine = (line: number) => boolean;

/** Without the first of these lines that are blank and the last ones; undefined where all are. */
function trimmed(lines: readonly number[], isBlankLine: IsBlankLine): readonly number[] | undefined {
  let [from, to] = [0, lines.length];
  while (from < to && isBlankLine(lines[from] ?? 0)) from++;
  while (to > from && isBlankLine(lines[to - 1] ?? 0)) to--;
  return from === to ? undefined : lines.slice(from, to);
}

/** Whether all cells of a rectangle hold nothing. */
function holdsNothing(grid: Grid, sheet: Worksheet, { startRow, endRow, startColumn, endColumn }: Block): boolean {
  const [unitId, sheetId] = [sheet.getUnitId(), sheet.getSheetId()];
  for (let row = startRow; row <= endRow; row++)
    for (let column = startColumn; column <= endColumn; column++)
      if (!isBlank(grid.reader.cellAt({ unitId, sheetId, row, column }))) return false;
  return true;
}

/** Which columns of an area hold nothing. */
const blankColumns =
  (grid: Grid, sheet: Worksheet, area: Block): IsBlankLine =>
  (column) =>
    holdsNothing(grid, sheet, { ...area, startColumn: column, endColumn: column });

/**
 * Without the columns at the right and the rows at the end that hold nothing: an area may be longer than its table is now, or
 * go on over a chart, and charts are not printed. Undefined where nothing is left.
 */
function withoutBlankEnds(grid: Grid, sheet: Worksheet, area: Block): Block | undefined {
  const isBlankColumn = blankColumns(grid, sheet, area);
  let { endRow, endColumn } = area;
  while (endColumn >= area.startColumn && isBlankColumn(endColumn)) endColumn--;
  if (endColumn < area.startColumn) return undefined;
  while (holdsNothing(grid, sheet, { ...area, startRow: endRow, endRow, endColumn })) endRow--;
  return { ...area, endRow, endColumn };
}

/** Columns of the pages that stand side by side, those in front of them that are repeated, and how small they are printed. */
export interface PageColumns {
  readonly columns: readonly number[];
  readonly repeated: ReadonlySet<number>;
  readonly scale: number;
}

/**
 * The pages of each area that stand side by side, cut where the file begins a page: one where that leaves the text large
 * enough; else as few as do. Each has the columns first that the file repeats, or else those that are frozen. All are
 * printed equally small.
 */
export function pagesOf(
  grid: Grid,
  sheet: Worksheet,
  areas: readonly Block[],
  { landscape, repeatColumns, columnBreaks }: PrintSetup,
): (readonly [Block, PageColumns])[] {
  const room = PAGE_PIXELS[landscape ? 'landscape' : 'portrait'];
  const { first, last } = repeatColumns ?? { first: 0, last: sheet.getFreeze().xSplit - 1 };
  const isRepeated = (column: number): boolean => column >= first && column <= last;
  const widthOf = (column: number): number => sheet.getColumnWidth(column);
  const pages = areas.flatMap((area) => {
    const isBlankColumn = blankColumns(grid, sheet, area);
    const shown = Array.from(
      { length: area.endColumn - area.startColumn + 1 },
      (_, at) => area.startColumn + at,
    ).filter((column) => sheet.getColVisible(column));
    const front = shown.filter(isRepeated);
    return sections(shown, columnBreaks).flatMap((section, at) => {
      const own = at === 0 ? section : trimmed(section, isBlankColumn);
      if (own === undefined) return [];
      const before = front.filter((column) => column < (own[0] ?? 0));
      return sideBySide([...before, ...own], widthOf, isRepeated, room / LEAST_SCALE).map((columns, page, all) => {
        const repeats = page === 0 ? before : columns.filter((column) => all[page - 1]?.includes(column));
        return [area, columns, new Set(repeats)] as const;
      });
    });
  });
  const widest = Math.max(...pages.map(([, page]) => page.reduce((sum, column) => sum + widthOf(column), 0)));
  // a single column wider than a page is made smaller still
  const scale = Math.min(1, room / widest);
  return pages.map(([area, columns, repeated]) => [area, { columns, repeated, scale }]);
}

/** Columns cut into those from one break to the next. */
function sections(columns: readonly number[], breaks: readonly number[]): number[][] {
  const cut: number[][] = [[]];
  for (const column of columns) {
    if (breaks.includes(column) && (cut.at(-1)?.length ?? 0) > 0) cut.push([]);
    cut.at(-1)?.push(column);
  }
  return cut;
}
