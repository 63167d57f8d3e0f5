import type { CellNote } from '../../pane/host.ts';
import { libraryNotes } from '../../pane/library-notes.ts';
import { blockNamed } from './cell-blocks.ts';

/** Parts with a name of the library and figures of their own, in the ranges of the workbook that bear a name. */
export async function ownFigureNotes(
  context: Excel.RequestContext,
  scope: 'sheet' | 'workbook',
): Promise<readonly CellNote[]> {
  const { names, worksheets } = context.workbook;
  const active = worksheets.getActiveWorksheet();
  active.load('name');
  names.load('items/name,items/type');
  await context.sync();
  const notes = new Map<string, CellNote>();
  for (const { name, type } of names.items) {
    if (type !== 'Range') continue;
    const block = await blockNamed(context, name);
    if (block === undefined || (scope === 'sheet' && block.sheet !== active.name)) continue;
    for (const note of libraryNotes(block)) notes.set(note.address, note);
  }
  return [...notes.values()];
}
