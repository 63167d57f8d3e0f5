import type { PageSetup } from 'hucre';
import { columnLetters } from './address.ts';
import type { ModelSheet } from './model.ts';
import { blockAt } from './model-address.ts';
import { CHARACTER_PIXELS, DEFAULT_WIDTH } from './sheet-frame.ts';

/** Room for columns between the margins of an A4 page, px at full size; a letter page is a little wider or as wide. */
export const PAGE_PIXELS = { landscape: 1_046, portrait: 718 } as const;
/** Text is not printed smaller than this share of its size, 11 points as a little more than 5: wider tables go on further pages, with their frozen columns. */
export const LEAST_SCALE = 0.47;

/** How a sheet of a model prints: on as few pages across as leave the text large enough. */
export function pageSetup({ print = {}, widths = [], frozenColumns = 0 }: ModelSheet): PageSetup {
  const orientation = print.landscape === true ? 'landscape' : 'portrait';
  const area = print.area === undefined ? undefined : blockAt(print.area);
  let pixels = 0;
  for (let column = area?.startColumn ?? 0; column <= (area?.endColumn ?? widths.length - 1); column++) {
    const characters = widths[column];
    pixels += characters === undefined ? DEFAULT_WIDTH : characters * CHARACTER_PIXELS;
  }
  const across = Math.max(1, Math.ceil((LEAST_SCALE * pixels) / PAGE_PIXELS[orientation]));
  return {
    paperSize: print.paper ?? 'a4',
    orientation,
    ...(print.fitWidth === false ? {} : { fitToPage: true, fitToWidth: across, fitToHeight: 0 }),
    ...(print.area === undefined ? {} : { printArea: print.area }),
    ...(print.repeatRows === undefined ? {} : { printTitlesRow: `$${print.repeatRows.replace(':', ':$')}` }),
    ...(across > 1 && frozenColumns > 0 ? { printTitlesColumn: `$A:$${columnLetters(frozenColumns - 1)}` } : {}),
    horizontalCentered: false,
  };
}
