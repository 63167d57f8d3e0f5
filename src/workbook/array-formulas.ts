import { closing, type Token, tokens } from './tokens.ts';

/**
 * Which formulas a file has to mark as array formulas though their result is one cell. Programs work a formula without the
 * mark out as spreadsheets always did: where one value is wanted, they take of a range the one cell in the formula's own row or
 * column. `SUM(A1:A8*B1:B8)` is then another number.
 */

/** Functions that take a range as a whole wherever they are given one. Ours do too. */
const TAKERS = new Set(
  `AGGREGATE AND AREAS AVEDEV AVERAGE AVERAGEA AVERAGEIF AVERAGEIFS BYCOL BYROW CHOOSECOLS CHOOSEROWS COLUMN COLUMNS CONCAT CORREL COUNT
  COUNTA COUNTBLANK COUNTIF COUNTIFS COVARIANCE.P COVARIANCE.S DEVSQ DROP EXPAND FILTER FORECAST FORECAST.LINEAR FREQUENCY GEOMEAN GROWTH
  HARMEAN HLOOKUP HSTACK INDEX INTERCEPT IRR KURT LARGE LINEST LOGEST LOOKUP MAP MATCH MAX MAXA MAXIFS MEDIAN MIN MINA MINIFS
  MIRR MMULT MODE MODE.MULT MODE.SNGL NPV OFFSET OR PEARSON PERCENTILE PERCENTILE.EXC PERCENTILE.INC PERCENTRANK PRODUCT QUARTILE
  QUARTILE.EXC QUARTILE.INC RANK RANK.AVG RANK.EQ REDUCE ROW ROWS RSQ SCAN SKEW SLOPE SMALL SORT SORTBY STDEV STDEV.P STDEV.S
  STDEVA STDEVP STDEVPA SUBTOTAL SUM SUMIF SUMIFS SUMPRODUCT SUMSQ SUMX2MY2 SUMX2PY2 SUMXMY2 TAKE TEXTJOIN TOCOL TOROW TRANSPOSE
  TREND TRIMMEAN UNIQUE VAR VAR.P VAR.S VARA VARP VARPA VLOOKUP VSTACK WRAPCOLS WRAPROWS XIRR XLOOKUP XMATCH XNPV XOR`.split(
    /\s+/,
  ),
);
const OURS = /^NARROWS\./i;
/** Functions that give several cells whatever they are given. */
const GIVERS = new Set(
  `BYCOL BYROW CHOOSECOLS CHOOSEROWS DROP EXPAND FILTER FREQUENCY GROWTH HSTACK LINEST LOGEST MAKEARRAY MAP MMULT MODE.MULT MUNIT RANDARRAY
  SCAN SEQUENCE SORT SORTBY TAKE TEXTSPLIT TOCOL TOROW TRANSPOSE TREND UNIQUE VSTACK WRAPCOLS WRAPROWS`.split(/\s+/),
);
/** Functions that bring names of their own. */
const BINDERS = new Set(['LET', 'LAMBDA']);

/**
 * Whether a formula, as typed, works on several cells where one value is wanted. Marks a formula too many rather than one too
 * few: a marked formula gives the same everywhere.
 * @param isRange whether a defined name (upper case) may stand for more than a cell
 */
export function worksOnArrays(typed: string, isRange: (name: string) => boolean): boolean {
  const list = tokens(typed.replace(/^=/, '')).filter(({ kind }) => kind !== 'space');
  /** names of the functions whose arguments are being read; '' for plain brackets */
  const calls: string[] = [];
  // what a name of the formula's own stands for is not followed: with one, any range counts
  const binds = list.some(({ text }, at) => BINDERS.has(text.toUpperCase()) && list[at + 1]?.text === '(');
  const whole = (from: number, to: number): boolean => !binds && isWhole(list, from, to, calls.at(-1));
  for (let at = 0; at < list.length; at++) {
    const { kind, text } = list[at] as Token;
    const called = kind === 'name' && list[at + 1]?.text === '(';
    if (called) {
      const name = text.toUpperCase();
      if (GIVERS.has(name) && !whole(at, closing(list, at + 1))) return true;
      calls.push(name);
      at++;
    } else if (text === '(' && kind === 'mark') calls.push('');
    else if (text === ')' && kind === 'mark') calls.pop();
    else {
      const end = endOfCells(list, at, isRange);
      if (end === undefined) continue;
      if (list[at - 1]?.text !== '@' && !whole(at, end)) return true;
      at = end;
    }
  }
  return false;
}

/** Whether the cells from one token to another are all of an argument that is taken as a whole. */
function isWhole(list: readonly Token[], from: number, to: number, call: string | undefined): boolean {
  if (call === undefined || !(TAKERS.has(call) || OURS.test(call))) return false;
  const [before, after] = [list[from - 1]?.text, list[to + 1]?.text];
  return (before === '(' || before === ',') && (after === ')' || after === ',');
}

const CELL = /^\$?[A-Z]{1,3}\$?\d+$/i;
const EDGE = /^\$?(?:[A-Z]{1,3}(?:\$?\d+)?|\d+)$/i;

/** The last token of several cells that begin at a token; undefined where none do, or only one cell does. */
function endOfCells(list: readonly Token[], from: number, isRange: (name: string) => boolean): number | undefined {
  let at = from;
  const first = list[at];
  if (first?.kind === 'mark') return first.text === '{' ? closing(list, at) : undefined;
  if ((first?.kind === 'sheet' || first?.kind === 'name') && list[at + 1]?.text === '!') at += 2;
  const name = list[at];
  if (name === undefined || (name.kind !== 'name' && name.kind !== 'number')) return undefined;
  const next = list[at + 1];
  if (next?.text === ':' && EDGE.test(name.text)) return at + 2;
  if (name.kind !== 'name') return undefined;
  if (next?.kind === 'bracket' || next?.text === '#') return at + 1;
  if (CELL.test(name.text) || /^(?:TRUE|FALSE)$/i.test(name.text)) return undefined;
  return isRange(name.text.toUpperCase()) ? at : undefined;
}
