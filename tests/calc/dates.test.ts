import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { book, disposeAll } from './fixture.ts';

/** Serial number of 1970-01-01. */
const EPOCH = 25_569;
const DAY = 86_400_000;
/** Days of twelve years from 2000 on, ends of months and years among them. */
const DAYS = Array.from({ length: 1500 }, (_, i) => 36_526 + 3 * i);

const dateOf = (serial: number): Date => new Date((serial - EPOCH) * DAY);
const serialOf = (year: number, month: number, day: number): number => Date.UTC(year, month, day) / DAY + EPOCH;
const weekend = (serial: number): boolean => [0, 6].includes(dateOf(serial).getUTCDay());

/** The week whose Thursday it shares. Source: ISO 8601, from memory. */
function isoWeek(serial: number): number {
  const thursday = serial + 3 - ((dateOf(serial).getUTCDay() + 6) % 7);
  let week = 1;
  for (let back = thursday - 7; dateOf(back).getUTCFullYear() === dateOf(thursday).getUTCFullYear(); back -= 7)
    week += 1;
  return week;
}
/** Weeks that begin on a day of the week, the first one with 1 January. */
function week(serial: number, begins: number): number {
  let count = 1;
  for (let at = serialOf(dateOf(serial).getUTCFullYear(), 0, 1) + 1; at <= serial; at++)
    if (dateOf(at).getUTCDay() === begins) count += 1;
  return count;
}
function monthsOn(serial: number, months: number): number {
  const date = dateOf(serial);
  for (let day = date.getUTCDate(); ; day--) {
    const moved = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + months, day));
    const wanted = (((date.getUTCMonth() + months) % 12) + 12) % 12;
    if (moved.getUTCMonth() === wanted) return moved.getTime() / DAY + EPOCH;
  }
}
function workdays(from: number, to: number, free: readonly number[] = []): number {
  let count = 0;
  for (let at = Math.min(from, to); at <= Math.max(from, to); at++) if (!weekend(at) && !free.includes(at)) count += 1;
  return from <= to ? count : -count;
}
function workday(from: number, days: number): number {
  let at = from;
  for (let left = Math.abs(days); left > 0; ) {
    at += Math.sign(days);
    if (!weekend(at)) left -= 1;
  }
  return at;
}
const months = (from: number, to: number): number => {
  let count = 0;
  while (monthsOn(from, count + 1) <= to) count += 1;
  return count;
};
const clock = (serial: number): number => serial % 1440;

const FUNCTIONS: readonly (readonly [string, (s: number) => string, (s: number) => number | string])[] = [
  ['ISOWEEKNUM', (s) => `ISOWEEKNUM(${s})`, isoWeek],
  ['WEEKNUM of the standard', (s) => `WEEKNUM(${s},21)`, isoWeek],
  ['WEEKNUM', (s) => `WEEKNUM(${s})`, (s) => week(s, 0)],
  ['WEEKNUM from Monday', (s) => `WEEKNUM(${s},2)`, (s) => week(s, 1)],
  ['WEEKDAY', (s) => `WEEKDAY(${s})`, (s) => dateOf(s).getUTCDay() + 1],
  ['WEEKDAY from Monday', (s) => `WEEKDAY(${s},2)`, (s) => dateOf(s).getUTCDay() || 7],
  ...[-13, -1, 1, 6, 12].map(
    (by) => [`EDATE by ${by}`, (s: number) => `EDATE(${s},${by})`, (s: number) => monthsOn(s, by)] as const,
  ),
  ['EOMONTH', (s) => `EOMONTH(${s},2)`, (s) => serialOf(dateOf(s).getUTCFullYear(), dateOf(s).getUTCMonth() + 3, 0)],
  ['DATE of its parts', (s) => `DATE(YEAR(${s}),MONTH(${s}),DAY(${s}))`, (s) => s],
  ['TEXT', (s) => `TEXT(${s},"yyyy-mm-dd")`, (s) => dateOf(s).toISOString().slice(0, 10)],
  ['NETWORKDAYS', (s) => `NETWORKDAYS(${s},${s + (s % 61) - 30})`, (s) => workdays(s, s + (s % 61) - 30)],
  [
    'NETWORKDAYS with holidays',
    (s) => `NETWORKDAYS(${s},${s + 40},{${s + 3},${s + 4},${s + 5}})`,
    (s) => workdays(s, s + 40, [s + 3, s + 4, s + 5]),
  ],
  ['WORKDAY', (s) => `WORKDAY(${s},${(s % 41) - 20})`, (s) => workday(s, (s % 41) - 20)],
  ['DATEDIF in days', (s) => `DATEDIF(${s},${s + 417},"d")`, () => 417],
  ['HOUR', (s) => `HOUR(${s}+${clock(s)}/1440)`, (s) => Math.floor(clock(s) / 60)],
  ['MINUTE', (s) => `MINUTE(${s}+${clock(s)}/1440)`, (s) => clock(s) % 60],
  ['SECOND', (s) => `SECOND(${s}+${clock(s)}/1440)`, () => 0],
];

describe('dates', () => {
  let value: (formulas: readonly string[]) => unknown[] = () => [];
  beforeAll(async () => {
    const { calculator } = await book({ S: { A1: 45_688, A2: 45_657, B1: '2024-12-31' } });
    value = (formulas) =>
      calculator.evaluate(formulas).map((answer) => ('error' in answer ? answer.error : answer.value));
  });
  afterAll(disposeAll);

  it.each(FUNCTIONS)('%s is what counting days gives', (_, formula, wanted) => {
    const got = value(DAYS.map((serial) => `=${formula(serial)}`));
    DAYS.forEach((serial, i) => {
      expect(got[i], formula(serial)).toBe(wanted(serial));
    });
  });

  it('are taken from cells, tables and text alike', () => {
    // 2025-01-31 and 2024-12-31, a Tuesday of the first week of 2025
    expect(value(['=EDATE(A1,1)', '=EDATE(A1:A2,2)', '=EDATE(A1,{1,-11})', '=EDATE(A1,-1.9)'])).toEqual([
      ...[45_716, [[45_747], [45_716]], [[45_716, 45_351]], 45_657],
    ]);
    expect(value(['=ISOWEEKNUM(A2)', '=ISOWEEKNUM(A1:A2)', '=ISOWEEKNUM(B1)', '=WEEKNUM(B1,21)'])).toEqual([
      ...[1, [[5], [1]], 1, 1],
    ]);
    expect(value(['=ISOWEEKNUM(-1)', '=EDATE("x",1)', '=ISOWEEKNUM(1/0)'])).toEqual(['#NUM!', '#VALUE!', '#DIV/0!']);
  });

  it('have as many months between them as fit', () => {
    const from = DAYS.filter((serial) => dateOf(serial).getUTCDate() < 28);
    const got = value(from.map((serial) => `=DATEDIF(${serial},${serial + 417},"m")`));
    from.forEach((serial, i) => {
      expect(got[i], String(serial)).toBe(months(serial, serial + 417));
    });
  });
});
