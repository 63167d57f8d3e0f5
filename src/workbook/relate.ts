import { type Parts, partText, textPart } from './package.ts';
import { folderOf, relationsOf } from './parts.ts';
import { attributes, escapeXml, relations, startTags } from './xml.ts';

/** Relations of parts and types of content: what a package says of its parts beside them. */

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const NAMESPACE = 'http://schemas.openxmlformats.org/package/2006/relationships';
const TYPES = '[Content_Types].xml';

/**
 * A further relation of a part, or of the package itself where it is ''.
 * @returns its id
 */
export function addRelation(parts: Parts, owner: string, type: string, target: string): string {
  const part = owner === '' ? '_rels/.rels' : relationsOf(owner);
  if (!parts.has(part)) parts.set(part, textPart(`${HEAD}<Relationships xmlns="${NAMESPACE}"></Relationships>`));
  const ids = new Set(relations(partText(parts, part), folderOf(owner)).map(({ id }) => id));
  let number = ids.size + 1;
  while (ids.has(`rId${number}`)) number++;
  insertBefore(parts, part, 'Relationships', (prefix) => {
    return `<${prefix}Relationship Id="rId${number}" Type="${type}" Target="${escapeXml(target)}"/>`;
  });
  return `rId${number}`;
}

/** Says of a part what its content is, in place of what was said of it before: a package with two answers does not open. */
export function addType(parts: Parts, part: string, type: string): void {
  const isPart = (name = ''): boolean => name.toLowerCase() === `/${part.toLowerCase()}`;
  dropTags(parts, TYPES, 'Override', (given) => isPart(given.get('PartName')));
  insertBefore(parts, TYPES, 'Types', (prefix) => {
    return `<${prefix}Override PartName="/${escapeXml(part)}" ContentType="${type}"/>`;
  });
}

/** What the package says that the content of a part is. */
export function typesOf(parts: Parts): (part: string) => string | undefined {
  const xml = partText(parts, TYPES) ?? '';
  const own = new Map<string, string>();
  for (const tag of startTags(xml, 'Override')) {
    const given = attributes(tag);
    own.set((given.get('PartName') ?? '').replace(/^\//, '').toLowerCase(), given.get('ContentType') ?? '');
  }
  const byEnding = new Map<string, string>();
  for (const tag of startTags(xml, 'Default')) {
    const given = attributes(tag);
    byEnding.set((given.get('Extension') ?? '').toLowerCase(), given.get('ContentType') ?? '');
  }
  return (part) => {
    const name = part.toLowerCase();
    return own.get(name) ?? byEnding.get(/\.([^./]+)$/.exec(name)?.[1] ?? '');
  };
}

/** Takes out relations and types of content of parts that are not there. */
export function dropDangling(parts: Parts, owner: string): void {
  const gone = new Set(
    relations(partText(parts, relationsOf(owner)), folderOf(owner))
      .filter(({ target, outside }) => !outside && !parts.has(target.replace(/#.*$/, '')))
      .map(({ id }) => id),
  );
  dropTags(parts, relationsOf(owner), 'Relationship', (given) => gone.has(given.get('Id') ?? ''));
  dropTags(parts, TYPES, 'Override', (given) => !parts.has((given.get('PartName') ?? '').replace(/^\//, '')));
}

/** Takes out parts to which no relation leads from the package, step by step, and what is said of them. */
export function dropUnrelated(parts: Parts): void {
  const names = new Map([...parts.keys()].map((name) => [name.toLowerCase(), name]));
  const kept = new Set<string>([TYPES]);
  const waiting = [''];
  for (let owner = waiting.pop(); owner !== undefined; owner = waiting.pop()) {
    // the package's own stands where one of a part without a name would
    const list = names.get(relationsOf(owner).toLowerCase());
    if (list === undefined) continue;
    kept.add(list);
    for (const { target, outside } of relations(partText(parts, list), folderOf(owner))) {
      const name = outside ? undefined : names.get(plainName(target).toLowerCase());
      if (name === undefined || kept.has(name)) continue;
      kept.add(name);
      waiting.push(name);
    }
  }
  for (const name of [...parts.keys()]) if (!kept.has(name)) parts.delete(name);
  dropTags(parts, TYPES, 'Override', (given) => {
    const name = names.get((given.get('PartName') ?? '').replace(/^\//, '').toLowerCase());
    return name !== undefined && !kept.has(name);
  });
}

/** The name of the part that a target means: without a place in it, and with its signs as they are. */
function plainName(target: string): string {
  const name = target.replace(/#.*$/, '');
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

export function dropTags(
  parts: Parts,
  part: string,
  element: string,
  matches: (given: ReadonlyMap<string, string>) => boolean,
): void {
  const xml = partText(parts, part);
  if (xml === undefined) return;
  const tags = new RegExp(`<(?:\\w+:)?${element}(?=[\\s/>])[^>]*?(?:/>|>\\s*</[^>]*>)`, 'g');
  parts.set(part, textPart(xml.replace(tags, (tag) => (matches(attributes(tag)) ? '' : tag))));
}

function insertBefore(parts: Parts, part: string, element: string, made: (prefix: string) => string): void {
  const xml = partText(parts, part) ?? '';
  const end = new RegExp(`</((?:\\w+:)?)${element}\\s*>|<((?:\\w+:)?)${element}(\\s[^>]*)?/>`).exec(xml);
  if (end === null) return;
  const prefix = end[1] ?? end[2] ?? '';
  const inside = made(prefix);
  const closed =
    end[1] === undefined ? `<${prefix}${element}${end[3] ?? ''}>${inside}</${prefix}${element}>` : inside + end[0];
  parts.set(part, textPart(xml.slice(0, end.index) + closed + xml.slice(end.index + end[0].length)));
}
