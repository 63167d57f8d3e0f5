import { type Block, parseBlock } from './address.ts';
import { type Parts, partText } from './package.ts';
import { folderOf, relationsOf } from './parts.ts';
import { attributes, relations, startTags } from './xml.ts';

/**
 * Where a filter of a sheet, or of one of its tables, hides rows: below the header of each filter that has a condition
 * (ISO/IEC 29500-1 §18.3.1.2, §18.5.1.2). Rows hidden there are filtered, which SUBTOTAL leaves out always; others were hidden by hand.
 * @param part the sheet's
 */
export function filteredBlocks(parts: Parts, part: string): Block[] {
  // views that somebody keeps for themselves come behind, with filters of their own
  const [own = ''] = (partText(parts, part) ?? '').split(/<(?:\w+:)?customSheetViews[\s>]/, 1);
  const tables = relations(partText(parts, relationsOf(part)), folderOf(part))
    .filter(({ type }) => type.endsWith('/table'))
    .map(({ target }) => partText(parts, target) ?? '');
  return [own, ...tables].flatMap(blockOf);
}

function blockOf(xml: string): Block[] {
  const [tag = ''] = startTags(xml, 'autoFilter');
  const block = parseBlock(attributes(tag).get('ref') ?? '');
  if (tag.endsWith('/>') || block === undefined || block.startRow >= block.endRow) return [];
  const [conditions = ''] = xml.slice(xml.indexOf(tag) + tag.length).split(/<\/(?:\w+:)?autoFilter>/, 1);
  // an empty one only hides a button
  if (startTags(conditions, 'filterColumn').every((column) => column.endsWith('/>'))) return [];
  return [{ ...block, startRow: block.startRow + 1 }];
}
