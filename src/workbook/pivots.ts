import { parseBlock } from './address.ts';
import { editsOf, GONE, movedRange, type SheetEdit } from './edits.ts';
import { type Parts, partText, textPart } from './package.ts';
import { folderOf, type Layout, layoutOf, relationsOf } from './parts.ts';
import { attributes, escapeXml, type Relation, relations, startTags } from './xml.ts';

/** Pivot tables in a file made anew: they find their data by a number, and the data by a sheet and a range. */

/** Where the data of pivot tables are kept, by their numbers. */
function cachesOf(parts: Parts, layout: Layout): Map<string, string> {
  const targets = new Map(layout.relations.map(({ id, target }) => [id, target]));
  return new Map(
    startTags(partText(parts, layout.workbook) ?? '', 'pivotCache').map((tag) => {
      const given = attributes(tag);
      const id = [...given].find(([name]) => /^\w+:id$/.test(name))?.[1] ?? '';
      return [targets.get(id) ?? '', given.get('cacheId') ?? ''];
    }),
  );
}

/**
 * Sets right what the writer of workbooks leaves behind: the numbers of the file before, the range that the data come from, and
 * where each pivot table stands.
 *
 * @param parts of the file made anew, changed in place
 */
export function keepPivots(parts: Parts, before: Parts, old: Layout, edits: readonly SheetEdit[]): void {
  const caches = cachesOf(before, old);
  if (caches.size === 0) return;
  const layout = layoutOf(parts);
  const now = cachesOf(parts, layout);
  const numbers = new Map([...now].map(([target, number]) => [number, caches.get(target) ?? number]));
  const xml = partText(parts, layout.workbook) ?? '';
  const mended = xml.replace(/(<pivotCache\s[^>]*?\bcacheId=")(\d+)"/g, (_, open: string, number: string) => {
    return `${open}${numbers.get(number) ?? number}"`;
  });
  parts.set(layout.workbook, textPart(mended));
  for (const target of caches.keys()) change(parts, target, (text) => movedSource(text, edits));
  for (const { name, part } of old.sheets) {
    if (part === undefined) continue;
    const own = editsOf(edits, name);
    for (const { target } of pivotsOf(before, part)) change(parts, target, (text) => movedPlace(text, own));
  }
}

/** Pivot tables of a sheet. */
export function pivotsOf(parts: Parts, part: string): Relation[] {
  return relations(partText(parts, relationsOf(part)), folderOf(part)).filter(({ type }) =>
    type.endsWith('/pivotTable'),
  );
}

function change(parts: Parts, part: string, by: (xml: string) => string): void {
  const xml = partText(parts, part);
  if (xml === undefined) return;
  const now = by(xml);
  if (now !== xml) parts.set(part, textPart(now));
}

const SOURCE = /<(?:\w+:)?worksheetSource(?=[\s/>])[^>]*>/;

function movedSource(xml: string, edits: readonly SheetEdit[]): string {
  return xml.replace(SOURCE, (tag) => {
    const given = attributes(tag);
    const sheet = given.get('sheet');
    if (sheet === undefined) return tag;
    const name = edits.reduce(
      (known, edit) => (edit.kind === 'rename' && edit.sheet === known ? edit.to : known),
      sheet,
    );
    const ref = given.get('ref');
    const moved = ref === undefined ? GONE : movedRange(ref, editsOf(edits, sheet));
    const renamed = tag.replace(/(\ssheet=)(?:"[^"]*"|'[^']*')/, (_, key: string) => `${key}"${escapeXml(name)}"`);
    return moved === GONE ? renamed : withRef(renamed, moved);
  });
}

/** A pivot table whose own cells came or went in part keeps its size: it is laid out anew when it is refreshed. */
function movedPlace(xml: string, own: ReturnType<typeof editsOf>): string {
  return xml.replace(/<(?:\w+:)?location(?=[\s/>])[^>]*>/, (tag) => {
    const ref = attributes(tag).get('ref') ?? '';
    const moved = movedRange(ref, own);
    const [a, b] = [parseBlock(ref), parseBlock(moved)];
    if (a === undefined || b === undefined) return tag;
    const same =
      a.endRow - a.startRow === b.endRow - b.startRow && a.endColumn - a.startColumn === b.endColumn - b.startColumn;
    return same ? withRef(tag, moved) : tag;
  });
}

function withRef(tag: string, ref: string): string {
  return tag.replace(/(\sref=)(?:"[^"]*"|'[^']*')/, (_, key: string) => `${key}"${ref}"`);
}
