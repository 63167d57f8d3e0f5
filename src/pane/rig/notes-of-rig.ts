import type { CellBlock, CellNote } from '../host.ts';
import { libraryNotes } from '../library-notes.ts';
import { rigAt } from './rig-at.ts';

/** Notes about the parts of one rig. */
export function notesOfRig(parts: CellBlock, rig: string, rigs: readonly string[]): readonly CellNote[] {
  return libraryNotes(parts).filter(({ row }) => rigAt(parts, { ...parts, row, cells: [] }, rigs) === rig);
}
