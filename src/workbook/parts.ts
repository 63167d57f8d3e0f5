import { unreadable } from './limits.ts';
import { type Parts, partText } from './package.ts';
import { attributes, type Relation, relations, startTags } from './xml.ts';

/** Where things are in a workbook's package. */
export interface Layout {
  /** part of the workbook itself, usually xl/workbook.xml */
  readonly workbook: string;
  readonly relations: readonly Relation[];
  /** sheets in tab order */
  readonly sheets: readonly SheetPart[];
}

export interface SheetPart {
  readonly name: string;
  readonly hidden: boolean;
  /** part with the cells; undefined for a sheet that has none, such as a chart sheet */
  readonly part: string | undefined;
  /** whether it is a sheet of another kind, such as one large chart */
  readonly other: boolean;
}

export function layoutOf(parts: Parts): Layout {
  const root = relations(partText(parts, '_rels/.rels'), '').find((relation) =>
    relation.type.endsWith('/officeDocument'),
  );
  const workbook = root?.target ?? 'xl/workbook.xml';
  const xml = partText(parts, workbook);
  if (xml === undefined || !/<(?:\w+:)?workbook[\s>]/.test(xml)) {
    return unreadable('a package that holds no workbook');
  }
  const related = relations(partText(parts, relationsOf(workbook)), folderOf(workbook));
  const byId = new Map(related.map((relation) => [relation.id, relation]));
  const sheets = startTags(xml, 'sheet').map((tag): SheetPart => {
    const given = attributes(tag);
    const id = [...given].find(([name]) => /^\w+:id$/.test(name))?.[1] ?? '';
    const relation = byId.get(id);
    const cells = relation?.type.endsWith('/worksheet') === true && parts.has(relation.target);
    return {
      name: given.get('name') ?? '',
      hidden: (given.get('state') ?? 'visible') !== 'visible',
      part: cells ? relation.target : undefined,
      other: relation !== undefined && /\/(?:chart|dialog|macro|xlMacro)sheet$/i.test(relation.type),
    };
  });
  const names = new Set<string>();
  for (const { name } of sheets) {
    const same = name.toUpperCase();
    // Results are filed by the sheet's name: two of one name could not be told apart.
    if (names.has(same)) unreadable(`a workbook with two sheets called ${name}`);
    names.add(same);
  }
  return { workbook, relations: related, sheets };
}

export function folderOf(part: string): string {
  return part.slice(0, Math.max(part.lastIndexOf('/'), 0));
}

export function relationsOf(part: string): string {
  const folder = folderOf(part);
  return `${folder === '' ? '' : `${folder}/`}_rels/${part.slice(folder === '' ? 0 : folder.length + 1)}.rels`;
}
