import { type OwnRow, ownFigures, ownWords } from '../tables/own-figures.ts';
import { spotName } from '../workbook/address.ts';
import type { CellBlock, CellNote } from './host.ts';

/** A note, and the row on the sheet that it is about, from 0. */
export interface RowNote extends CellNote {
  readonly row: number;
}

/** How the host writes the address of a cell. */
export type AddressOf = (sheet: string, cell: string) => string;

const plainAddress: AddressOf = (sheet, cell) => `${sheet}!${cell}`;

/** A note for each part of a parts table that bears the name of a library part and has figures of its own; none for other tables. */
export function libraryNotes(block: CellBlock, addressOf: AddressOf = plainAddress): readonly RowNote[] {
  return ownFigures(block.cells).map((found) => noteOf(block, found, addressOf));
}

function noteOf(block: CellBlock, found: OwnRow, addressOf: AddressOf): RowNote {
  const row = block.row + found.row - 1;
  const cells = found.figures.map(({ index, library }) => ({
    address: addressOf(block.sheet, spotName(row, block.column + index)),
    value: library ?? null,
  }));
  const { what, todo } = ownWords(found);
  return {
    row,
    address: cells[0]?.address ?? addressOf(block.sheet, spotName(row, block.column)),
    message: `${what} ${todo}`,
    mend: { label: "Take the library's figures", cells },
  };
}
