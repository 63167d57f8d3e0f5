/** How much room text takes, before it is drawn: an SVG file breaks no lines. */

/**
 * Widths in parts of the size, bold and plain, of the widest of the usual fonts (DejaVu Sans, rounded up): in all others text
 * takes less.
 */
const WIDTHS: readonly { readonly signs: RegExp; readonly bold: number; readonly plain: number }[] = [
  { signs: /[ijlI|.,:;'!()[\]/\-tfrJ\s\\]/, bold: 0.5, plain: 0.42 },
  { signs: /[mwMW%@&+=<>~#^×≈…–—]/, bold: 1.11, plain: 1.01 },
  { signs: /[scz]/, bold: 0.61, plain: 0.56 },
  { signs: /[A-Zµ]/, bold: 0.86, plain: 0.79 },
  { signs: /[\x20-\x7e°µ²³·]/, bold: 0.72, plain: 0.65 },
];
/** Signs of other scripts, and pictures. */
const OTHER = 1.3;
export type Weight = 'bold' | 'plain';
const MORE = '…';

/** Width of a text at a size, px, at the most. */
export function widthOf(text: string, size: number, weight: Weight): number {
  // a letter with its accents is as wide as without
  const bare = text.normalize('NFD').replace(/\p{M}/gu, '');
  return (
    size * [...bare].reduce((sum, sign) => sum + (WIDTHS.find(({ signs }) => signs.test(sign))?.[weight] ?? OTHER), 0)
  );
}

/**
 * A bold text in lines that fit, broken between words, and inside of one that is longer than a line. Where more than `most`
 * lines would be needed the last one ends in …
 */
export function lines(text: string, room: number, size: number, most: number): readonly string[] {
  const made: string[] = [];
  let rest = text.trim().replace(/\s+/g, ' ');
  while (rest !== '' && made.length < most) {
    const line = made.length === most - 1 ? shortened(rest, room, size, 'bold') : wordsThatFit(rest, room, size);
    made.push(line);
    rest = rest.slice(line.length).trimStart();
  }
  return made;
}

/** A text, or as much of it as fits and …. */
export function shortened(text: string, room: number, size: number, weight: Weight): string {
  if (widthOf(text, size, weight) <= room) return text;
  return `${fitting(text, room - widthOf(MORE, size, weight), size, weight).trimEnd()}${MORE}`;
}

function wordsThatFit(text: string, room: number, size: number): string {
  if (widthOf(text, size, 'bold') <= room) return text;
  const letters = fitting(text, room, size, 'bold');
  if (text[letters.length] === ' ') return letters;
  const end = letters.lastIndexOf(' ');
  return end < 0 ? letters : letters.slice(0, end);
}

/** As many letters from the begin as fit, one at the least. */
function fitting(text: string, room: number, size: number, weight: Weight): string {
  let made = '';
  for (const sign of text) {
    if (made !== '' && widthOf(made + sign, size, weight) > room) break;
    made += sign;
  }
  return made;
}
