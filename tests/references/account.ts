import { describe, expect, it } from 'vitest';
import { allowance, cite, type ReferenceRow, referenceRows } from './rows.ts';

/** Ours against the row's value within the row's own tolerance; the row is cited when it fails. */
export function expectNear(row: ReferenceRow, ours: number, value = Number(row.value), part = 0): void {
  expect(Number.isFinite(ours), `${cite(row)}: ours is ${ours}`).toBe(true);
  // a printed value is known to half a unit of its last digit at best
  const slack = Math.max(allowance(row, value, part), halfLastDigit(row.value));
  expect(Math.abs(ours - value), `${cite(row)}: ours ${ours}, theirs ${value}`).toBeLessThanOrEqual(slack);
}

export function halfLastDigit(text: string): number {
  const decimals = /^-?\d*\.(\d+)$/.exec(text)?.[1];
  return decimals === undefined ? 0 : 0.5 * 10 ** -decimals.length;
}

/** Ours within `part` (relative) of a value that no row gives to this purpose; says why beside the call. */
export function expectWithin(ours: number, theirs: number, part: number, why: string): void {
  expect(Math.abs(ours / theirs - 1), `${why}: ours ${ours}, theirs ${theirs}`).toBeLessThanOrEqual(part);
}

export type RowCheck = readonly [ids: RegExp, check: (row: ReferenceRow) => void];

/**
 * Runs every row of a file through the check that its id selects. Rows that no check can take are listed by id with the
 * reason; a new row that is in neither fails, and so does a listed row that is gone.
 */
export function runRows(file: string, checks: readonly RowCheck[], listed: Readonly<Record<string, string>>): void {
  const rows = referenceRows(file);
  const checkOf = (row: ReferenceRow): RowCheck | undefined => checks.find(([ids]) => ids.test(row.id));

  describe(`${file}: every row is run or listed with a reason`, () => {
    it('leaves no row out', () => {
      const left = rows.filter((row) => checkOf(row) === undefined && !Object.hasOwn(listed, row.id));
      expect(left.map((row) => row.id)).toEqual([]);
    });
    it('lists only rows that there are, and none that is run as well', () => {
      const ids = new Set(rows.filter((row) => checkOf(row) === undefined).map((row) => row.id));
      expect(Object.keys(listed).filter((id) => !ids.has(id))).toEqual([]);
    });
    const run = rows.filter((row) => checkOf(row) !== undefined);
    it.each(run.map((row) => [`${row.id} ${row.cells.quantity ?? ''} ${row.cells.inputs ?? ''}`, row] as const))(
      '%s',
      (_, row) => checkOf(row)?.[1](row),
    );
  });
}
