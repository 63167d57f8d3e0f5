import type { RawArgument } from '../../src/functions/define.ts';
import type { Outcome } from '../../src/functions/outcome.ts';
import type { Cell } from '../../src/tables/cells.ts';

type Call = (id: string, rawArguments: readonly RawArgument[]) => Outcome;

/**
 * Works out `=NARROWS.GAS("air","viscosity")`, such as the examples of the functions are: calls of ours with literals,
 * array constants and further calls. Throws where it is anything else; a spreadsheet's own functions need a spreadsheet.
 */
export function evaluateLiterals(formula: string, call: Call): Outcome {
  let at = 1;
  const stop = (): never => {
    throw new Error(`cannot read ${formula} at ${at}: ${formula.slice(at, at + 20)}`);
  };
  const take = (pattern: RegExp): string | undefined => {
    const found = pattern.exec(formula.slice(at))?.[0];
    if (found !== undefined) at += found.length;
    return found;
  };
  const literal = (): Cell => {
    const quoted = take(/^"(?:[^"]|"")*"/u);
    if (quoted !== undefined) return quoted.slice(1, -1).replaceAll('""', '"');
    const word = take(/^[^,;{}()"]*/u)?.trim() ?? '';
    if (word === '') return null;
    if (word === 'TRUE' || word === 'FALSE') return word === 'TRUE';
    const value = Number(word);
    return Number.isNaN(value) ? stop() : value;
  };
  const array = (): Cell[][] => {
    const rows: Cell[][] = [[]];
    take(/^\{/u);
    for (;;) {
      rows.at(-1)?.push(literal());
      const sign = take(/^[,;}]/u) ?? stop();
      if (sign === '}') return rows;
      if (sign === ';') rows.push([]);
    }
  };
  const argument = (): RawArgument => {
    if (formula.startsWith('NARROWS.', at)) {
      const outcome = calling();
      return outcome.ok ? outcome.value : { error: outcome.code };
    }
    return formula[at] === '{' ? array() : literal();
  };
  const calling = (): Outcome => {
    const id = take(/^NARROWS\.[A-Z.]+(?=\()/u) ?? stop();
    take(/^\(/u);
    const given: RawArgument[] = [];
    if (take(/^\s*\)/u) !== undefined) return call(id, given);
    for (;;) {
      given.push(argument());
      const sign = take(/^[,)]/u) ?? stop();
      if (sign === ')') return call(id, given);
    }
  };
  const outcome = calling();
  return at === formula.length ? outcome : stop();
}
