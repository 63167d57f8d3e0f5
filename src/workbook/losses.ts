import type { ICellData, IWorkbookData } from '@univerjs/core';
import { quoteSheetName, spotName } from './address.ts';
import { type Parts, partText, textPart } from './package.ts';
import { type Layout, relationsOf } from './parts.ts';
import type { Book } from './read.ts';
import { attributes, startTags } from './xml.ts';

/**
 * What a filled copy of the workbook does not carry over, or carries over with old values: one sentence each.
 * Everything else stays as it is in the file.
 *
 * @param anew whether the file is made anew: formulas that are not worked out here are no formulas in it
 */
export function lossesOf(book: Book, anew = false): string[] {
  const left = anew
    ? 'become the values stored in the file, and are no formulas any more'
    : 'keep the values stored in the file';
  const names = [...book.parts.keys()];
  const has = (pattern: RegExp): boolean => names.some((name) => pattern.test(name));
  const losses: string[] = [];
  if (has(MACROS)) losses.push('Macros are left out.');
  if (has(SIGNATURES)) losses.push('The digital signature is left out: it holds for the file as it was signed.');
  if (has(/(^|\/)pivotTables\//i)) {
    losses.push('Pivot tables keep the figures of their last refresh: refresh them in a spreadsheet program.');
  }
  if (has(/(^|\/)externalLinks\//i)) {
    losses.push(`Formulas that refer to other workbooks ${left}.`);
  }
  if (has(/(^|\/)(connections\.xml|queryTables\/)/i)) losses.push('Data from outside sources is not fetched again.');
  if (hasDataTables(book)) losses.push(`What-if data tables ${left}.`);
  if (countsFrom1904(book))
    losses.push(
      'The workbook counts days from 1904, the calculation here from 1900: what functions of dates give, and dates typed here, are four years and a day off.',
    );
  return losses;
}

function countsFrom1904({ parts, layout }: Book): boolean {
  const [settings = ''] = startTags(partText(parts, layout.workbook) ?? '', 'workbookPr');
  return /^(?:1|true)$/.test(attributes(settings).get('date1904') ?? '');
}

/** Formulas of the file that call what is not known here: an error takes the place of the values that the file has for them. */
export function lossesOfUnknown(book: Book, now: IWorkbookData): string[] {
  const cells = book.sheets.flatMap(({ id, name }) => {
    const held = now.sheets[id]?.cellData ?? {};
    return Object.entries(book.snapshot.sheets[id]?.cellData ?? {}).flatMap(([row, line]) =>
      Object.entries(line as Record<string, ICellData>).flatMap(([column, was]) => {
        const cell = held[Number(row)]?.[Number(column)];
        const lost = was.f != null && was.f === cell?.f && cell.v === UNKNOWN && was.v != null && was.v !== UNKNOWN;
        return lost ? [`${quoteSheetName(name)}!${spotName(Number(row), Number(column))}`] : [];
      }),
    );
  });
  if (cells.length === 0) return [];
  const more = cells.length > 1 ? ` and ${cells.length - 1} more` : '';
  return [`Functions in ${cells[0]}${more} are not known here: ${UNKNOWN} takes the place of what the file has there.`];
}

const UNKNOWN = '#NAME?';

const MACROS = /(^|[/"'])(vbaProject\w*\.bin|vbaData\.xml|_rels\/vbaProject\.bin\.rels|macrosheets\/)/i;
const SIGNATURES = /^_xmlsignatures\//i;

function hasDataTables(book: Book): boolean {
  return book.sheets.some(({ part }) =>
    startTags(partText(book.parts, part) ?? '', 'f').some((tag) => /\st\s*=\s*["']dataTable["']/.test(tag)),
  );
}

const OTHER_TYPE =
  /application\/vnd\.(?:ms-excel\.(?:sheet|template|addin)\.macroEnabled|openxmlformats-officedocument\.spreadsheetml\.template)\.main\+xml/g;
const PLAIN_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml';

/** What a file that is written is, whatever it was read from: neither a template nor one with macros. */
export function plainKind(parts: Parts): void {
  const types = partText(parts, '[Content_Types].xml') ?? '';
  const plain = types.replace(OTHER_TYPE, PLAIN_TYPE);
  if (plain !== types) parts.set('[Content_Types].xml', textPart(plain));
}

/** Takes out what a changed workbook must not keep: macros and signatures, with every mention of them. */
export function withoutMacros(parts: Parts, layout: Layout): void {
  const gone = [...parts.keys()].filter((name) => MACROS.test(name) || SIGNATURES.test(name));
  if (gone.length === 0) return;
  for (const name of gone) parts.delete(name);
  const mentions = (given: string): boolean => MACROS.test(given) || /_xmlsignatures|digital-signature/i.test(given);
  for (const part of ['_rels/.rels', relationsOf(layout.workbook), '[Content_Types].xml']) {
    const xml = partText(parts, part);
    if (xml === undefined) continue;
    const kept = xml.replace(/<(?:\w+:)?(?:Relationship|Override)(?=[\s/>])[^>]*?(?:\/>|>\s*<\/[^>]*>)/g, (tag) =>
      mentions(tag) ? '' : tag,
    );
    parts.set(part, textPart(kept));
  }
}
