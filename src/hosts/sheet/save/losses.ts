import type { ICellData, IWorkbookData, Nullable } from '@univerjs/core';
import { keepsDrawing } from '../../../workbook/drawings.ts';
import { editsOf, movedBlocks, type SheetEdit } from '../../../workbook/edits.ts';
import { lossesOf } from '../../../workbook/losses.ts';
import { partText } from '../../../workbook/package.ts';
import type { Book } from '../../../workbook/read.ts';
import { keepsFrame, movedTable, tablePart, tableRelations } from '../../../workbook/table-part.ts';
import { attributes, startTags } from '../../../workbook/xml.ts';
import type { Origin } from './origin.ts';

/** What a sheet may hold at fixed places that rows and columns do not take along when the file is made anew. */
const STAYS: readonly (readonly [element: string, words: string])[] = [['drawing', 'charts and pictures']];
/** What only the cells of a sheet follow. */
const ALONE: readonly (readonly [element: string, words: string])[] = [
  ...STAYS,
  ['brk', 'page breaks'],
  ['sparkline', 'small charts in cells'],
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
 * @param rearranged names of sheets on which cells alone were moved to other places
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
  const losses = lossesOf(book, anew);
  if (!anew) return losses;
  if (book.layout.sheets.some(({ other }) => other)) losses.push('Sheets that are one chart are left out.');
  if (hasOwnStyles(book)) losses.push('Names of cell styles are not kept; the looks are.');
  for (const { name, part } of book.sheets) {
    const xml = partText(book.parts, part) ?? '';
    const now = edits.reduce((known, edit) => (edit.kind === 'rename' && edit.sheet === known ? edit.to : known), name);
    const held = (kinds: typeof STAYS): string => {
      const words = kinds.flatMap(([element, what]) => (startTags(xml, element).length > 0 ? [what] : []));
      return listed(words);
    };
    const gone = LEFT_OUT.flatMap(([pattern, what]) => (pattern.test(xml) ? [what] : []));
    if (!keepsDrawing(xml))
      gone.push('buttons', 'slicers', 'objects of other programs', 'the charts and shapes beside them');
    if (gone.length > 0) losses.push(`On ${now}, ${listed(gone)} are not kept.`);
    losses.push(...lossesOfTables(book, part, edits).map((what) => `On ${now}, ${what}.`));
    if (rearranged.has(now)) {
      const what = held(ALONE);
      if (what !== '') losses.push(`On ${now}, ${what} stay where they were, since cells changed places.`);
    } else {
      const own = editsOf(edits, name);
      const what = own.some(({ across }) => across === undefined) ? held(STAYS) : '';
      const happened = own.some(({ kind }) => kind === 'move') ? 'came, went or changed places' : 'came or went';
      if (what !== '')
        losses.push(`On ${now}, ${what} stay at their old place on the sheet, since rows or columns ${happened}.`);
    }
  }
  const copies = origins.filter(([id]) => !book.sheets.some((sheet) => sheet.id === id));
  losses.push(...new Set(copies.flatMap(([, origin]) => lossesOfCopy(origin))));
  return losses;
}

/** What the file made anew does not have, of what stands in the part of a sheet. */
const LEFT_OUT: readonly (readonly [pattern: RegExp, words: string])[] = [
  [
    /<(?:\w+:)?row(?=\s)[^>]*\scustomFormat="(?:1|true)"|<(?:\w+:)?col(?=\s)[^>]*\sstyle="[1-9]/,
    'looks of whole rows and columns',
  ],
  [/<(?:\w+:)?scenarios[\s>]/, 'scenarios'],
  [/<(?:\w+:)?customSheetViews[\s>]/, 'views that somebody kept'],
];

function listed(words: readonly string[]): string {
  return words.join(', ').replace(/, ([^,]*)$/, ' and $1');
}

/** Tables of a sheet that are none any more, though they do not go as a whole. */
function lossesOfTables({ parts, sheets }: Book, part: string, edits: readonly SheetEdit[]): string[] {
  const sheet = sheets.find((one) => one.part === part);
  const own = editsOf(edits, sheet?.name ?? '');
  if (own.length === 0) return [];
  return tableRelations(parts, part).flatMap(({ target }) => {
    const xml = partText(parts, target) ?? '';
    const table = tablePart(xml);
    const gone =
      table !== undefined && movedBlocks(table.block, own) !== undefined && movedTable(xml, own) === undefined;
    if (!gone) return [];
    const why = keepsFrame(table, own) ? 'no row for its data is left' : 'its header or its totals left their place';
    return [`the table ${table.name} is left out, since ${why}`];
  });
}

/** Whether cells have looks that go by a name that somebody gave. */
function hasOwnStyles({ parts, layout }: Book): boolean {
  const xml = partText(parts, layout.relations.find(({ type }) => type.endsWith('/styles'))?.target ?? '') ?? '';
  const [, cells = ''] = /<(?:\w+:)?cellXfs(?:\s[^>]*)?>([\s\S]*?)<\/(?:\w+:)?cellXfs>/.exec(xml) ?? [];
  const used = new Set(startTags(cells, 'xf').map((tag) => attributes(tag).get('xfId')));
  return startTags(xml, 'cellStyle').some((tag) => {
    const given = attributes(tag);
    return !given.has('builtinId') && used.has(given.get('xfId'));
  });
}

/** Looks that single letters of a cell were given in the page: the file gets the text. One sentence a sheet. */
export function lossesOfLetters({ sheets }: IWorkbookData): string[] {
  return Object.values(sheets).flatMap(({ name, cellData = {} }) => {
    const rows: readonly object[] = Object.values(cellData);
    // a link that a formula gives is no entry with looks of its own
    const looks = (cell: Nullable<ICellData>): boolean => cell?.p?.body !== undefined && !cell.f;
    const has = rows.some((row) => Object.values(row).some(looks));
    return has ? [`On ${name}, the looks of single letters are not kept, as of one bold word; the text is.`] : [];
  });
}

/** Conditional formats that the writer of workbooks does not know in full. */
const NOT_COPIED =
  /<\w+:conditionalFormattings[\s>]|<(?:\w+:)?cfRule\s[^>]*\btype="(?:top10|aboveAverage|timePeriod|\w*(?:Errors|Blanks))"/;

/** What a workbook can have but once, and so a copy of a sheet has not. */
function lossesOfCopy({ book, name }: Origin): string[] {
  const xml = partText(book.parts, book.sheets.find((sheet) => sheet.name === name)?.part ?? '') ?? '';
  const has = (element: string): boolean => startTags(xml, element).length > 0;
  const small = has('sparkline');
  const formats = NOT_COPIED.test(xml);
  const pictures = has('drawing') && [...book.parts.keys()].some((part) => part.startsWith('xl/media/'));
  const what = listed([
    ...(has('tablePart') ? ['tables'] : []),
    ...(pictures ? ['pictures'] : []),
    ...(small ? ['small charts in cells'] : []),
    ...(formats ? ['newer and rarer kinds of conditional formats'] : []),
  ]);
  return what === '' ? [] : [`A copy of ${name} comes without its ${what}.`];
}
