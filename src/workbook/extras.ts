import type { Sheet as FileSheet } from 'hucre';
import { type Block, parseBlock } from './address.ts';

/** What a file says of a sheet beyond its cells, as far as the page shows it itself: lists, charts, print set-up. */
export interface SheetExtras {
  readonly lists: readonly ListRule[];
  readonly charts: readonly ChartOfSheet[];
  readonly print: PrintSetup;
}

/** Cells that are filled from a list. */
export interface ListRule {
  readonly blocks: readonly Block[];
  /** the texts themselves, or a range or defined name that holds them */
  readonly from: readonly string[] | string;
  readonly title: string;
  readonly message: string;
  /** other entries are as good: the program that reads the file says nothing of them */
  readonly free: boolean;
}

export interface ChartOfSheet {
  readonly kind: 'bar' | 'column' | 'line' | 'scatter';
  readonly title: string;
  /** what it shows, for people who cannot see it */
  readonly altText: string;
  readonly series: readonly ChartLine[];
  /** bars of one category begin where the one before ends */
  readonly stacked: boolean;
  readonly x: ChartAxis;
  readonly y: ChartAxis;
}

export interface ChartLine {
  readonly name: string;
  /** ranges with the name of their sheet */
  readonly values: string;
  readonly categories: string | undefined;
  /** marks without a line between them */
  readonly points: boolean;
  /** takes its room in a stack and is not drawn */
  readonly unseen: boolean;
}

export interface ChartAxis {
  readonly title: string;
  readonly log: boolean;
}

export interface PrintSetup {
  readonly landscape: boolean;
  /** ranges that are printed one after another; none for all that the sheet shows */
  readonly areas: readonly Block[];
  /** rows repeated on each page, counted from 0, both ends included */
  readonly repeat: Run | undefined;
  /** columns repeated on each page beside the first, counted alike */
  readonly repeatColumns: Run | undefined;
  /** rows that begin a page, counted from 0 */
  readonly breaks: readonly number[];
  /** columns that begin a page beside the one before, counted from 0 */
  readonly columnBreaks: readonly number[];
}

export interface Run {
  readonly first: number;
  readonly last: number;
}

const KINDS: ReadonlySet<string> = new Set<ChartOfSheet['kind']>(['bar', 'column', 'line', 'scatter']);

export const NO_EXTRAS: SheetExtras = {
  lists: [],
  charts: [],
  print: { landscape: true, areas: [], repeat: undefined, repeatColumns: undefined, breaks: [], columnBreaks: [] },
};

export function extrasOf(sheet: FileSheet): SheetExtras {
  return { lists: listsOf(sheet), charts: chartsOf(sheet), print: printOf(sheet) };
}

function listsOf(sheet: FileSheet): ListRule[] {
  return (sheet.dataValidations ?? []).flatMap((rule): ListRule[] => {
    if (rule.type !== 'list') return [];
    const from = rule.values ?? rule.formula1;
    const blocks = rule.range.split(/\s+/).flatMap((range) => parseBlock(range) ?? []);
    if (from === undefined || blocks.length === 0) return [];
    return [
      {
        blocks,
        from,
        title: rule.inputTitle ?? '',
        message: rule.inputMessage ?? '',
        free: rule.showErrorMessage !== true,
      },
    ];
  });
}

function chartsOf(sheet: FileSheet): ChartOfSheet[] {
  return (sheet.charts ?? []).flatMap((chart): ChartOfSheet[] => {
    const [kind] = chart.kinds;
    if (kind === undefined || !KINDS.has(kind)) return [];
    const axis = (given: { title?: string; scale?: { logBase?: number } } | undefined): ChartAxis => ({
      title: given?.title ?? '',
      log: given?.scale?.logBase !== undefined,
    });
    const stacked = chart.barGrouping === 'stacked';
    const series = (chart.series ?? []).flatMap((line): ChartLine[] => {
      if (line.valuesRef === undefined) return [];
      const symbol = line.marker?.symbol;
      const unseen = stacked && line.color === undefined;
      const points = kind === 'scatter' && symbol !== undefined && symbol !== 'none';
      return [{ name: line.name ?? '', values: line.valuesRef, categories: line.categoriesRef, points, unseen }];
    });
    return [
      {
        kind: kind as ChartOfSheet['kind'],
        title: chart.title ?? '',
        altText: chart.altText ?? '',
        series,
        stacked,
        x: axis(chart.axes?.x),
        y: axis(chart.axes?.y),
      },
    ];
  });
}

function printOf({ pageSetup, rowBreaks = [], colBreaks = [] }: FileSheet): PrintSetup {
  const rows = /^\$?(\d+):\$?(\d+)$/.exec(pageSetup?.printTitlesRow ?? '');
  const columns = parseBlock((pageSetup?.printTitlesColumn ?? '').replaceAll('$', ''));
  return {
    landscape: pageSetup?.orientation !== 'portrait',
    areas: (pageSetup?.printArea ?? '').split(',').flatMap((range) => parseBlock(range) ?? []),
    repeat: rows === null ? undefined : { first: Number(rows[1]) - 1, last: Number(rows[2]) - 1 },
    repeatColumns: columns && { first: columns.startColumn, last: columns.endColumn },
    // the reader names the row or column that a page ends with
    breaks: rowBreaks.map((row) => row + 1),
    columnBreaks: colBreaks.map((column) => column + 1),
  };
}
