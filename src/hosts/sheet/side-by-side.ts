/**
 * Columns of a wide table shared out to pages that stand side by side: as few pages as fit, about equally wide, each but the
 * first with those in front that are repeated, so that its rows can be told.
 *
 * @param columns those that are shown, in order
 * @param widthOf px
 * @param isRepeated columns that stay on every page from the one on where they stand, unless they would take half a page
 * @param room px that a page holds
 * @returns at least one page; a column wider than a page has one of its own
 */
export function sideBySide(
  columns: readonly number[],
  widthOf: (column: number) => number,
  isRepeated: (column: number) => boolean,
  room: number,
): number[][] {
  const width = (list: readonly number[]): number => list.reduce((sum, column) => sum + widthOf(column), 0);
  const stays = columns.filter(isRepeated);
  const repeated = width(stays) <= room / 2 ? stays : [];
  const cut = (most: number): number[][] => {
    const pages: number[][] = [[]];
    let inFront = 0;
    for (const column of columns) {
      let page = pages.at(-1) ?? [];
      if (page.length > inFront && width(page) + widthOf(column) > most) {
        page = repeated.filter((before) => before < column);
        inFront = page.length;
        pages.push(page);
      }
      page.push(column);
    }
    return pages;
  };
  const fewest = cut(room).length;
  // the narrowest pages of that number, so that the last is not a strip
  let [least, most] = [0, room];
  while (most - least > 1) {
    const middle = (least + most) / 2;
    if (cut(middle).length > fewest) least = middle;
    else most = middle;
  }
  return cut(most);
}
