import { describe, expect, it } from 'vitest';
import { type Account, agrees, checkOf, near, reasonOf, recordOf } from './account.ts';
import { cite, type ReferenceRow, referenceRows } from './rows.ts';

/** Ours against the row's own figure was made by `near` and the like; here it must agree. */
export function expectAgreement(of: Account, row: ReferenceRow): void {
  const { comparisons } = recordOf(of, row);
  expect(comparisons.length, cite(row)).toBeGreaterThan(0);
  for (const one of comparisons) {
    const told = `${cite(row)}: ${one.what} ours ${one.ours}, theirs ${one.theirs}`;
    expect(agrees(one), told).toBe(true);
  }
}

/** Ours within `part` (relative) of a value that no row gives to this purpose; says why beside the call. */
export function expectWithin(ours: number, theirs: number, part: number, why: string): void {
  expect(Math.abs(ours / theirs - 1), `${why}: ours ${ours}, theirs ${theirs}`).toBeLessThanOrEqual(part);
}

/**
 * Runs every row of a file through the check that its id selects. Rows that no check can take are listed by id with the
 * reason; a new row that is in neither fails, and so does a listed row that is gone.
 */
export function runAccount(of: Account): void {
  const { file, listed } = of;
  const rows = referenceRows(file);
  const run = rows.filter((row) => checkOf(of, row) !== undefined);

  describe(`${file}: every row is run or listed with a reason`, () => {
    it('leaves no row out', () => {
      const left = rows.filter((row) => checkOf(of, row) === undefined && reasonOf(of, row) === '');
      expect(left.map(({ id }) => id)).toEqual([]);
    });
    it('lists only rows that there are, and none that is run as well', () => {
      const ids = new Set(rows.filter((row) => checkOf(of, row) === undefined).map(({ id }) => id));
      expect(Object.keys(listed).filter((id) => !ids.has(id))).toEqual([]);
    });
    it.each(run.map((row) => [`${row.id} ${row.cells.quantity ?? ''} ${row.cells.inputs ?? ''}`, row] as const))(
      '%s',
      (_, row) => expectAgreement(of, row),
    );
  });
}

/** Ours against a row's value within the row's own tolerance; the row is cited when it fails. */
export function expectNear(row: ReferenceRow, ours: number, value = Number(row.value), part = 0): void {
  const made = near(row, ours, value, part);
  expect(agrees(made), `${cite(row)}: ours ${ours}, theirs ${value}`).toBe(true);
}
