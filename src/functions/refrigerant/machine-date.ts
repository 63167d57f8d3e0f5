import { raise } from '../../faults/issue.ts';
import { plainName } from '../../tables/table.ts';
import type { RawArgument } from '../define.ts';

/** The recovery rule changes with machines made on or after this day: 15 November 1993. */
const CHANGE = Date.UTC(1993, 10, 15);
const CHANGE_YEAR = 1993;
const DAY = 86_400_000;
/** Day 0 of spreadsheet dates (from March 1900 on). */
const SHEET_EPOCH = Date.UTC(1899, 11, 30);
/** A number from here to there is a year; larger ones are dates of the sheet. */
const FIRST_YEAR = 1900;
const LAST_YEAR = 2200;
const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];

function wrong(argument: string, raw: RawArgument): never {
  return raise({
    kind: 'wrong',
    argument,
    found: typeof raw === 'string' ? `"${raw.trim()}"` : String(raw),
    allowed: 'a date, a year but 1993, "before" or "after" (15 November 1993)',
    todo: 'Write the date as 1993-11-15 or 15 Nov 1993, or give a cell that holds a date.',
  });
}

function ofDay(year: number, month: number, day: number): number | undefined {
  const time = Date.UTC(year, month, day);
  const made = new Date(time);
  return made.getUTCMonth() === month && made.getUTCDate() === day ? time : undefined;
}

function ofText(text: string): number | undefined {
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})$/u.exec(text);
  if (iso !== null) return ofDay(Number(iso[1]), Number(iso[2]) - 1, Number(iso[3]));
  const words =
    /^(\d{1,2})[\s.]+([a-z]{3})[a-z]*\.?[\s,]+(\d{4})$/iu.exec(text) ??
    /^(?<month>[a-z]{3})[a-z]*\.?\s+(?<day>\d{1,2}),?\s+(?<year>\d{4})$/iu.exec(text);
  if (words === null) return undefined;
  const [day, month, year] = words.groups
    ? [words.groups.day, words.groups.month, words.groups.year]
    : [words[1], words[2], words[3]];
  const index = MONTHS.indexOf(String(month).toLowerCase());
  return index < 0 ? undefined : ofDay(Number(year), index, Number(day));
}

/**
 * Whether a recovery machine was made before 15 November 1993: from a date of the sheet (its number of days), a year,
 * a date as text (1995-03-01, 1 Mar 1995, Mar 1, 1995) or the words before and after. Dates such as 3/4/95, which mean
 * two days, are refused, and so is the year 1993 alone.
 */
export function isOldMachine(raw: RawArgument, argument: string): boolean {
  const text = typeof raw === 'string' ? raw.trim() : '';
  const value = typeof raw === 'number' ? raw : /^\d+(?:\.\d+)?$/u.test(text) ? Number(text) : undefined;
  if (value !== undefined) {
    if (!(Number.isFinite(value) && value >= FIRST_YEAR)) return wrong(argument, raw);
    if (value > LAST_YEAR) return SHEET_EPOCH + Math.floor(value) * DAY < CHANGE;
    return value === CHANGE_YEAR || !Number.isInteger(value) ? wrong(argument, raw) : value < CHANGE_YEAR;
  }
  const word = plainName(text);
  if (word === 'before' || word === 'old') return true;
  if (word === 'after' || word === 'new' || word === 'onorafter') return false;
  const time = ofText(text);
  return time === undefined ? wrong(argument, raw) : time < CHANGE;
}
