import { asTyped } from './prefixes.ts';
import { joined, type Token, tokens } from './tokens.ts';

/** A defined name as the file has it; without a scope it holds for all sheets. */
interface GivenName {
  readonly name: string;
  readonly range: string;
  readonly scope?: string;
}

/** What names that are defined more than once stand for, by the name (upper case) and the sheet ('' for all others). */
export type ScopedNames = ReadonlyMap<string, ReadonlyMap<string, string>>;

/** The names that stand for one thing on one sheet and for another elsewhere: the calculation knows one meaning of each. */
export function scopedNames(given: readonly GivenName[]): ScopedNames {
  const all = new Map<string, Map<string, string>>();
  for (const { name, range, scope = '' } of given) {
    const key = name.toUpperCase();
    const meanings = all.get(key) ?? new Map<string, string>();
    all.set(key, meanings.set(scope.toUpperCase(), asTyped(range).slice(1)));
  }
  return new Map([...all].filter(([, meanings]) => meanings.size > 1));
}

const REFERENCE = /^(?:(?:'(?:[^']|'')*'|[^'!():,\s]+)!)?\$?[A-Z]+\$?\d+(?::\$?[A-Z]+\$?\d+)?$/i;

/**
 * The formula with what such names stand for on its sheet in their place. Formulas that bring names of their own stay as they
 * are.
 * @param sheet name of the formula's sheet
 */
export function withMeanings(formula: string, names: ScopedNames, sheet: string): string {
  if (names.size === 0) return formula;
  const list = tokens(formula);
  if (list.some(({ kind, text }) => kind === 'name' && /^(?:LET|LAMBDA)$/i.test(text))) return formula;
  const out: Token[] = [];
  list.forEach((token, at) => {
    const next = list[at + 1]?.text;
    const meanings =
      token.kind === 'name' && next !== '(' && next !== '!' ? names.get(token.text.toUpperCase()) : undefined;
    const qualified = list[at - 1]?.text === '!';
    const from = qualified ? sheetOf(list[at - 2]) : sheet;
    const meaning = meanings?.get(from.toUpperCase()) ?? (qualified ? undefined : meanings?.get(''));
    if (meaning === undefined) out.push(token);
    else {
      if (qualified) out.splice(-2);
      out.push({ kind: 'name', text: REFERENCE.test(meaning) ? meaning : `(${meaning})` });
    }
  });
  return joined(out);
}

function sheetOf(token: Token | undefined): string {
  const text = token?.text ?? '';
  return token?.kind === 'sheet' ? text.slice(1, -1).replaceAll("''", "'") : text;
}
