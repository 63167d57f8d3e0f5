/**
 * A formula cut into the pieces that matter when it moves between a file and the sheet. Joined again, the pieces give the
 * formula back to the letter.
 */
export type TokenKind =
  /** "text", with doubled quotes inside */
  | 'text'
  /** 'Sheet name', the quotes included */
  | 'sheet'
  /** [Column], [1] or any other bracket, nested ones included */
  | 'bracket'
  /** a name: function, defined name, parameter, cell address with or without $, sheet name before a ! */
  | 'name'
  | 'number'
  /** an error value such as #N/A */
  | 'error'
  | 'space'
  /** any other single character */
  | 'mark';

export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
}

const NAME = /[$\p{L}_\\][$\p{L}\p{N}_.\\?]*/uy;
const NUMBER = /(?:\d+\.?\d*|\.\d+)(?:[Ee][+-]?\d+)?/y;
const SPACE = /\s+/y;
const ERROR =
  /#(?:NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|SPILL!|CALC!|GETTING_DATA|BLOCKED!|FIELD!|CONNECT!|BUSY!|PYTHON!|UNKNOWN!)/iy;

/** Cuts a formula, with or without its leading =, into tokens. Never fails: what is odd becomes single marks. */
export function tokens(formula: string): Token[] {
  const list: Token[] = [];
  let at = 0;
  const take = (kind: TokenKind, end: number): void => {
    list.push({ kind, text: formula.slice(at, end) });
    at = end;
  };
  const match = (pattern: RegExp): number => {
    pattern.lastIndex = at;
    return pattern.test(formula) ? pattern.lastIndex : -1;
  };
  while (at < formula.length) {
    const letter = formula[at] as string;
    if (letter === '"') take('text', quoteEnd(formula, at, '"'));
    else if (letter === "'") take('sheet', quoteEnd(formula, at, "'"));
    else if (letter === '[') take('bracket', bracketEnd(formula, at));
    else {
      const before = list.at(-1);
      const spill = letter === '#' && (before?.kind === 'name' || before?.text === ')');
      const [kind, end] = spill
        ? (['mark', at + 1] as const)
        : letter === '#'
          ? (['error', match(ERROR)] as const)
          : /[\d.]/.test(letter)
            ? (['number', match(NUMBER)] as const)
            : /\s/.test(letter)
              ? (['space', match(SPACE)] as const)
              : (['name', match(NAME)] as const);
      if (end > at) take(kind, end);
      else take('mark', at + ((formula.codePointAt(at) ?? 0) > 0xffff ? 2 : 1));
    }
  }
  return list;
}

export function joined(list: readonly Token[]): string {
  let text = '';
  for (const token of list) text += token.text;
  return text;
}

/** Index of the next token that is not space, from `at` on. */
export function solid(list: readonly Token[], at: number): number {
  let index = at;
  while (list[index]?.kind === 'space') index++;
  return index;
}

/** Index of the bracket that closes the one at `open`; the end of the list when none does. */
export function closing(list: readonly Token[], open: number): number {
  let depth = 0;
  for (let index = open; index < list.length; index++) {
    const { kind, text } = list[index] as Token;
    if (kind !== 'mark') continue;
    if (text === '(' || text === '{') depth++;
    else if ((text === ')' || text === '}') && --depth === 0) return index;
  }
  return list.length;
}

function quoteEnd(formula: string, from: number, quote: string): number {
  let at = from + 1;
  while (at < formula.length) {
    if (formula[at] !== quote) at++;
    else if (formula[at + 1] === quote) at += 2;
    else return at + 1;
  }
  return formula.length;
}

/** In brackets an apostrophe escapes the next character (structured references). */
function bracketEnd(formula: string, from: number): number {
  let depth = 0;
  for (let at = from; at < formula.length; at++) {
    const letter = formula[at];
    if (letter === "'") at++;
    else if (letter === '[') depth++;
    else if (letter === ']' && --depth === 0) return at + 1;
  }
  return formula.length;
}
