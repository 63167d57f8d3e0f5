import { closing, joined, solid, type Token, tokens } from './tokens.ts';

/**
 * Formulas as files store them and as people type them. Files mark functions newer than the format with `_xlfn.` (some
 * with `_xlws.` behind it), the names that LET and LAMBDA bring with `_xlpm.`, and functions of an add-in with
 * `_xldudf_` and its namespace ([MS-XLSX] §2.2.2, and what spreadsheet programs are seen to write for add-ins). Text in
 * quotes, sheet names and brackets are never touched.
 */

export const NAMESPACE = 'NARROWS';
const ADD_IN = `_xldudf_${NAMESPACE}_`;
const TYPED = `${NAMESPACE}.`;
const FUTURE = '_xlfn.';
const SHEET_FUTURE = '_xlws.';
const PARAMETER = '_xlpm.';
const OPTIONAL_PARAMETER = '_xlop.';
const ANCHOR = 'ANCHORARRAY';
const SINGLE = 'SINGLE';

/** Functions that carry `_xlws.` as well. */
const SHEET_FUNCTIONS = new Set(['FILTER', 'SORT']);

/** Functions that the format counts as future ones ([MS-XLSX] §2.2.2, list from memory). */
const FUTURE_FUNCTIONS = new Set(
  `ACOT ACOTH AGGREGATE ARABIC ARRAYTOTEXT BASE BETA.DIST BETA.INV BINOM.DIST BINOM.DIST.RANGE BINOM.INV BITAND BITLSHIFT
  BITOR BITRSHIFT BITXOR BYCOL BYROW CEILING.MATH CEILING.PRECISE CHISQ.DIST CHISQ.DIST.RT CHISQ.INV CHISQ.INV.RT CHISQ.TEST
  CHOOSECOLS CHOOSEROWS COMBINA CONCAT CONFIDENCE.NORM CONFIDENCE.T COT COTH COVARIANCE.P COVARIANCE.S CSC CSCH DAYS DECIMAL
  DROP ERF.PRECISE ERFC.PRECISE EXPAND EXPON.DIST F.DIST F.DIST.RT F.INV F.INV.RT F.TEST FILTERXML FLOOR.MATH FLOOR.PRECISE
  FORECAST.ETS FORECAST.ETS.CONFINT FORECAST.ETS.SEASONALITY FORECAST.ETS.STAT FORECAST.LINEAR FORMULATEXT GAMMA GAMMA.DIST
  GAMMA.INV GAMMALN.PRECISE GAUSS GROUPBY HSTACK HYPGEOM.DIST IFNA IFS IMAGE IMCOSH IMCOT IMCSC IMCSCH IMSEC IMSECH IMSINH
  IMTAN ISFORMULA ISOMITTED ISOWEEKNUM LAMBDA LET LOGNORM.DIST LOGNORM.INV MAKEARRAY MAP MAXIFS MINIFS MODE.MULT MODE.SNGL
  MUNIT NEGBINOM.DIST NORM.DIST NORM.INV NORM.S.DIST NORM.S.INV NUMBERVALUE PDURATION PERCENTILE.EXC PERCENTILE.INC PERCENTOF
  PERCENTRANK.EXC PERCENTRANK.INC PERMUTATIONA PHI PIVOTBY POISSON.DIST QUARTILE.EXC QUARTILE.INC QUERYSTRING RANDARRAY
  RANK.AVG RANK.EQ REDUCE REGEXEXTRACT REGEXREPLACE REGEXTEST RRI SCAN SEC SECH SEQUENCE SHEET SHEETS SKEW.P SORTBY STDEV.P
  STDEV.S SWITCH T.DIST T.DIST.2T T.DIST.RT T.INV T.INV.2T T.TEST TAKE TEXTAFTER TEXTBEFORE TEXTJOIN TEXTSPLIT TOCOL TOROW
  TRIMRANGE UNICHAR UNICODE UNIQUE VALUETOTEXT VAR.P VAR.S VSTACK WEBSERVICE WEIBULL.DIST WRAPCOLS WRAPROWS XLOOKUP XMATCH XOR
  Z.TEST`.split(/\s+/),
);

/** Functions whose arguments bring names: LET in pairs, LAMBDA all but the last. */
const BINDERS = new Set(['LET', 'LAMBDA']);

/**
 * A formula as typed, from a file.
 * @param stored the text of a file's formula, with or without a leading =; a formula already as typed stays as it is
 * @returns the formula with its leading =
 */
export function asTyped(stored: string): string {
  const text = stored.startsWith('=') ? stored.slice(1) : stored;
  if (!/_xl/i.test(text)) return `=${text}`;
  return `=${joined(untied(tokens(text)))}`;
}

/**
 * A formula as files store it.
 * @param typed the formula as people type it, with or without its leading =
 * @returns the text for the file, without the =
 */
export function asStored(typed: string): string {
  return joined(tied(tokens(typed.startsWith('=') ? typed.slice(1) : typed), new Set()));
}

/** True when a formula, in either form, calls one of our functions. */
export function callsOurs(formula: string): boolean {
  if (!/narrows/i.test(formula)) return false;
  const list = tokens(formula);
  return list.some(
    (token, index) =>
      token.kind === 'name' &&
      list[solid(list, index + 1)]?.text === '(' &&
      (starts(token.text, TYPED) || starts(token.text, ADD_IN)),
  );
}

/** True when a formula as typed uses functions newer than the format. */
export function isNewer(typed: string): boolean {
  return asStored(typed).includes(FUTURE);
}

function starts(text: string, prefix: string): boolean {
  return text.slice(0, prefix.length).toLowerCase() === prefix.toLowerCase();
}

function untied(list: readonly Token[]): Token[] {
  const out: Token[] = [];
  for (let index = 0; index < list.length; index++) {
    const token = list[index] as Token;
    if (token.kind !== 'name' || list[index + 1]?.text === '!') {
      out.push(token);
      continue;
    }
    const bare = bareName(token.text);
    const open = solid(list, index + 1);
    const called = list[open]?.text === '(';
    if (called && bare !== token.text && (bare === ANCHOR || bare === SINGLE)) {
      const end = closing(list, open);
      const inner = untied(list.slice(open + 1, end));
      if (bare === ANCHOR) out.push(...inner, mark('#'));
      else if (isOperand(inner)) out.push(mark('@'), ...inner);
      else out.push(mark('@'), mark('('), ...inner, mark(')'));
      index = end;
    } else out.push({ kind: 'name', text: bare });
  }
  return out;
}

function bareName(text: string): string {
  // Names of ours hold no underscore: one that stands in for a dot is read as the dot.
  if (starts(text, ADD_IN)) return TYPED + text.slice(ADD_IN.length).replaceAll('_', '.');
  let bare = text;
  for (const prefix of [FUTURE, SHEET_FUTURE, PARAMETER, OPTIONAL_PARAMETER]) {
    if (starts(bare, prefix)) bare = bare.slice(prefix.length);
  }
  return bare;
}

function mark(text: string): Token {
  return { kind: 'mark', text };
}

/** One reference, name or call: what @ can stand before without brackets. */
function isOperand(list: readonly Token[]): boolean {
  return list.length > 0 && operandEnd(list, 0) === list.length;
}

/** End of the operand that starts at `at`: an address, a range, a name, a call or a bracketed expression. */
function operandEnd(list: readonly Token[], at: number): number {
  let index = at;
  const { kind, text } = list[index] ?? mark('');
  if (kind === 'sheet' || kind === 'bracket' || kind === 'name' || kind === 'number') index++;
  else if (text === '(') return closing(list, index) + 1;
  else return at;
  if (list[index]?.kind === 'bracket' || (kind === 'bracket' && list[index]?.kind === 'name')) index++;
  if (list[index]?.text === '!') return operandEnd(list, index + 1);
  if (kind === 'name' && list[index]?.text === '(') index = Math.min(closing(list, index) + 1, list.length);
  if (list[index]?.text === '#') index++;
  if (list[index]?.text === ':') return operandEnd(list, index + 1);
  return index;
}

function tied(list: readonly Token[], bound: ReadonlySet<string>): Token[] {
  const out: Token[] = [];
  for (let index = 0; index < list.length; index++) {
    const token = list[index] as Token;
    const spilled = spillEnd(list, index);
    if (spilled !== undefined) {
      out.push({ kind: 'name', text: FUTURE + ANCHOR }, mark('('), ...list.slice(index, spilled), mark(')'));
      index = spilled;
    } else if (token.kind === 'mark' && token.text === '@') {
      const end = operandEnd(list, index + 1);
      if (end === index + 1) out.push(token);
      else {
        let inner = list.slice(index + 1, end);
        if (inner[0]?.text === '(' && closing(inner, 0) === inner.length - 1) inner = inner.slice(1, -1);
        out.push({ kind: 'name', text: FUTURE + SINGLE }, mark('('), ...tied(inner, bound), mark(')'));
        index = end - 1;
      }
    } else if (token.kind !== 'name' || list[index + 1]?.text === '!') out.push(token);
    else {
      const open = solid(list, index + 1);
      const called = list[open]?.text === '(';
      const upper = token.text.toUpperCase();
      if (bound.has(upper)) out.push({ kind: 'name', text: PARAMETER + token.text });
      else if (!called) out.push(token);
      else {
        out.push({ kind: 'name', text: storedName(token.text) });
        if (BINDERS.has(upper)) {
          const end = closing(list, open);
          const inner = list.slice(open + 1, end);
          out.push(...list.slice(index + 1, open + 1), ...tied(inner, new Set([...bound, ...namesIn(upper, inner)])));
          index = end - 1;
        }
      }
    }
  }
  return out;
}

function storedName(name: string): string {
  const upper = name.toUpperCase();
  if (upper.startsWith(TYPED)) return ADD_IN + upper.slice(TYPED.length);
  if (SHEET_FUNCTIONS.has(upper)) return FUTURE + SHEET_FUTURE + name;
  return FUTURE_FUNCTIONS.has(upper) ? FUTURE + name : name;
}

/** When an address with a # behind it starts at `at`: the index of the #. */
function spillEnd(list: readonly Token[], at: number): number | undefined {
  const { kind } = list[at] as Token;
  const before = list[at - 1];
  if ((kind !== 'name' && kind !== 'sheet') || before?.text === '!') return undefined;
  const name = list[at + 1]?.text === '!' ? at + 2 : at;
  return list[name]?.kind === 'name' && list[name + 1]?.kind === 'mark' && list[name + 1]?.text === '#'
    ? name + 1
    : undefined;
}

function namesIn(binder: string, inner: readonly Token[]): string[] {
  const starts = [0];
  let depth = 0;
  inner.forEach(({ kind, text }, index) => {
    if (kind !== 'mark') return;
    if (text === '(' || text === '{') depth++;
    else if (text === ')' || text === '}') depth--;
    else if (text === ',' && depth === 0) starts.push(index + 1);
  });
  const names: string[] = [];
  starts.slice(0, -1).forEach((start, position) => {
    if (binder === 'LET' && position % 2 === 1) return;
    const token = inner[solid(inner, start)];
    // An optional parameter of LAMBDA stands in brackets, which files write without them.
    if (token?.kind === 'name') names.push(token.text.toUpperCase());
  });
  return names;
}
