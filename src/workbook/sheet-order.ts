import type { Parts } from './package.ts';
import { partText, textPart } from './package.ts';
import { folderOf, type Layout, layoutOf, relationsOf } from './parts.ts';
import { dropTags } from './relate.ts';
import { attributes, escapeXml, relations, startTags, unescapeXml } from './xml.ts';

/**
 * Brings the sheets of a package into another order and takes sheets out, in the workbook's own part: what belongs to each
 * sheet (charts, pictures, comments) stays with it. Names that hold for one sheet, and the sheet in view, follow.
 *
 * @param parts changed in place
 * @param names names of the sheets that stay, in their order
 */
export function orderSheets(parts: Parts, names: readonly string[]): void {
  const layout = layoutOf(parts);
  const xml = partText(parts, layout.workbook) ?? '';
  const tags = startTags(xml, 'sheet');
  const before = tags.map((tag) => attributes(tag).get('name') ?? '');
  if (before.length === names.length && before.every((name, index) => names[index] === name)) return;
  const order = names.map((name) => before.indexOf(name)).filter((index) => index >= 0);
  const list = /<((?:\w+:)?)sheets\s*>[\s\S]*?<\/\1sheets\s*>/.exec(xml);
  if (list === null) return;
  const [whole = '', prefix = ''] = list;
  const closed = order.map((index) => (tags[index] ?? '').replace(/\s*\/?>$/, '/>'));
  const place = (index: string | undefined): number => order.indexOf(Number(index ?? '0'));
  const visible = order.findIndex((index) => !/\sstate="(?:hidden|veryHidden)"/.test(tags[index] ?? ''));
  const inView = (index: string): number => (place(index) >= 0 ? place(index) : Math.max(0, visible));
  const moved = xml
    .replace(whole, () => `<${prefix}sheets>${closed.join('')}</${prefix}sheets>`)
    .replace(
      /<(?:\w+:)?definedName\b[^>]*?\slocalSheetId="(\d+)"[^>]*>[\s\S]*?<\/(?:\w+:)?definedName>/g,
      (name, index) => {
        const to = place(index);
        return to < 0 ? '' : name.replace(/localSheetId="\d+"/, `localSheetId="${to}"`);
      },
    )
    .replace(/<(?:\w+:)?workbookView\b[^>]*>/g, (view) =>
      view
        .replace(/\sfirstSheet="\d+"/, '')
        .replace(/\sactiveTab="(\d+)"/, (_, index) => ` activeTab="${inView(index)}"`),
    );
  parts.set(layout.workbook, textPart(moved));
  const kept = new Set(names);
  for (const { name, part } of layout.sheets)
    if (!kept.has(name) && part !== undefined) takeOut(parts, layout.workbook, part);
}

/**
 * The package with only those sheets in its list that are for cells: the reader of files knows no chart sheets. The parts of the
 * others stay.
 */
export function cellSheetsOnly(parts: Parts, { sheets }: Layout): Parts {
  const named = sheets.flatMap(({ name, other }) => (other ? [] : [name]));
  if (named.length === sheets.length) return parts;
  const copy: Parts = new Map(parts);
  orderSheets(copy, named);
  return copy;
}

function takeOut(parts: Parts, workbook: string, part: string): void {
  parts.delete(part);
  parts.delete(relationsOf(part));
  const gone = relations(partText(parts, relationsOf(workbook)), folderOf(workbook)).find(
    ({ target }) => target === part,
  );
  dropTags(parts, relationsOf(workbook), 'Relationship', (given) => given.get('Id') === gone?.id);
  dropTags(parts, '[Content_Types].xml', 'Override', (given) => given.get('PartName') === `/${part}`);
}

/** Changes the references of charts of a package. */
export function moveChartReferences(
  parts: Parts,
  move: (reference: string) => string,
  which: (part: string) => boolean,
): void {
  for (const name of [...parts.keys()]) {
    if (!/(^|\/)charts\/[^/]+\.xml$/.test(name) || !which(name)) continue;
    const xml = partText(parts, name) ?? '';
    const moved = xml.replace(/(<((?:\w+:)?)f>)([^<]*)(<\/\2f>)/g, (whole, open, _prefix, text, close) => {
      const to = move(unescapeXml(text));
      return to === unescapeXml(text) ? whole : `${open}${escapeXml(to)}${close}`;
    });
    if (moved !== xml) parts.set(name, textPart(moved));
  }
}
