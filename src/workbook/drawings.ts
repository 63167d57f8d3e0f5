import { type Parts, partText, textPart } from './package.ts';
import { folderOf, relationsOf } from './parts.ts';
import { addRelation, addType, typesOf } from './relate.ts';
import { joinedPieces, sheetPieces } from './sheet-pieces.ts';
import { attributes, escapeXml, relations } from './xml.ts';

/** What a sheet says that it has in parts of their own: charts and pictures, a picture behind the cells, those of headers. */
const ELEMENTS = ['drawing', 'legacyDrawingHF', 'picture'] as const;
/** Buttons, objects of other programs and slicers: what draws them is of no use without what they are. */
const OBJECTS = /<(?:\w+:)?(?:controls|oleObjects|slicerList|timelineRefs)[\s>]/;

/** Whether the drawing of a sheet can be kept as it is. */
export function keepsDrawing(xml: string): boolean {
  return !OBJECTS.test(xml);
}

/**
 * Takes charts, pictures and shapes of a sheet over from the file before as they are.
 *
 * @param parts of the file made anew, changed in place
 * @param part the sheet's part there
 * @param before the file before
 * @param was the sheet's part there
 */
export function keepDrawings(parts: Parts, part: string, before: Parts, was: string): void {
  const pieces = sheetPieces(partText(parts, part) ?? '');
  const old = sheetPieces(partText(before, was) ?? '');
  if (pieces === undefined || old === undefined) return;
  const related = relations(partText(before, relationsOf(was)), folderOf(was));
  for (const name of ELEMENTS) {
    const given = attributes(old.elements.get(name) ?? '');
    const id = [...given].find(([key]) => /^\w+:id$/.test(key))?.[1];
    const relation = related.find((one) => one.id === id);
    if (relation === undefined || !before.has(relation.target)) continue;
    const target = keepPart(parts, before, relation.target, new Map());
    const known = relations(partText(parts, relationsOf(part)), folderOf(part)).find(
      (one) => one.type === relation.type && one.target === target,
    );
    const to = known?.id ?? addRelation(parts, part, relation.type, `/${target}`);
    pieces.elements.set(name, `<${name} r:id="${to}"/>`);
  }
  parts.set(part, textPart(joinedPieces(pieces)));
}

/**
 * A part with all that it leads to, under another name where its own is taken.
 * @param done names by which parts went over already
 */
function keepPart(parts: Parts, before: Parts, part: string, done: Map<string, string>): string {
  const known = done.get(part);
  if (known !== undefined) return known;
  const bytes = before.get(part) ?? new Uint8Array(0);
  let name = part;
  while (parts.has(name) && !same(parts.get(name), bytes)) name = name.replace(/(\.\w+)?$/, '_$1');
  done.set(part, name);
  parts.set(name, bytes);
  const type = typesOf(before)(part);
  if (type !== undefined && typesOf(parts)(name) !== type) addType(parts, name, type);
  const xml = partText(before, relationsOf(part));
  if (xml === undefined) return name;
  const moved = new Map<string, string>();
  for (const { id, target, outside } of relations(xml, folderOf(part))) {
    if (!outside && before.has(target)) moved.set(id, keepPart(parts, before, target, done));
  }
  const led = xml.replace(/<(?:\w+:)?Relationship(?=[\s/>])[^>]*>/g, (tag) => {
    const to = moved.get(attributes(tag).get('Id') ?? '');
    return to === undefined
      ? tag
      : tag.replace(/(\sTarget=)(?:"[^"]*"|'[^']*')/, (_, key) => `${key}"/${escapeXml(to)}"`);
  });
  parts.set(relationsOf(name), textPart(led));
  return name;
}

function same(a: Uint8Array | undefined, b: Uint8Array): boolean {
  return a !== undefined && a.length === b.length && a.every((byte, at) => byte === b[at]);
}

/** Types of content of parts that were taken over as they are and that the writer of workbooks does not know. */
export function keepTypes(parts: Parts, before: Parts): void {
  const old = typesOf(before);
  const now = typesOf(parts);
  for (const part of parts.keys()) {
    const type = old(part);
    if (part === '[Content_Types].xml' || type === undefined || !before.has(part)) continue;
    if (now(part) === undefined || (now(part) === 'application/xml' && type !== 'application/xml'))
      addType(parts, part, type);
  }
}
