import type { PageSetup } from 'hucre';
import { columnLetters, MOST_ROWS } from './address.ts';
import type { ModelSheet } from './model.ts';
import { blockAt } from './model-address.ts';
import { CHARACTER_PIXELS, DEFAULT_WIDTH } from './sheet-frame.ts';

/** Room for columns between the margins of an A4 page, px at full size; a letter page is a little wider or as wide. */
export const PAGE_PIXELS = { landscape: 1_046, portrait: 718 } as const;
/** Text of 11 points is not printed smaller than 6.5: wider tables go on further pages, with their frozen columns. */
export const LEAST_SCALE = 6.5 / 11;
/** Inches at the left and the right of a page, and above and below: what PAGE_PIXELS leaves. */
const MARGINS = { left: 0.39, right: 0.39, top: 0.47, bottom: 0.47, header: 0.2, footer: 0.2 } as const;

/** How a sheet of a model prints: on as few pages across as leave the text large enough, or on those that it names. */
export function pageSetup(sheet: ModelSheet): PageSetup {
  const { print = {}, frozenColumns = 0 } = sheet;
  const orientation = print.landscape === true ? 'landscape' : 'portrait';
  const across = print.pagesAcross ?? pagesAcross(sheet, PAGE_PIXELS[orientation]);
  const frozen = across > 1 && frozenColumns > 0 ? `A:${columnLetters(frozenColumns - 1)}` : undefined;
  const repeated = print.repeatColumns ?? frozen;
  return {
    paperSize: print.paper ?? 'a4',
    orientation,
    ...(print.fitWidth === false ? {} : { fitToPage: true, fitToWidth: across, fitToHeight: 0 }),
    ...(print.area === undefined ? {} : { printArea: print.area.replace(WHOLE_COLUMNS, `$$$1$$1:$$$2$$${MOST_ROWS}`) }),
    ...(print.repeatRows === undefined ? {} : { printTitlesRow: `$${print.repeatRows.replace(':', ':$')}` }),
    ...(repeated === undefined ? {} : { printTitlesColumn: repeated.replace(WHOLE_COLUMNS, '$$$1:$$$2') }),
    margins: MARGINS,
    horizontalCentered: false,
  };
}

/** As a print area they are written with all their rows, which is the same: some readers know no other. */
const WHOLE_COLUMNS = /\b([A-Z]{1,3}):([A-Z]{1,3})\b/g;

/** Where columns begin a page, counted from 0. */
export const columnBreaks = ({ print }: ModelSheet): number[] =>
  (print?.columnsBefore ?? []).map((column) => blockAt(column).startColumn);

/**
 * How many pages stand side by side. Some programs pass over breaks between columns while they fit a sheet to pages; the
 * breaks that sheets name are where they would cut it themselves, so far as these can be.
 */
function pagesAcross(sheet: ModelSheet, room: number): number {
  const areas = sheet.print?.area?.split(',').map(blockAt) ?? [
    { startColumn: 0, endColumn: (sheet.widths?.length ?? 1) - 1 },
  ];
  const breaks = columnBreaks(sheet);
  const pages = areas.map(({ startColumn, endColumn }) =>
    breaks.length > 0
      ? 1 + breaks.filter((column) => column > startColumn && column <= endColumn).length
      : Math.ceil((LEAST_SCALE * pixels(sheet, startColumn, endColumn)) / room),
  );
  return Math.max(1, ...pages);
}

/** px of columns at full size, both ends included. */
function pixels({ widths = [] }: ModelSheet, from: number, to: number): number {
  let sum = 0;
  for (let column = from; column <= to; column++) {
    const characters = widths[column];
    sum += characters === undefined ? DEFAULT_WIDTH : characters * CHARACTER_PIXELS;
  }
  return sum;
}
