/** Stands for any one character. */
const ANY = Symbol('any character');
export type Piece = readonly (string | typeof ANY)[];

/** What `SEARCH` looks for, cut where there may be anything: `?` is one character, `*` any number, `~` before one of them itself. */
export function piecesOf(wanted: string): readonly Piece[] {
  const pieces: (string | typeof ANY)[][] = [[]];
  for (const [sign] of wanted.toLowerCase().matchAll(/~[?*~]|[\s\S]/gu)) {
    if (sign === '*') pieces.push([]);
    else pieces.at(-1)?.push(sign === '?' ? ANY : sign.slice(-1));
  }
  return pieces;
}

/** First place of a piece in a text from a place on, or -1. */
function placeOf(piece: Piece, text: string, from: number): number {
  for (let start = from; start + piece.length <= text.length; start++)
    if (piece.every((sign, at) => sign === ANY || sign === text[start + at])) return start;
  return -1;
}

/** First place at which a text begins with what is wanted, or -1: the pieces one behind the other, each as early as can be. */
export function placeOfAll(pieces: readonly Piece[], text: string, from: number): number {
  let first = -1;
  let next = from;
  for (const piece of pieces) {
    const found = placeOf(piece, text, next);
    if (found < 0) return -1;
    if (first < 0) first = found;
    next = found + piece.length;
  }
  return first;
}
