import { type Cell, isBlank } from '../../tables/cells.ts';
import { PARTS_COLUMNS } from '../../tables/parts-columns.ts';
import { plainName } from '../../tables/table.ts';
import type { CellBlock } from '../host.ts';

const RIG_HEADERS = new Set([PARTS_COLUMNS.rig.header, ...PARTS_COLUMNS.rig.synonyms].map(plainName));

/**
 * The rig that the selected row is about: in the parts table the rig whose part it is, elsewhere the first rig that the
 * row names.
 */
export function rigAt(parts: CellBlock, row: CellBlock | undefined, rigs: readonly string[]): string | undefined {
  if (row === undefined) return undefined;
  const known = (cell: Cell) =>
    typeof cell === 'string' ? rigs.find((rig) => plainText(rig) === plainText(cell)) : undefined;
  const within = row.row - parts.row;
  if (row.sheet === parts.sheet && within > 0 && within < parts.cells.length) {
    const column = (parts.cells[0] ?? []).findIndex((cell) => RIG_HEADERS.has(plainName(String(cell ?? ''))));
    // A blank rig is that of the row above; blank rows below the table are no one's.
    if ((parts.cells[within] ?? []).every(isBlank)) return undefined;
    for (let at = within; at > 0; at--) {
      const cell = parts.cells[at]?.[column];
      if (!isBlank(cell)) return known(cell);
    }
    return undefined;
  }
  return row.cells[0]?.map(known).find((rig) => rig !== undefined);
}

function plainText(text: string): string {
  return text.trim().toLowerCase();
}
