/** A formula with its leading equals sign, whether or not it was typed. */
export function withEquals(formula: string): string {
  const text = formula.trim();
  return text.startsWith('=') ? text : `=${text}`;
}

/** Levels of brackets, outside text in quotes. */
export function nesting(formula: string): number {
  let depth = 0;
  let deepest = 0;
  let quote = '';
  for (const char of formula) {
    if (quote !== '') {
      if (char === quote) quote = '';
    } else if (char === '"' || char === "'") quote = char;
    else if (char === '(' || char === '{') deepest = Math.max(deepest, ++depth);
    else if (char === ')' || char === '}') depth--;
  }
  return deepest;
}

/** `B3` for row 2, column 1. */
export function cellName(row: number, column: number): string {
  let letters = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return `${letters}${row + 1}`;
}
