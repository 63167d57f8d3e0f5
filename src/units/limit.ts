import { raise } from '../faults/issue.ts';
import { fromSI, fromUnit, type Quantity, type Reading } from './quantity.ts';

/** Allowed range of a value, in the default unit of its parameter or column. */
export interface Limit {
  readonly above?: number;
  readonly atLeast?: number;
  readonly below?: number;
  readonly atMost?: number;
}

interface Bound {
  readonly rule: 'above' | 'at least' | 'below' | 'at most';
  readonly limit: number;
}

function brokenBound(value: number, limit: Limit): Bound | undefined {
  if (limit.above !== undefined && !(value > limit.above)) return { rule: 'above', limit: limit.above };
  if (limit.atLeast !== undefined && !(value >= limit.atLeast)) return { rule: 'at least', limit: limit.atLeast };
  if (limit.below !== undefined && !(value < limit.below)) return { rule: 'below', limit: limit.below };
  if (limit.atMost !== undefined && !(value <= limit.atMost)) return { rule: 'at most', limit: limit.atMost };
  return undefined;
}

/** The same limit in SI, so that a hot path compares plain numbers. */
export function limitToSI(limit: Limit, unit: string, quantity: Quantity): Limit {
  const entries = Object.entries(limit) as [keyof Limit, number][];
  return Object.fromEntries(entries.map(([rule, bound]) => [rule, fromUnit(bound, unit, quantity)]));
}

/** Raises `limit` in the unit that the reading was written in. `limitSI` is in SI. */
export function checkReading(reading: Reading, limitSI: Limit, quantity: Quantity, argument: string): void {
  const broken = brokenBound(reading.si, limitSI);
  if (broken === undefined) return;
  const { value, unit } = reading;
  raise({ kind: 'limit', argument, value, rule: broken.rule, limit: fromSI(broken.limit, unit, quantity), unit });
}

export function withinLimit(si: number, limitSI: Limit): boolean {
  return brokenBound(si, limitSI) === undefined;
}

/** Raises `limit` for a plain number. */
export function checkNumber(value: number, limit: Limit, argument: string, unit = ''): void {
  const broken = brokenBound(value, limit);
  if (broken !== undefined) raise({ kind: 'limit', argument, value, rule: broken.rule, limit: broken.limit, unit });
}
