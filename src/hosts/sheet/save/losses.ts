import type { ICellData, IWorkbookData, Nullable } from '@univerjs/core';
import { editsOf, type SheetEdit } from '../../../workbook/edits.ts';
import { lossesOf } from '../../../workbook/losses.ts';
import { partText } from '../../../workbook/package.ts';
import type { Book } from '../../../workbook/read.ts';
import { startTags } from '../../../workbook/xml.ts';
import type { Origin } from './origin.ts';

/** What a sheet may hold at fixed places that rows and columns do not take along when the file is made anew. */
const STAYS: readonly (readonly [element: string, words: string])[] = [
  ['drawing', 'charts and pictures'],
  ['brk', 'page breaks'],
  ['sparkline', 'small charts in cells'],
];
/** Those that refer to other sheets, and bars and icons with more settings than older programs know. */
const NEWER_FORMATS = /<\w+:conditionalFormattings[\s>]/;
/** What cells alone that come or go do not take along. */
const STAYS_IN_CELLS = STAYS.filter(([element]) => element === 'sparkline');
/** What only the cells of a sheet follow. */
const ALONE: readonly (readonly [element: string, words: string])[] = [
  ...STAYS,
  ['dataValidation', 'lists'],
  ['cfRule', 'conditional formats'],
  ['tablePart', 'tables'],
  ['autoFilter', 'filters'],
];

/**
 * What a file saved by the page will not carry as the workbook had it, one sentence each, to be told before it is written.
 *
 * @param anew whether more than the content of cells was changed: the file is made anew then
 * @param edits what was done to rows, columns, cells and names of sheets
 * @param rearranged names of sheets on which rows, columns or cells were moved to other places
 * @param origins where the sheets of the page come from, by their ids
 */
export function lossesOfSave(
  book: Book | undefined,
  anew: boolean,
  edits: readonly SheetEdit[],
  rearranged: ReadonlySet<string>,
  origins: readonly (readonly [id: string, origin: Origin])[] = [],
): string[] {
  if (book === undefined) return [];
  const losses = lossesOf(book);
  if (!anew) return losses;
  if (book.layout.sheets.some(({ other }) => other)) losses.push('Sheets that are one chart are left out.');
  for (const { name, part } of book.sheets) {
    const xml = partText(book.parts, part) ?? '';
    const now = edits.reduce((known, edit) => (edit.kind === 'rename' && edit.sheet === known ? edit.to : known), name);
    const held = (kinds: typeof STAYS): string => {
      const words = kinds.flatMap(([element, what]) => (startTags(xml, element).length > 0 ? [what] : []));
      return words.join(', ').replace(/, ([^,]*)$/, ' and $1');
    };
    if (NEWER_FORMATS.test(xml))
      losses.push(`On ${now}, conditional formats of newer kinds are left out or kept in their older form.`);
    if (rearranged.has(now)) {
      const what = held(ALONE);
      if (what !== '') losses.push(`On ${now}, ${what} stay where they were, since cells changed places.`);
    } else {
      const own = editsOf(edits, name);
      const lines = own.some(({ across }) => across === undefined);
      const what = own.length === 0 ? '' : held(lines ? STAYS : STAYS_IN_CELLS);
      const why = lines ? 'rows or columns' : 'cells';
      if (what !== '')
        losses.push(`On ${now}, ${what} stay at their old place on the sheet, since ${why} came or went.`);
    }
  }
  const copies = origins.filter(([id]) => !book.sheets.some((sheet) => sheet.id === id));
  losses.push(...new Set(copies.flatMap(([, origin]) => lossesOfCopy(origin))));
  return losses;
}

/** Looks that single letters of a cell were given in the page: the file gets the text. One sentence a sheet. */
export function lossesOfLetters({ sheets }: IWorkbookData): string[] {
  return Object.values(sheets).flatMap(({ name, cellData = {} }) => {
    const rows: readonly object[] = Object.values(cellData);
    const has = rows.some((row) => Object.values(row).some((cell: Nullable<ICellData>) => cell?.p?.body !== undefined));
    return has ? [`On ${name}, the looks of single letters are not kept, as of one bold word; the text is.`] : [];
  });
}

/** What a workbook can have but once, and so a copy of a sheet has not. */
function lossesOfCopy({ book, name }: Origin): string[] {
  const xml = partText(book.parts, book.sheets.find((sheet) => sheet.name === name)?.part ?? '') ?? '';
  const has = (element: string): boolean => startTags(xml, element).length > 0;
  const pictures = has('drawing') && [...book.parts.keys()].some((part) => part.startsWith('xl/media/'));
  const what = [...(has('tablePart') ? ['tables'] : []), ...(pictures ? ['pictures'] : [])].join(' and ');
  return what === '' ? [] : [`A copy of ${name} comes without its ${what}.`];
}
