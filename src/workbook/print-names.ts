import type { SheetEdit } from './edits.ts';
import { movedFormula } from './moved-formula.ts';
import { type Parts, partText, textPart } from './package.ts';
import { layoutOf } from './parts.ts';
import { joined, type Token, tokens } from './tokens.ts';
import { attributes, escapeXml, unescapeXml } from './xml.ts';

/** A defined name of one sheet that holds its print area, or the rows and columns that are repeated on each page. */
const NAME = /(<(?:\w+:)?definedName\b[^>]*>)([^<]*)(<\/(?:\w+:)?definedName>)/g;
const PRINT = /^_xlnm\.Print_(?:Area|Titles)$/;
const GONE = '#REF!';

/** Which name of which sheet a start tag is of; undefined for all others. */
function keyOf(tag: string, sheets: readonly { readonly name: string }[]): string | undefined {
  const given = attributes(tag);
  const name = given.get('name') ?? '';
  const sheet = sheets[Number(given.get('localSheetId'))]?.name;
  return PRINT.test(name) && sheet !== undefined ? `${name} ${sheet}` : undefined;
}

/** The ranges that are left, with the commas between them. */
function rangesLeft(formula: string): string {
  const ranges: Token[][] = [[]];
  for (const token of tokens(formula)) {
    if (token.text === ',') ranges.push([]);
    else ranges.at(-1)?.push(token);
  }
  return ranges
    .map((range) => joined(range).trim())
    .filter((range) => range !== '' && !range.includes(GONE))
    .join(',');
}

/**
 * Print areas and repeated rows and columns as the file before has them, brought along with its rows, columns and sheet names:
 * the writer of workbooks puts no quotes around sheet names and knows one range alone. Those that are gone are taken out.
 *
 * @param parts of the file made anew, its sheets in the order in which they were written; changed in place
 * @param before parts of the file that it is made from
 */
export function keepPrintNames(parts: Parts, before: Parts, edits: readonly SheetEdit[]): void {
  const old = layoutOf(before);
  const now = layoutOf(parts);
  const newName = (name: string): string =>
    edits.reduce((known, edit) => (edit.kind === 'rename' && edit.sheet === known ? edit.to : known), name);
  const renamed = old.sheets.map(({ name }) => ({ name: newName(name) }));
  const kept = new Map<string, string>();
  for (const [, tag = '', formula = ''] of (partText(before, old.workbook) ?? '').matchAll(NAME)) {
    const key = keyOf(tag, renamed);
    const own = old.sheets[Number(attributes(tag).get('localSheetId'))]?.name ?? '';
    if (key !== undefined) kept.set(key, rangesLeft(movedFormula(unescapeXml(formula), own, edits)));
  }
  const xml = partText(parts, now.workbook) ?? '';
  const mended = xml.replace(NAME, (whole, tag: string, _, end: string) => {
    const key = keyOf(tag, now.sheets);
    const formula = key === undefined ? undefined : kept.get(key);
    if (formula === undefined) return whole;
    return formula === '' ? '' : `${tag}${escapeXml(formula)}${end}`;
  });
  parts.set(now.workbook, textPart(mended));
}
