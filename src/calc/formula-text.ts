/** A formula with its leading equals sign, whether or not it was typed. */
export function withEquals(formula: string): string {
  const text = formula.trim();
  return text.startsWith('=') ? text : `=${text}`;
}

export interface FormulaShape {
  /** levels of brackets */
  readonly nesting: number;
  /** signs between and before values, array constants left out */
  readonly operators: number;
}

/** How deep and how long a formula is for whoever works it out; text in quotes does not count. */
export function shapeOf(formula: string): FormulaShape {
  let depth = 0;
  let nesting = 0;
  let braces = 0;
  let operators = 0;
  let quote = '';
  for (const char of formula.replace(/^=/, '')) {
    if (quote !== '') {
      if (char === quote) quote = '';
    } else if (char === '"' || char === "'") quote = char;
    else if (char === '(' || char === '{') {
      nesting = Math.max(nesting, ++depth);
      if (char === '{') braces++;
    } else if (char === ')' || char === '}') {
      depth--;
      if (char === '}') braces--;
    } else if (braces <= 0 && operatorSigns.has(char)) operators++;
  }
  return { nesting, operators };
}

/**
 * What of a formula would be read as something else, without a word: a semicolon between arguments, or a text right behind
 * another one. All from the first quote to the last became one text, so that `IF(1>0,"ja";"nein")` gave `ja";"nein`.
 */
export function misread(formula: string): 'semicolon' | 'two texts' | undefined {
  let quote = '';
  let braces = 0;
  let brackets = 0;
  let behindText = false;
  for (let i = 0; i < formula.length; i++) {
    const char = formula[i] ?? '';
    if (quote !== '') {
      if (char !== quote) continue;
      // a doubled quote stands for one
      if (formula[i + 1] === quote) i++;
      else {
        behindText = quote === '"';
        quote = '';
      }
      continue;
    }
    if (/\s/.test(char)) continue;
    if (char === '[') brackets++;
    else if (char === ']') brackets--;
    // names of a table's columns may hold anything
    if (brackets > 0) continue;
    if (char === '"' && behindText) return 'two texts';
    behindText = false;
    if (char === '"' || char === "'") quote = char;
    else if (char === '{') braces++;
    else if (char === '}') braces--;
    else if (char === ';' && braces <= 0) return 'semicolon';
  }
  return undefined;
}

const operatorSigns = new Set('+-*/^&<>=%#@');

/** `B3` for row 2, column 1. */
export function cellName(row: number, column: number): string {
  let letters = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) {
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  }
  return `${letters}${row + 1}`;
}
