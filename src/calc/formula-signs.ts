/** Text, names of sheets, array constants and columns of tables, in which signs mean nothing; then signs in a row; then the rest. */
const SIGNS = /"(?:[^"]|"")*"|'(?:[^']|'')*'|\{(?:"(?:[^"]|"")*"|[^}"])*\}|\[[^\]]*\]|[-+](?:\s*[-+])*\s*|[\s\S]/gu;

/** Longer formulas are left as they are: quotes that never end would be looked for again and again. */
const MOST_SIGNED = 8192;

/** What `SIGNS` leaves out, or a sign before TRUE or FALSE. */
const SIGNED_TRUTH =
  /"(?:[^"]|"")*"|'(?:[^']|'')*'|\{(?:"(?:[^"]|"")*"|[^}"])*\}|\[[^\]]*\]|([-+]\s*)(TRUE|FALSE)\b(?![\w.]|\s*\()/giu;

/**
 * Signs in a row as the engine can read them: it takes `--2^2` for -(-2)^2, and cannot read `2*--3` or `- 2`. A sign binds tighter than `^`, so
 * that two minuses are none; where nothing else makes a number of what follows, 0 is added to it.
 */
export function plainSigns(given: string): string {
  if (given.length > MOST_SIGNED) return given;
  // a sign before a truth value cannot be read either, before the function of that name it can
  const formula = given.replace(SIGNED_TRUTH, (piece, sign?: string, word?: string) =>
    sign === undefined ? piece : `${sign}${word}()`,
  );
  if (!/[-+][-+\s]/u.test(formula)) return formula;
  const powers = formula.includes('^');
  let plain = '';
  for (const [piece] of formula.matchAll(SIGNS)) {
    if (!/^[-+][-+\s]*$/u.test(piece)) {
      plain += piece;
      continue;
    }
    const before = plain.trimEnd().at(-1) ?? '=';
    const signs = piece.replace(/\s/gu, '');
    const joins = !/[-+*/^&=<>(,]/u.test(before);
    const own = joins ? signs.slice(1) : signs;
    if (own === '') {
      plain += piece;
      continue;
    }
    if (own.length < 2 || (/[(,]/u.test(before) && !powers) || (plain === '=' && !powers)) {
      plain += signs;
      continue;
    }
    const negative = own.replaceAll('+', '').length % 2 === 1;
    const adds = !joins && !/[-+*/^]/u.test(before) ? '0+' : '';
    plain += (joins ? signs[0] : '') + (negative ? '-' : adds);
  }
  return plain;
}
