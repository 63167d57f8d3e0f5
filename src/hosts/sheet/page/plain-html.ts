/**
 * What gives text in HTML a look that can be pasted, joins cells, or names cells of this page that were copied: their looks
 * are kept elsewhere.
 */
const LOOKS =
  'style, [style], b, strong, i, em, u, s, del, ins, sub, sup, font, a, img, [bgcolor], [colspan], [rowspan], [data-copy-id]';

/** Whether HTML from the clipboard is text alone, or a table of it, as programs write it that know of no looks. */
export function saysNothingOfLooks(html: string): boolean {
  return new DOMParser().parseFromString(html, 'text/html').querySelector(LOOKS) === null;
}
