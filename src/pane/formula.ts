import type { CellFunction, ParameterKind } from '../functions/define.ts';

/** A1, $B$2, A1:C9, Parts!A1:H20, 'Pipe runs'!A1:F40, A:C, 2:9. */
const REFERENCE =
  /^(?:(?:'(?:[^']|'')+'|[\p{L}_][\p{L}\d_.]*)!)?(?:\$?[a-z]{1,3}\$?\d{1,7}(?::\$?[a-z]{1,3}\$?\d{1,7})?|\$?[a-z]{1,3}:\$?[a-z]{1,3}|\$?\d{1,7}:\$?\d{1,7})$/iu;
/** Kinds whose argument is a range: what is typed there is a reference or a defined name, never text. */
const RANGE_KINDS: ReadonlySet<ParameterKind> = new Set(['table', 'list', 'conditions']);

/**
 * Turns what a person typed for one argument into that argument of a formula: numbers, references, formulas after `=`
 * and quoted text as they are; anything else as text, because units and names are text ("3/8 in").
 */
export function argumentText(typed: string, kind: ParameterKind): string {
  const text = typed.trim();
  if (text === '') return '';
  if (text.startsWith('=')) return text.slice(1).trim();
  if (/^[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?%?$/i.test(text)) return text;
  if (/^(?:true|false)$/i.test(text)) return text.toUpperCase();
  if (REFERENCE.test(text) || /^".*"$/.test(text) || /^\{.*\}$/.test(text)) return text;
  if (RANGE_KINDS.has(kind)) return text;
  return `"${text.replaceAll('"', '""')}"`;
}

/** The call of `fn` with the typed arguments; trailing blanks are left out, blanks between stay empty. */
export function callText(fn: CellFunction, typed: readonly string[]): string {
  const kinds = Object.values(fn.parameters).map((parameter) => parameter.kind);
  const texts = typed.map((text, i) => argumentText(text, kinds[Math.min(i, kinds.length - 1)] ?? 'any'));
  while (texts.length > 0 && texts.at(-1) === '') texts.pop();
  return `=NARROWS.${fn.id}(${texts.join(', ')})`;
}

/** NARROWS.EVAC.TIME(volume, parts, rig, [conditions]) */
export function signature(fn: CellFunction): string {
  const names = Object.entries(fn.parameters).map(([name, parameter]) => {
    const shown = parameter.repeating ? `${name}, …` : name;
    return parameter.optional ? `[${shown}]` : shown;
  });
  return `NARROWS.${fn.id}(${names.join(', ')})`;
}
