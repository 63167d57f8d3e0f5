/** A cell in quotes, quotes in it doubled, up to the end of the cell. */
const QUOTED = /"((?:[^"]|"")*)"(?=[\t\n]|$)/y;
const PLAIN = /[^\t\n]*/y;

/**
 * The cells of a table as spreadsheets hand it out as text: a tab between cells, each row in a line. A cell that holds tabs,
 * line feeds or quotes is in quotes, quotes in it doubled. All rows are as long as the longest.
 *
 * @example rowsOfText('a\t"two\nlines"\n1\t2\n') // [['a', 'two\nlines'], ['1', '2']]
 */
export function rowsOfText(given: string): string[][] {
  const text = given.replace(/\r\n?/g, '\n').replace(/\n$/, '');
  const rows: string[][] = [[]];
  for (let at = 0; ; at++) {
    QUOTED.lastIndex = at;
    PLAIN.lastIndex = at;
    const quoted = text[at] === '"' ? QUOTED.exec(text) : null;
    const [whole] = quoted ?? PLAIN.exec(text) ?? [''];
    rows.at(-1)?.push(quoted?.[1]?.replaceAll('""', '"') ?? whole);
    at += whole.length;
    if (at >= text.length) break;
    if (text[at] === '\n') rows.push([]);
  }
  const width = Math.max(...rows.map((row) => row.length));
  return rows.map((row) => [...row, ...Array<string>(width - row.length).fill('')]);
}
