import type { IWorkbookData } from '@univerjs/core';
import { carried } from './carry.ts';
import { keepDrawings, keepsDrawing, keepTypes } from './drawings.ts';
import { editsOf, type SheetEdit } from './edits.ts';
import { keepFormats } from './formats.ts';
import { type Parts, partText, textPart } from './package.ts';
import { layoutOf } from './parts.ts';
import { type CellPatch, patchedSheet } from './patch.ts';
import { keepPivots } from './pivots.ts';
import type { Book } from './read.ts';
import { addRelation, dropDangling } from './relate.ts';
import { nameColumns } from './table-headers.ts';
import { movedTable, tablePart, tableRelations, tablesOf } from './table-part.ts';
import { textsOf } from './write.ts';
import { attributes, escapeXml, relations, startTags } from './xml.ts';

/** A sheet of the file before that is in the file made anew. */
export interface KeptSheet {
  /** its name in the file before */
  readonly name: string;
  /** its part in the file made anew */
  readonly part: string;
  readonly cells: IWorkbookData['sheets'][string]['cellData'];
}

/**
 * Takes over from the file before what the writer of workbooks knows only in part or not at all, with its ranges where their
 * cells are now.
 *
 * @param parts of the file made anew, changed in place
 */
export function keepRest(parts: Parts, book: Book, sheets: readonly KeptSheet[], edits: readonly SheetEdit[]): void {
  const firstFormat = keepFormats(parts, book.parts, book.layout);
  const tables = tablesOf(book);
  for (const { name, part, cells } of sheets) {
    const was = book.sheets.find((sheet) => sheet.name === name)?.part ?? '';
    const before = partText(book.parts, was) ?? '';
    parts.set(part, textPart(carried(partText(parts, part) ?? '', before, { sheet: name, edits, firstFormat })));
    if (keepsDrawing(before)) keepDrawings(parts, part, book.parts, was);
    for (const { target } of tableRelations(parts, part)) {
      const written = partText(parts, target) ?? '';
      const kept = tables.get(tablePart(written)?.name ?? '')?.xml;
      const id = attributes(startTags(written, 'table')[0] ?? '').get('id');
      const moved = kept && movedTable(kept, editsOf(edits, name), firstFormat, id);
      if (moved !== undefined) parts.set(target, textPart(moved));
    }
    const patch = new Map<number, Map<number, CellPatch>>();
    nameColumns(parts, part, textsOf(cells), undefined, (row, column, change) => {
      patch.set(row, (patch.get(row) ?? new Map<number, CellPatch>()).set(column, change));
    });
    if (patch.size > 0) parts.set(part, textPart(patchedSheet(partText(parts, part) ?? '', patch)));
  }
  keepPivots(parts, book.parts, book.layout, edits);
  keepSettings(parts, book);
  keepOwnProperties(parts, book.parts);
  keepTypes(parts, book.parts);
  dropDangling(parts, layoutOf(parts).workbook);
}

/** Settings of the calculation that change what comes out of it. */
const CALCULATION = ['calcMode', 'fullPrecision', 'iterate', 'iterateCount', 'iterateDelta', 'refMode'];

/** The lock of the workbook, and how it is worked out. */
function keepSettings(parts: Parts, book: Book): void {
  const before = partText(book.parts, book.layout.workbook) ?? '';
  const { workbook } = layoutOf(parts);
  const [lock = ''] = startTags(before, 'workbookProtection');
  const given = attributes(startTags(before, 'calcPr')[0] ?? '');
  const settings = CALCULATION.flatMap((name) => {
    const value = given.get(name);
    return value === undefined ? [] : [` ${name}="${escapeXml(value)}"`];
  });
  const xml = (partText(parts, workbook) ?? '')
    .replace(/<workbookProtection(?=[\s/>])[^>]*>/, '')
    .replace('<bookViews>', () => `${lock.replace(/^<\w+:/, '<').replace(/\s*\/?>$/, '/>')}<bookViews>`)
    .replace('<calcPr ', () => `<calcPr${settings.join('')} `);
  parts.set(workbook, textPart(xml));
}

const OWN_PROPERTIES = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/custom-properties';

/** Properties of the document that somebody named. */
function keepOwnProperties(parts: Parts, before: Parts): void {
  const known = relations(partText(before, '_rels/.rels'), '').find(({ type }) => type.endsWith('/custom-properties'));
  const bytes = known && before.get(known.target);
  if (known === undefined || bytes === undefined) return;
  parts.set(known.target, bytes);
  addRelation(parts, '', OWN_PROPERTIES, known.target);
}
