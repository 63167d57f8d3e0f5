import { type Block, blockName, parseBlock } from './address.ts';
import { withFormats } from './carry.ts';
import { type editsOf, movedBlocks } from './edits.ts';
import { movedColumns } from './moved-columns.ts';
import { type Parts, partText } from './package.ts';
import { folderOf, relationsOf } from './parts.ts';
import type { Book } from './read.ts';
import { sideBySide, unprefixed } from './sheet-pieces.ts';
import { formulaNames } from './table-columns.ts';
import { attributes, escapeXml, type Relation, relations, startTags } from './xml.ts';

/** The part of a table (ISO/IEC 29500-1 §18.5.1.2) and where it stands. */
export interface TablePart {
  readonly name: string;
  readonly block: Block;
  /** whether its first row names its columns */
  readonly header: boolean;
  readonly totals: boolean;
  readonly columns: readonly string[];
}

export function tablePart(xml: string): TablePart | undefined {
  const given = attributes(startTags(xml, 'table')[0] ?? '');
  const block = parseBlock(given.get('ref') ?? '');
  if (block === undefined) return undefined;
  return {
    name: given.get('displayName') ?? given.get('name') ?? '',
    block,
    header: given.get('headerRowCount') !== '0',
    totals: Number(given.get('totalsRowCount') ?? 0) > 0,
    columns: startTags(xml, 'tableColumn').map((tag) => nameIn(attributes(tag).get('name') ?? '')),
  };
}

/** A name as a cell has it: line ends stand in it as _x000a_. */
function nameIn(text: string): string {
  return text.replace(/_x([0-9a-f]{4})_/gi, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
}

/** The same as the part has it. */
export function nameOut(text: string): string {
  return escapeXml(text).replace(/[\t\n\r]/g, (sign) => `_x${sign.charCodeAt(0).toString(16).padStart(4, '0')}_`);
}

/**
 * A table's part after the edits of its sheet: its columns are those that are left, and new ones. Undefined where none of its
 * rows is left that could hold data, or its header does not come first any more or its totals do not come last.
 *
 * @param firstFormat place of the first format of the file before
 * @param id number of the table in the file made anew
 */
export function movedTable(
  part: string,
  edits: ReturnType<typeof editsOf>,
  firstFormat = 0,
  id?: string,
): string | undefined {
  const xml = plainTable(part);
  const table = tablePart(xml);
  if (table === undefined) return undefined;
  const { block } = table;
  const now = movedBlocks(block, edits);
  if (now === undefined) return undefined;
  const left = (row: number): boolean => movedBlocks({ ...block, startRow: row, endRow: row }, edits) !== undefined;
  if (!keepsFrame(table, edits)) return undefined;
  const header = table.header && left(block.startRow);
  const totals = table.totals && left(block.endRow);
  if (now.endRow - now.startRow + 1 - Number(header) - Number(totals) < 1) return undefined;
  const columns = movedColumns(columnsOf(xml), block, edits);
  const gone = table.columns.filter((_, at) => !columns.includes(columnsOf(xml)[at]));
  const open = startTags(xml, 'table')[0] ?? '';
  const kept = setAttributes(open, {
    ...(id === undefined ? {} : { id }),
    ref: blockName(now),
    headerRowCount: header ? undefined : '0',
    totalsRowCount: totals ? '1' : undefined,
    tableType: undefined,
    ...(totals ? {} : table.totals ? { totalsRowShown: '0' } : {}),
  });
  const filter = header ? movedTableFilter(xml, table, now, totals, edits) : '';
  const inside = `<tableColumns count="${columns.length}">${withNew(columns, table.columns).join('')}</tableColumns>`;
  const rest = sideBySide(xml.slice(xml.indexOf(open) + open.length, xml.lastIndexOf('</')))
    .filter(([name]) => /^(?:tableStyleInfo|extLst)$/.test(name))
    .map(([, text]) => text);
  const whole = `${xml.slice(0, xml.indexOf(open))}${kept}${filter}${withoutGone(inside, table.name, gone)}${rest.join('')}</table>`;
  return withFormats(whole, firstFormat).replace(
    /\s(?:headerRow|data|totalsRow)CellStyle="[^"]*"|\squeryTableFieldId="\d+"/g,
    '',
  );
}

/** Whether the header of a table, where it is left, still comes first, and its totals last. */
export function keepsFrame({ block, header, totals }: TablePart, edits: ReturnType<typeof editsOf>): boolean {
  const now = movedBlocks(block, edits);
  const place = (row: number): number | undefined =>
    movedBlocks({ ...block, startRow: row, endRow: row }, edits)?.startRow;
  const [first, last] = [header ? place(block.startRow) : undefined, totals ? place(block.endRow) : undefined];
  return (first ?? now?.startRow) === now?.startRow && (last ?? now?.endRow) === now?.endRow;
}

/** The part without a prefix before the names of its elements. */
function plainTable(xml: string): string {
  const prefix = /<(\w+:)table(?=[\s>])/.exec(xml)?.[1];
  if (prefix === undefined) return xml;
  const space = new RegExp(`xmlns:${prefix.slice(0, -1)}=`);
  return unprefixed(xml, prefix).replace(space, 'xmlns=');
}

function setAttributes(tag: string, given: Readonly<Record<string, string | undefined>>): string {
  let out = tag;
  for (const [name, value] of Object.entries(given)) {
    out = out.replace(new RegExp(`\\s${name}\\s*=\\s*(?:"[^"]*"|'[^']*')`), '');
    if (value !== undefined) out = out.replace(/\s*>$/, ` ${name}="${value}">`);
  }
  return out;
}

function columnsOf(xml: string): string[] {
  const list = /<tableColumns(?:\s[^>]*)?>([\s\S]*?)<\/tableColumns>/.exec(xml)?.[1] ?? '';
  return sideBySide(list).map(([, text]) => text);
}

/** The columns with numbers and names for those that are new. */
function withNew(columns: readonly (string | undefined)[], names: readonly string[]): string[] {
  const ids = columns.map((text) => Number(attributes(text ?? '').get('id') ?? 0));
  let last = Math.max(0, ...ids);
  const taken = new Set(names.map((name) => name.toUpperCase()));
  return columns.map((text) => text ?? `<tableColumn id="${++last}" name="${freeColumn(taken)}"/>`);
}

/** The first of Column1, Column2 … that is not taken yet. */
export function freeColumn(taken: Set<string>): string {
  let number = 1;
  while (taken.has(`COLUMN${number}`)) number++;
  taken.add(`COLUMN${number}`);
  return `Column${number}`;
}

/** Formulas of columns and of totals lead to nothing where they name a column that is gone: they are taken out. */
function withoutGone(columns: string, table: string, gone: readonly string[]): string {
  return columns.replace(
    /<(calculatedColumnFormula|totalsRowFormula)(?:\s[^>]*)?>([^<]*)<\/\1>/g,
    (whole, _name, formula: string) => (gone.some((column) => formulaNames(formula, table, column)) ? '' : whole),
  );
}

function movedTableFilter(
  xml: string,
  { block }: TablePart,
  now: Block,
  totals: boolean,
  edits: ReturnType<typeof editsOf>,
): string {
  const found = /<autoFilter(?:\s[^>]*?)?(?:\/>|>([\s\S]*?)<\/autoFilter>)/.exec(xml);
  if (found === null) return '';
  const ref = blockName({ ...now, endRow: now.endRow - Number(totals) });
  const width = block.endColumn - block.startColumn + 1;
  const places = movedColumns(
    Array.from({ length: width }, (_, at) => at),
    block,
    edits,
  );
  const conditions = sideBySide(found[1] ?? '').flatMap(([name, text]) => {
    if (name !== 'filterColumn') return [];
    const to = places.indexOf(Number(attributes(text).get('colId')));
    return to < 0 ? [] : [text.replace(/\scolId="\d+"/, ` colId="${to}"`)];
  });
  return `<autoFilter ref="${ref}">${conditions.join('')}</autoFilter>`;
}

interface SheetOfTables {
  readonly name: string;
  readonly part: string | undefined;
}

/** Relations of a sheet to its tables. */
export function tableRelations(parts: Parts, part: string): Relation[] {
  return relations(partText(parts, relationsOf(part)), folderOf(part)).filter(({ type }) => type.endsWith('/table'));
}

/** Tables of a workbook by their names: their parts, and the sheets that they are on. */
export function tablesOf({
  parts,
  sheets,
}: Pick<Book, 'parts'> & { readonly sheets: readonly SheetOfTables[] }): Map<
  string,
  { readonly xml: string; readonly sheet: string }
> {
  return new Map(
    sheets.flatMap(({ part, name: sheet }) =>
      (part === undefined ? [] : tableRelations(parts, part)).map(({ target }) => {
        const xml = partText(parts, target) ?? '';
        return [tablePart(xml)?.name ?? '', { xml, sheet }] as const;
      }),
    ),
  );
}
