import { type Parts, partText, textPart } from './package.ts';
import { folderOf, relationsOf } from './parts.ts';
import type { CellPatch } from './patch.ts';
import { withColumnIn } from './table-columns.ts';
import { freeColumn, nameOut, tablePart } from './table-part.ts';
import { attributes, relations } from './xml.ts';

/** What a cell shows as text; '' for a blank one. */
export type TextAt = (row: number, column: number) => string;

/**
 * Gives the columns of a sheet's tables the names that their header cells have: programs take a file for damaged where the two
 * differ. A header cell that is blank, or that says what another one does, gets the name that its column has then.
 *
 * @param parts changed in place
 * @param part the sheet's
 * @param now the cells as they are
 * @param before the cells as the file has them; columns whose cell is the same keep their name
 * @param put changes a cell
 */
export function nameColumns(
  parts: Parts,
  part: string,
  now: TextAt,
  before: TextAt | undefined,
  put: (row: number, column: number, change: CellPatch) => void,
): void {
  const tables = relations(partText(parts, relationsOf(part)), folderOf(part)).filter(({ type }) =>
    type.endsWith('/table'),
  );
  for (const { target } of tables) {
    const xml = partText(parts, target) ?? '';
    const table = tablePart(xml);
    if (table === undefined || !table.header) continue;
    const { startRow: row, startColumn } = table.block;
    const texts = table.columns.map((_, at) => now(row, startColumn + at).replace(/\r\n?/g, '\n'));
    const stays = table.columns.map((name, at) => {
      const text = texts[at] ?? '';
      return before === undefined ? text === name : text === before(row, startColumn + at).replace(/\r\n?/g, '\n');
    });
    if (!stays.includes(false)) continue;
    const taken = new Set(table.columns.filter((_, at) => stays[at]).map((name) => name.toUpperCase()));
    const names = table.columns.map((name, at) => (stays[at] ? name : freeName(texts[at] ?? '', taken)));
    names.forEach((name, at) => {
      if (!stays[at]) put(row, startColumn + at, { value: name, formula: 'none' });
    });
    rename(parts, target, table.name, table.columns, names);
  }
}

/** Longest name of a column (MS-XLSX): as much as a cell may hold is cut at that. */
const LONGEST = 255;

function freeName(text: string, taken: Set<string>): string {
  if (text === '') return freeColumn(taken);
  let name = text.slice(0, LONGEST);
  for (let number = 2; taken.has(name.toUpperCase()); number++) name = `${text.slice(0, LONGEST - 5)}${number}`;
  taken.add(name.toUpperCase());
  return name;
}

/** The names in the table's own part, and in every formula of the workbook. */
function rename(parts: Parts, part: string, table: string, from: readonly string[], to: readonly string[]): void {
  let at = 0;
  const xml = (partText(parts, part) ?? '').replace(/<(?:\w+:)?tableColumn(?=[\s/>])[^>]*>/g, (tag) => {
    const name = to[at];
    const same = name === from[at];
    at++;
    if (name === undefined || same || !attributes(tag).has('name')) return tag;
    return tag.replace(/(\sname\s*=\s*)(?:"[^"]*"|'[^']*')/, (_, key: string) => `${key}"${nameOut(name)}"`);
  });
  parts.set(part, textPart(xml));
  const changes = from.flatMap((name, index) => (to[index] === name ? [] : [[name, to[index] ?? name] as const]));
  for (const [name, bytes] of [...parts]) {
    if (!/\.xml$/i.test(name) || !OF_FORMULAS.test(name) || !bytes.includes(BRACKET)) continue;
    const before = partText(parts, name) ?? '';
    // by way of names that nobody can type, since two columns may have changed names with each other
    const aside = changes.reduce((text, [old], index) => withColumnIn(text, table, old, `${ASIDE}${index}`), before);
    const after = changes.reduce((text, [, now], index) => withColumnIn(text, table, `${ASIDE}${index}`, now), aside);
    if (after !== before) parts.set(name, textPart(after));
  }
}

const OF_FORMULAS = /(^|\/)(?:worksheets|tables)\/[^/]+\.xml$|(^|\/)workbook\.xml$/i;
const BRACKET = '['.charCodeAt(0);
const ASIDE = '\uE000';
