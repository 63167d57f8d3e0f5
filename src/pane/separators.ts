/** Marks between the arguments of a formula, and inside its numbers and array constants, where a person types them. */
export interface Separators {
  readonly argument: string;
  readonly decimal: string;
  /** between the columns of an array constant; its rows are apart by ; everywhere */
  readonly column: string;
}

export const PLAIN_SEPARATORS: Separators = { argument: ',', decimal: '.', column: ',' };

/** Languages whose Excel parts the columns of an array constant by a point; others with a decimal comma use \ (from memory). */
const POINT_COLUMNS: ReadonlySet<string> = new Set(['de', 'fr']);

/**
 * Separators by the language of the spreadsheet: where 1.5 is written 1,5 the arguments are parted by a semicolon.
 * @param locale such as de-DE; one that is not known gives the plain separators
 */
export function separatorsOf(locale: string | undefined): Separators {
  try {
    const parts = new Intl.NumberFormat(locale).formatToParts(1.5);
    return separatorsFor(parts.find(({ type }) => type === 'decimal')?.value, locale);
  } catch {
    return PLAIN_SEPARATORS;
  }
}

/**
 * Separators by the mark that stands for the decimal point: a comma there cannot part arguments as well.
 * @param locale tells how the columns of an array constant are parted
 */
export function separatorsFor(decimal: string | undefined, locale: string | undefined): Separators {
  if (decimal !== ',') return PLAIN_SEPARATORS;
  const language = (locale ?? '').slice(0, 2).toLowerCase();
  return { argument: ';', decimal: ',', column: POINT_COLUMNS.has(language) ? '.' : '\\' };
}

/** A formula as a person with these separators types it. Quoted text and names of sheets stay as they are. */
export function localFormula(formula: string, separators: Separators = PLAIN_SEPARATORS): string {
  if (separators === PLAIN_SEPARATORS) return formula;
  let depth = 0;
  return formula.replace(/"(?:[^"]|"")*"|'(?:[^']|'')*'|\d+\.\d+|\.\d+|[{},]/g, (mark) => {
    if (mark === '{') depth += 1;
    else if (mark === '}') depth -= 1;
    else if (mark === ',') return depth > 0 ? separators.column : separators.argument;
    else if (/^\d*\.\d+$/.test(mark)) return mark.replace('.', separators.decimal);
    return mark;
  });
}
