/**
 * The number format library in the page, with memory: what a text reads as is worked out once. The grid asks of every text in
 * view each time that it draws.
 */
import { parseDate as date, parseNumber as number, parseTime as time } from 'numfmt-itself';

export * from 'numfmt-itself';

/** Texts that are kept for each question. */
const MOST_KEPT = 5_000;

function remembering(parse) {
  const kept = new Map();
  return (text, options) => {
    if (options !== undefined || typeof text !== 'string') return parse(text, options);
    if (!kept.has(text)) {
      if (kept.size >= MOST_KEPT) kept.clear();
      kept.set(text, parse(text));
    }
    const known = kept.get(text);
    return known && { ...known };
  };
}

export const parseDate = remembering(date);
export const parseNumber = remembering(number);
export const parseTime = remembering(time);
