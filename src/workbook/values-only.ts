import type { IWorkbookData } from '@univerjs/core';
import { keptNames } from './names.ts';
import { callsOurs } from './prefixes.ts';
import { type Token, tokens } from './tokens.ts';

/** Defined names (upper case) behind which a call of ours stands. */
export function namesOfOurs(snapshot: IWorkbookData): ReadonlySet<string> {
  const names = new Set<string>();
  for (const { name, formulaOrRefString } of keptNames(snapshot))
    if (callsOurs(formulaOrRefString)) names.add(name.toUpperCase());
  return names;
}

/** True for a formula that other programs cannot work out: it calls ours, or takes the range that a formula spills. */
export function needsOurs(formula: string, names: ReadonlySet<string>): boolean {
  if (callsOurs(formula)) return true;
  if (names.size === 0 && !formula.includes('#')) return false;
  const list = tokens(formula);
  return list.some((token, index) => isSpillMark(list, token, index) || isName(list, token, index, names));
}

function isSpillMark(list: readonly Token[], token: Token, index: number): boolean {
  return token.kind === 'mark' && token.text === '#' && list[index - 1]?.kind === 'name';
}

function isName(list: readonly Token[], token: Token, index: number, names: ReadonlySet<string>): boolean {
  return token.kind === 'name' && list[index + 1]?.text !== '!' && names.has(token.text.toUpperCase());
}
