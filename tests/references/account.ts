import { allowance, type ReferenceRow, referenceRows } from './rows.ts';

/**
 * What a reference row says beside what we get: made here once, asserted by the tests and printed on the verification page.
 * Numbers agree from `low` to `high`, words when they are the same.
 */
export interface Comparison {
  readonly ours: number | string;
  readonly theirs: number | string;
  readonly low: number;
  readonly high: number;
  /** which of several figures of the row, or what else is to be known of it */
  readonly what: string;
}

/** Ours within `slack` of theirs. */
export function closeTo(ours: number, theirs: number, slack: number, what = ''): Comparison {
  return { ours, theirs, low: theirs - slack, high: theirs + slack, what };
}

/** Ours against the row's value within the row's own tolerance. */
export function near(row: ReferenceRow, ours: number, value = Number(row.value), part = 0, what = ''): Comparison {
  // a printed value is known to half a unit of its last digit at best
  return closeTo(ours, value, Math.max(allowance(row, value, part), halfLastDigit(row.value)), what);
}

/** Ours within `part` (relative) of a value. */
export function within(ours: number, theirs: number, part: number, what = ''): Comparison {
  return closeTo(ours, theirs, Math.abs(theirs) * part, what);
}

/** Ours within a range that the row gives. */
export function between(ours: number, low: number, high: number, theirs: string, what = ''): Comparison {
  return { ours, theirs, low, high, what };
}

/** Words that must be the same. */
export function same(ours: string, theirs: string, what = ''): Comparison {
  return { ours, theirs, low: Number.NaN, high: Number.NaN, what };
}

export function agrees({ ours, theirs, low, high }: Comparison): boolean {
  if (typeof ours === 'string') return ours === theirs;
  return Number.isFinite(ours) && ours >= low && ours <= high;
}

export function halfLastDigit(text: string): number {
  const decimals = /^-?\d*\.(\d+)$/.exec(text)?.[1];
  return decimals === undefined ? 0 : 0.5 * 10 ** -decimals.length;
}

export type RowCheck = readonly [ids: RegExp, check: (row: ReferenceRow) => Comparison | readonly Comparison[]];

/** A file of rows, the check that takes each of them, and by id the reason why a row is taken by none. */
export interface Account {
  readonly file: string;
  readonly checks: readonly RowCheck[];
  readonly listed: Readonly<Record<string, string>>;
  /** the reason by what a row holds, for rows without an id */
  readonly leftOut: (row: ReferenceRow) => string | undefined;
}

/** What became of a row: what was compared, or why nothing was. */
export interface RowRecord {
  readonly row: ReferenceRow;
  readonly comparisons: readonly Comparison[];
  readonly reason: string;
}

export function account(
  file: string,
  checks: readonly RowCheck[],
  listed: Readonly<Record<string, string>> = {},
  leftOut: Account['leftOut'] = () => undefined,
): Account {
  return { file, checks, listed, leftOut };
}

/** Checks by id of one row each. */
export function byId(
  checks: Readonly<Record<string, (row: ReferenceRow) => Comparison | readonly Comparison[]>>,
): RowCheck[] {
  return Object.entries(checks).map(([id, check]): RowCheck => [new RegExp(`^${id}$`, 'u'), check]);
}

export function reasonOf({ listed, leftOut }: Account, row: ReferenceRow): string {
  return leftOut(row) ?? (Object.hasOwn(listed, row.id) ? (listed[row.id] ?? '') : '');
}

export function checkOf(of: Account, row: ReferenceRow): RowCheck[1] | undefined {
  if (of.leftOut(row) !== undefined) return undefined;
  return of.checks.find(([ids]) => ids.test(row.id))?.[1];
}

export function recordOf(of: Account, row: ReferenceRow): RowRecord {
  const check = checkOf(of, row);
  if (check === undefined) return { row, comparisons: [], reason: reasonOf(of, row) };
  const made = check(row);
  return { row, comparisons: 'ours' in made ? [made] : made, reason: '' };
}

/** Every row of the file. */
export function recordsOf(of: Account): RowRecord[] {
  return referenceRows(of.file).map((row) => recordOf(of, row));
}
