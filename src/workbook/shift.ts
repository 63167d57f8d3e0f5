import { columnLetters, columnNumber, MOST_COLUMNS, MOST_ROWS } from './address.ts';
import { joined, type Token, tokens } from './tokens.ts';

const ADDRESS = /^(\$?)([A-Za-z]{1,3})(\$?)([1-9]\d{0,6})$/;
const COLUMN = /^(\$?)([A-Za-z]{1,3})$/;
const ROW = /^(\$?)(\d{1,7})$/;

/**
 * The formula that a cell `rows` down and `columns` to the right has when it shares this one: relative addresses move,
 * those with $ stay (ISO/IEC 29500-1 §18.3.1.40, shared formulas).
 * @param formula the first cell's formula
 * @returns the moved formula; an address that leaves the sheet becomes #REF!
 */
export function shifted(formula: string, rows: number, columns: number): string {
  if (rows === 0 && columns === 0) return formula;
  const list = tokens(formula);
  return joined(list.map((token, index) => moved(list, token, index, rows, columns)));
}

function moved(list: readonly Token[], token: Token, index: number, rows: number, columns: number): Token {
  if (token.kind !== 'name' && token.kind !== 'number') return token;
  const next = list[index + 1]?.text;
  if (next === '!' || next === '(') return token;
  const address = ADDRESS.exec(token.text);
  if (address !== null) {
    const [, fixedColumn = '', letters = '', fixedRow = '', digits = ''] = address;
    return piece(movedColumn(fixedColumn, letters, columns), movedRow(fixedRow, digits, rows));
  }
  if (next !== ':' && list[index - 1]?.text !== ':') return token;
  const column = COLUMN.exec(token.text);
  if (column !== null) return piece(movedColumn(column[1] as string, column[2] as string, columns));
  const row = ROW.exec(token.text);
  if (row !== null) return piece(movedRow(row[1] as string, row[2] as string, rows));
  return token;
}

function piece(...parts: (string | undefined)[]): Token {
  return parts.includes(undefined) ? { kind: 'error', text: '#REF!' } : { kind: 'name', text: parts.join('') };
}

function movedColumn(fixed: string, letters: string, columns: number): string | undefined {
  if (fixed === '$') return fixed + letters;
  const column = columnNumber(letters) + columns;
  return column >= 0 && column < MOST_COLUMNS ? columnLetters(column) : undefined;
}

function movedRow(fixed: string, digits: string, rows: number): string | undefined {
  if (fixed === '$') return fixed + digits;
  const row = Number(digits) + rows;
  return row >= 1 && row <= MOST_ROWS ? String(row) : undefined;
}
