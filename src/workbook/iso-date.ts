const MS_PER_DAY = 86_400_000;
/** Days are counted from here; the count has a 29 February 1900 as day 60, which there was not. */
const DAY_ZERO = Date.UTC(1899, 11, 30);
const FIRST_REAL_DAY = 61;
/** 31 December 9999 */
const LAST_DAY = 2_958_465;

interface Shown {
  readonly date: boolean;
  readonly time: boolean;
}

/**
 * A day count as a date, a time of day or both (ISO 8601), where a number format shows it as such: what the format shows of
 * the two and what else the number holds. Undefined where the format shows a number or a length of time, or where there is no
 * such day.
 */
export function isoDate(serial: number, format: string | undefined): string | undefined {
  const shown = shownBy(format ?? '');
  if (!shown.date && !shown.time) return undefined;
  // a count of days is exact to some microseconds
  const ms = Math.round(serial * MS_PER_DAY);
  const day = Math.floor(ms / MS_PER_DAY);
  const time = timeOf(ms - day * MS_PER_DAY);
  if (day === 0 && ms >= 0 && !shown.date) return time;
  if (!(day >= FIRST_REAL_DAY && day <= LAST_DAY)) return undefined;
  const date = new Date(DAY_ZERO + day * MS_PER_DAY).toISOString().slice(0, 10);
  return shown.time || ms % MS_PER_DAY !== 0 ? `${date}T${time}` : date;
}

function timeOf(ms: number): string {
  const text = new Date(ms).toISOString().slice('1970-01-01T'.length, -1);
  return text.endsWith('.000') ? text.slice(0, -'.000'.length) : text;
}

/** What of a date and a time the format of positive numbers shows. */
function shownBy(format: string): Shown {
  const [first = ''] = format.replace(/"[^"]*"|[\\_*]./g, '').split(';');
  const isLength = /\[(?:h+|m+|s+)\]/i.test(first);
  const letters = first.replace(/\[[^\]]*\]/g, '').toLowerCase();
  if (isLength || letters.trim() === 'general') return { date: false, time: false };
  const time = /[hs]|am\/pm|a\/p/.test(letters);
  const marks = letters.replace(/am\/pm|a\/p/g, '');
  // an m is a minute beside hours or seconds, else a month
  return { date: /[yd]|m{3}/.test(marks) || (marks.includes('m') && !time), time };
}
