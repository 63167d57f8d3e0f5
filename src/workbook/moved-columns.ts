import type { Block } from './address.ts';
import { type editsOf, movedBlock, placeAfter } from './edits.ts';

/**
 * What there is of each column of a block after the edits: those taken out are gone, those put in are holes, and so are those
 * among which others came to stand.
 *
 * @param columns one entry for each column of the block before the edits
 */
export function movedColumns<T>(
  columns: readonly T[],
  block: Block,
  edits: ReturnType<typeof editsOf>,
): (T | undefined)[] {
  let list: (T | undefined)[] = [...columns];
  let place: Block | undefined = block;
  for (const edit of edits) {
    const next: Block | undefined = movedBlock(place, edit);
    if (next === undefined) return [];
    const { startColumn, endColumn } = place;
    // cells alone that come or go in a part of its rows leave the block as it is
    if (edit.axis === 'column' && edit.kind === 'move') {
      const now = new Array<T | undefined>(next.endColumn - next.startColumn + 1).fill(undefined);
      for (const [index, column] of list.entries()) {
        const at = placeAfter(edit, startColumn + index) - next.startColumn;
        if (at >= 0 && at < now.length) now[at] = column;
      }
      list = now;
    } else if (edit.axis === 'column' && next !== place) {
      const first = Math.max(edit.at, startColumn) - startColumn;
      if (edit.kind === 'remove')
        list.splice(first, Math.max(0, Math.min(edit.at + edit.count - 1, endColumn) - startColumn - first + 1));
      else if (edit.at > startColumn && edit.at <= endColumn)
        list.splice(first, 0, ...new Array<undefined>(edit.count));
      // what is pushed over the end of the sheet is gone
      list.length = Math.min(list.length, next.endColumn - next.startColumn + 1);
    }
    place = next;
  }
  return list;
}
