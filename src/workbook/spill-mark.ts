import { type Parts, partText, textPart } from './package.ts';
import { folderOf, type Layout, relationsOf } from './parts.ts';
import { addRelation, addType, dropTags } from './relate.ts';
import { attributes, startTags } from './xml.ts';

/**
 * The mark on a cell that lets its formula spill: an index into the cell metadata of the workbook, which leads to a
 * dynamic-array property ([MS-XLSX] §2.3.11, ISO/IEC 29500-1 §18.9).
 */

const TYPE = 'XLDAPR';
const SHEET_NAMESPACE = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main';
const SPILL_NAMESPACE = 'http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray';
const EXTENSION = '{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}';
const CONTENT_TYPE = 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml';
const RELATION_TYPE = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata';
/** First version of the program that knows of it, as files state it. */
const LEAST_VERSION = 120000;

const METADATA = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<metadata xmlns="${SHEET_NAMESPACE}" xmlns:xda="${SPILL_NAMESPACE}"><metadataTypes count="1"><metadataType name="${TYPE}" minSupportedVersion="${LEAST_VERSION}" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/></metadataTypes><futureMetadata name="${TYPE}" count="1"><bk><extLst><ext uri="${EXTENSION}"><xda:dynamicArrayProperties fDynamic="1" fCollapsed="0"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>`;

/**
 * Index of the mark in this workbook, put in if the workbook has no cell metadata yet.
 * @returns undefined when the workbook keeps other metadata and no such mark: its formulas are then tied to their ranges
 */
export function spillMark(parts: Parts, layout: Layout): number | undefined {
  const known = layout.relations.find(({ type }) => type.endsWith('/sheetMetadata'));
  if (known === undefined) {
    addPart(parts, layout, 'metadata.xml', CONTENT_TYPE, RELATION_TYPE, METADATA);
    return 1;
  }
  const xml = partText(parts, known.target) ?? '';
  const types = startTags(xml, 'metadataType').map((tag) => attributes(tag).get('name'));
  const cells = /<(?:\w+:)?cellMetadata[\s>][\s\S]*?<\/(?:\w+:)?cellMetadata>/.exec(xml)?.[0] ?? '';
  const blocks = cells.match(/<(?:\w+:)?bk[\s>][\s\S]*?<\/(?:\w+:)?bk>/g) ?? [];
  const place = blocks.findIndex((block) => {
    const record = startTags(block, 'rc')[0];
    return record !== undefined && types[Number(attributes(record).get('t')) - 1] === TYPE;
  });
  return place < 0 ? undefined : place + 1;
}

function addPart(parts: Parts, layout: Layout, name: string, contentType: string, type: string, xml: string): void {
  const folder = folderOf(layout.workbook);
  const path = folder === '' ? name : `${folder}/${name}`;
  parts.set(path, textPart(xml));
  addRelation(parts, layout.workbook, type, name);
  addType(parts, path, contentType);
}

/** Takes the stored order of calculation out, which names cells that may hold no formula any more; programs make it anew. */
export function dropCalculationOrder(parts: Parts, layout: Layout): void {
  const chain = layout.relations.find(({ type }) => type.endsWith('/calcChain'));
  if (chain === undefined) return;
  parts.delete(chain.target);
  const relations = relationsOf(layout.workbook);
  dropTags(parts, relations, 'Relationship', (given) => given.get('Id') === chain.id);
  dropTags(parts, '[Content_Types].xml', 'Override', (given) => given.get('PartName') === `/${chain.target}`);
}
