import { joined, tokens } from './tokens.ts';
import { escapeXml, unescapeXml } from './xml.ts';

/** Names of columns in formulas that refer to tables: `Units[Speed]`, `Units[[#This Row],[Speed]]`. */

/** A name inside brackets, where an apostrophe stands before each sign that means something there. */
const NAMED = /\[((?:'.|[^[\]'])*)\]/g;

const bare = (text: string): string => text.replace(/'(.)/g, '$1');
const marked = (name: string): string => name.replace(/[[\]#'@]/g, "'$&");
const same = (a: string, b: string): boolean => a.toUpperCase() === b.toUpperCase();

/** A reference's bracket with each name of a column changed. */
function changed(bracket: string, change: (name: string) => string | undefined): string {
  const inside = bracket.slice(1, -1);
  const one = (text: string): string => {
    const to = text.startsWith('#') ? undefined : change(bare(text));
    return to === undefined ? text : marked(to);
  };
  if (inside.replace(/'./g, '').includes('[')) return `[${inside.replace(NAMED, (_, text) => `[${one(text)}]`)}]`;
  return inside.startsWith('@') ? `[@${one(inside.slice(1))}]` : `[${one(inside)}]`;
}

/** The formula with a column of a table under its new name. */
export function withColumn(formula: string, table: string, from: string, to: string): string {
  if (!formula.includes('[')) return formula;
  const list = tokens(formula);
  return joined(
    list.map((token, at) => {
      const before = list[at - 1];
      if (token.kind !== 'bracket' || before?.kind !== 'name' || !same(before.text, table)) return token;
      return { ...token, text: changed(token.text, (name) => (same(name, from) ? to : undefined)) };
    }),
  );
}

/** Whether a formula, as it stands in XML, names that column of the table. */
export function formulaNames(xml: string, table: string, column: string): boolean {
  const formula = unescapeXml(xml);
  return withColumn(formula, table, column, `${column}\u0000`) !== formula;
}

const FORMULA = /(<((?:\w+:)?)(?:f|definedName|calculatedColumnFormula|totalsRowFormula)(?=[\s>])[^>]*>)([^<]*)(?=<)/g;

/** Every formula of a part with a column of a table under its new name. */
export function withColumnIn(xml: string, table: string, from: string, to: string): string {
  return xml.replace(FORMULA, (whole, open: string, _prefix, text: string) => {
    if (!text.includes('[')) return whole;
    const before = unescapeXml(text);
    const now = withColumn(before, table, from, to);
    return now === before ? whole : open + escapeXml(now);
  });
}
