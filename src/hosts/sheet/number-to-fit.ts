/** Decimals that a text of a number can have at most. */
const MOST_DECIMALS = 20;
/** What an exponent takes beside its digits, such as E+08, with the sign and the point of the number. */
const AROUND_DIGITS = 6;

/** Room that the grid leaves on either side of a cell's content, px. */
export const PADDING = 2;
/** px of that room that a text may take before it is cut. */
export const SLACK = 1;
/** Room beside a number that stays blank, px. */
export const SIDES = 2 * PADDING - SLACK;

/** What there is to show a number in. */
export interface Room {
  /** px */
  readonly width: number;
  /** px that a text takes */
  measure(text: string): number;
}

/**
 * What a cell shows of a number, as every spreadsheet does: all of it, or signs that fill the cell and read as no number. A number
 * without a format of its own is rounded first as far as it must be: its decimals, then its digits, with an exponent.
 *
 * @param full what the cell shows where it is wide enough
 * @param value the number, where it has no format of its own
 */
export function numberToFit(full: string, value: number | undefined, room: Room): string {
  if (fits(full, room)) return full;
  // blanks around a number leave room for a bracket or a sign that others have
  const bare = full.trim();
  if (bare !== full && fits(bare, room)) return bare;
  return (value === undefined ? undefined : rounded(value, room)) ?? signs(room);
}

const fits = (text: string, { width, measure }: Room): boolean => measure(text) <= width;

function signs({ width, measure }: Room): string {
  return '#'.repeat(Math.max(1, Math.floor(width / measure('#'))));
}

/** The nearest text of the number that fits; of two as near the one without an exponent. */
function rounded(value: number, room: Room): string | undefined {
  if (!Number.isFinite(value)) return undefined;
  const digits = Math.floor(room.width / room.measure('0'));
  const found = [withDecimals(value, digits, room), withExponent(value, digits, room)].filter(
    // nothing is no rounding of something, nor is what no number can be
    (text) => text !== undefined && Number(text) !== 0 && Number.isFinite(Number(text)),
  );
  const distance = (text: string | undefined): number => Math.abs(Number(text) - value);
  return found.sort((a, b) => distance(a) - distance(b))[0];
}

function withDecimals(value: number, digits: number, room: Room): string | undefined {
  // from there on the text of a number has an exponent anyway
  if (Math.abs(value) >= 1e21) return undefined;
  for (let decimals = Math.min(MOST_DECIMALS, digits); decimals >= 0; decimals--) {
    const text = withoutZeros(value.toFixed(decimals));
    if (fits(text, room)) return text;
  }
  return undefined;
}

function withExponent(value: number, digits: number, room: Room): string | undefined {
  for (let decimals = Math.max(0, Math.min(MOST_DECIMALS, digits - AROUND_DIGITS + 1)); decimals >= 0; decimals--) {
    const [mantissa = '', exponent = ''] = value.toExponential(decimals).split('e');
    const text = `${withoutZeros(mantissa)}E${exponent.slice(0, 1)}${exponent.slice(1).padStart(2, '0')}`;
    if (fits(text, room)) return text;
  }
  return undefined;
}

const withoutZeros = (text: string): string => (text.includes('.') ? text.replace(/\.?0+$/, '') : text);
