import { type IStyleData, isDefaultFormat, numfmt, type Worksheet } from '@univerjs/core';
import { FontCache } from '@univerjs/preset-sheets-core';
import { type Cell, isBlank, isCellError } from '../../../tables/cells.ts';
import type { Block } from '../../../workbook/address.ts';
import { NO_EXTRAS, type PrintSetup } from '../../../workbook/extras.ts';
import { LEAST_SCALE, PAGE_PIXELS } from '../../../workbook/page-setup.ts';
import { numberToFit } from '../number-to-fit.ts';
import { usedBlock } from '../sheet-cells.ts';
import { sideBySide } from '../side-by-side.ts';
import type { Grid } from './grid.ts';

/** Rows above this number are left out, with a line that says so: nobody prints more. */
const MOST_ROWS = 3_000;
const HORIZONTAL: readonly string[] = ['', 'left', 'center', 'right', 'justify'];
const WRAP = 3;
/** Room beside a number that stays blank, px, as on the screen. */
const SIDES = 3;

/**
 * Puts the sheet in view on paper whenever the page is printed, by our button or the browser's own command, and takes it off
 * the page afterwards: what was printed before is out of date.
 *
 * @returns what prints, and says what there is to say about it
 */
export function createPrinter(grid: Grid): () => string {
  /** what the button has made already */
  let made: HTMLElement | undefined;
  const clear = () => document.querySelector('.nw-print')?.remove();
  addEventListener('beforeprint', () => {
    clear();
    document.body.append(made ?? paperOrWords(grid));
  });
  addEventListener('afterprint', clear);
  return () => {
    const paper = paperOf(grid);
    if (typeof paper === 'string') return paper;
    made = paper;
    try {
      window.print();
    } finally {
      made = undefined;
    }
    return `Printing ${grid.api.getActiveWorkbook()?.getActiveSheet().getSheetName()}`;
  };
}

/** The browser's command prints whatever there is: better the reason than a blank page. */
function paperOrWords(grid: Grid): HTMLElement {
  const paper = paperOf(grid);
  if (typeof paper !== 'string') return paper;
  const words = document.createElement('p');
  words.className = 'nw-print';
  words.textContent = paper;
  return words;
}

/**
 * The print area of the sheet in view, or all that it shows, as a table of its own that only the printer sees, with the header
 * rows repeated on each page below, the columns that tell the rows on each beside, and the page breaks of the file. Words
 * where there is nothing to print.
 */
function paperOf(grid: Grid): HTMLElement | string {
  const sheet = grid.api.getActiveWorkbook()?.getActiveSheet();
  if (sheet === undefined) return 'No sheet is open';
  const sheetId = sheet.getSheetId();
  const { print } = grid.extras.get(sheetId) ?? NO_EXTRAS;
  const used = usedBlock(grid, sheetId);
  if (used === undefined) return 'The sheet is empty: nothing to print';
  const areas = (print.areas.length === 0 ? [used] : print.areas.flatMap((area) => within(area, used) ?? [])).flatMap(
    (area) => withoutBlankEnds(grid, sheet.getSheet(), area) ?? [],
  );
  if (areas.length === 0) return 'Nothing stands in the print area of the sheet: nothing to print';
  const paper = document.createElement('div');
  paper.className = `nw-print ${print.landscape ? 'nw-landscape' : 'nw-portrait'}`;
  for (const [area, columns] of pagesOf(grid, sheet.getSheet(), areas, print)) {
    const page = document.createElement('div');
    page.append(...tables(grid, sheet.getSheet(), area, print, columns));
    paper.append(page);
  }
  return paper;
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

/** Which columns of an area hold nothing. */
function blankColumns(grid: Grid, sheet: Worksheet, { startRow, endRow }: Block): IsBlankLine {
  const [unitId, sheetId] = [sheet.getUnitId(), sheet.getSheetId()];
  return (column) => {
    for (let row = startRow; row <= endRow; row++)
      if (!isBlank(grid.reader.cellAt({ unitId, sheetId, row, column }))) return false;
    return true;
  };
}

/**
 * Without the columns at the right and the rows at the end that hold nothing: an area may be longer than its table is now, or
 * go on over a chart, and charts are not printed. Undefined where nothing is left.
 */
function withoutBlankEnds(grid: Grid, sheet: Worksheet, area: Block): Block | undefined {
  const [unitId, sheetId] = [sheet.getUnitId(), sheet.getSheetId()];
  const isBlankRow = (row: number): boolean => {
    for (let column = area.startColumn; column <= area.endColumn; column++)
      if (!isBlank(grid.reader.cellAt({ unitId, sheetId, row, column }))) return false;
    return true;
  };
  const isBlankColumn = blankColumns(grid, sheet, area);
  let { endRow, endColumn } = area;
  while (endColumn >= area.startColumn && isBlankColumn(endColumn)) endColumn--;
  if (endColumn < area.startColumn) return undefined;
  while (isBlankRow(endRow)) endRow--;
  return { ...area, endRow, endColumn };
}

/** Columns of the pages that stand side by side, those in front of them that are repeated, and how small they are printed. */
interface PageColumns {
  readonly columns: readonly number[];
  readonly repeated: ReadonlySet<number>;
  readonly scale: number;
}

/**
 * The pages of each area that stand side by side, cut where the file begins a page: one where that leaves the text large
 * enough; else as few as do. Each has the columns first that the file repeats, or else those that are frozen. All are
 * printed equally small.
 */
function pagesOf(
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

/**
 * What stands above the repeated rows, and from there on a table that repeats them. Further pages beside the first have the
 * title above and the rows that hold something in their own columns: labels would stand there without their figures.
 */
function tables(
  grid: Grid,
  sheet: Worksheet,
  area: Block,
  { repeat, breaks }: PrintSetup,
  { columns, repeated, scale }: PageColumns,
): HTMLElement[] {
  const last = Math.min(area.endRow, area.startRow + MOST_ROWS - 1);
  const widths = columns.map((column) => sheet.getColumnWidth(column));
  const total = widths.reduce((sum, width) => sum + width, 0);

  const [unitId, sheetId] = [sheet.getUnitId(), sheet.getSheetId()];
  const cellAt = (row: number, column: number): Cell => grid.reader.cellAt({ unitId, sheetId, row, column });

  const table = (head: readonly number[], body: readonly number[]): HTMLElement[] => {
    if (head.length + body.length === 0) return [];
    const element = document.createElement('table');
    element.style.width = `${total * scale}px`;
    const group = document.createElement('colgroup');
    for (const width of widths) {
      const column = document.createElement('col');
      column.style.width = `${width * scale}px`;
      group.append(column);
    }
    element.append(group);
    if (head.length > 0) element.createTHead().append(...head.map((row) => line(row, 'th')));
    element.createTBody().append(...body.map((row) => line(row, 'td')));
    return [element];
  };

  function line(row: number, tag: 'td' | 'th'): HTMLTableRowElement {
    const element = document.createElement('tr');
    if (tag === 'td' && row > area.startRow && breaks.includes(row)) element.style.breakBefore = 'page';
    const at = (column: number) => cellAt(row, column);
    const style = (column: number): IStyleData => sheet.getComposedCellStyle(row, column);
    for (let index = 0; index < columns.length; index++) {
      const column = columns[index] ?? 0;
      const cell = at(column);
      const look = style(column);
      const box = document.createElement(tag);
      dress(box, look, cell, scale);
      const merged = sheet.getMergedCell(row, column);
      // Text that begins at the left runs on over blank cells beside it, as on the screen.
      if (merged?.startRow === row && merged.startColumn === column) {
        while ((columns[index + 1] ?? Number.POSITIVE_INFINITY) <= merged.endColumn)
          [index, box.colSpan] = [index + 1, box.colSpan + 1];
      } else if (typeof cell === 'string' && look.tb !== WRAP && box.style.textAlign === 'left') {
        while (index + 1 < columns.length && isBlank(at(columns[index + 1] ?? 0)) && !style(columns[index + 1] ?? 0).bg)
          [index, box.colSpan] = [index + 1, box.colSpan + 1];
      }
      const first = index + 1 - box.colSpan;
      const room = widths.slice(first, index + 1).reduce((sum, width) => sum + width, 0);
      box.textContent = typeof cell === 'number' ? shownNumber(cell, look, room - SIDES) : shown(cell);
      element.append(box);
    }
    return element;
  }

  const rows = (from: number, to: number) =>
    Array.from({ length: Math.max(0, to - from + 1) }, (_, at) => from + at).filter((row) => sheet.getRowVisible(row));
  const own = columns.filter((column) => !repeated.has(column));
  const hasOwn = (row: number): boolean =>
    row === area.startRow || repeated.size === 0 || own.some((column) => !isBlank(cellAt(row, column)));
  const out =
    repeat === undefined || repeat.first < area.startRow || repeat.last >= last
      ? table([], rows(area.startRow, last))
      : [
          ...table([], rows(area.startRow, repeat.first - 1).filter(hasOwn)),
          ...table(rows(repeat.first, repeat.last), rows(repeat.last + 1, last)),
        ];
  if (last < area.endRow) {
    const note = document.createElement('p');
    note.textContent = `Only the first ${MOST_ROWS} rows are printed, of ${area.endRow - area.startRow + 1}.`;
    out.push(note);
  }
  return out;
}

function shown(cell: Cell): string {
  if (isBlank(cell)) return '';
  if (isCellError(cell)) return cell.error;
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return String(cell);
}

/**
 * A number as far as its cell has room for it, as on the screen.
 *
 * @param width px for the number in its own size
 */
function shownNumber(value: number, look: IStyleData, width: number): string {
  const measure = (text: string): number => FontCache.getMeasureText(text, fontOf(look)).width;
  const plain = Number(value.toPrecision(10));
  const pattern = look.n?.pattern;
  if (isDefaultFormat(pattern)) return numberToFit(String(plain), plain, { width, measure });
  return numberToFit(formatted(value, pattern), undefined, { width, measure });
}

function formatted(value: number, pattern: string): string {
  try {
    return numfmt.format(pattern, value);
  } catch {
    return String(value);
  }
}

/** The font of paper, as the style sheet of the page has it, in its own size. */
function fontOf(look: IStyleData): string {
  const words = [look.it === 1 ? 'italic' : '', look.bl === 1 ? 'bold' : ''];
  return `${words.join(' ')} ${(look.fs ?? DEFAULT_SIZE) / POINTS_PER_PIXEL}px Calibri, sans-serif`.trim();
}

const POINTS_PER_PIXEL = 0.75;
const DEFAULT_SIZE = 11;

function dress(box: HTMLElement, look: IStyleData, cell: Cell, scale: number): void {
  box.style.fontSize = `${((look.fs ?? DEFAULT_SIZE) * scale) / POINTS_PER_PIXEL}px`;
  if (look.bl === 1) box.style.fontWeight = 'bold';
  if (look.it === 1) box.style.fontStyle = 'italic';
  if (typeof cell === 'number') box.style.whiteSpace = 'nowrap';
  box.style.color = look.cl?.rgb ?? '';
  box.style.backgroundColor = look.bg?.rgb ?? '';
  if (look.bd?.b) box.classList.add('nw-boxed');
  box.style.textAlign = HORIZONTAL[look.ht ?? 0] || (typeof cell === 'number' ? 'right' : 'left');
}
