/** Addresses in place of what `placeWords` says of a row of a range, for hosts that know where the range stands. */

/** A range that was given as a table. */
export interface Standing {
  /** the ways in which words may name each column */
  readonly headers: readonly (readonly string[])[];
  /** where all of it stands, such as Pipe runs!A4:J20 */
  readonly address: string;
  /** address of a row, counted as in a place, or of the cell of it in a column, counted from 0 */
  rowAddress(row: number, column?: number): string;
}

const ROW_PLACE = /(?<![\p{L}\d])(\p{Lu}\p{Ll}*), row (\d+) of the range(, column )?/gu;
const TABLE_PLACE = /^(\p{Lu}\p{Ll}*): /u;

/** Whether words name the row of a table as `placeWords` does. */
export function namesRow(words: string): boolean {
  return words.includes(' of the range') && words.search(ROW_PLACE) >= 0;
}

/** Words with the address in place of each place in a table whose range is known, by the table's name as in a place. */
export function withAddresses(words: string, standingOf: (table: string) => Standing | undefined): string {
  if (!namesRow(words)) {
    const [whole = '', table = ''] = TABLE_PLACE.exec(words) ?? [];
    const standing = table === '' ? undefined : standingOf(table.toLowerCase());
    return standing === undefined ? words : `${standing.address}: ${words.slice(whole.length)}`;
  }
  let written = '';
  let done = 0;
  for (const { 0: found, 1: table = '', 2: row, 3: column, index } of words.matchAll(ROW_PLACE)) {
    const standing = standingOf(table.toLowerCase());
    if (standing === undefined) continue;
    const end = index + found.length;
    const header = column === undefined ? undefined : headerAt(words, end, standing.headers);
    written += words.slice(done, index) + standing.rowAddress(Number(row), header?.column);
    done = header === undefined ? end - (column ?? '').length : header.end;
  }
  return written + words.slice(done);
}

/** The column whose header stands at a place in words; the longest counts, since headers may hold a colon themselves. */
function headerAt(
  words: string,
  start: number,
  headers: Standing['headers'],
): { readonly column: number; readonly end: number } | undefined {
  let best: { readonly column: number; readonly end: number } | undefined;
  headers.forEach((names, column) => {
    for (const name of names) {
      const end = start + name.length;
      const isHere = words.slice(start, end).toLowerCase() === name.toLowerCase() && words.startsWith(': ', end);
      if (isHere && end > (best?.end ?? start)) best = { column, end };
    }
  });
  return best;
}
