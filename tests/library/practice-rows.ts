import { type ReferenceRow, referenceRows } from '../references/rows.ts';

/** One row of the practice file by its id. */
export function practiceRow(id: string): ReferenceRow {
  const row = referenceRows('practice').find((one) => one.id === id);
  if (row === undefined) throw new Error(`practice has no row ${id}`);
  return row;
}

/** The two figures of a range in the row's value. */
export function numberIn(row: ReferenceRow, pattern: RegExp): readonly [number, number] {
  const match = pattern.exec(row.value);
  if (match === null) throw new Error(`${row.id}: no range in "${row.value}"`);
  return [Number(match[1]), Number(match[2])];
}
