import { addressIn } from '../../calc/argument-places.ts';
import { cellName } from '../../calc/formula-text.ts';
import type { CellPlace } from '../../calc/messages.ts';
import { namesRow } from '../../faults/addresses.ts';
import type { CellFault } from '../../pane/host.ts';
import { isCellError } from '../../tables/cells.ts';
import type { Grid } from './page/grid.ts';

/** 'Pipe runs'!B4: quoted where a formula would need it. */
export function addressOf(sheetName: string, cell: string): string {
  const plain = /^[\p{L}_][\p{L}\d_.]*$/u.test(sheetName) && !/^[a-z]{1,3}\d+$/i.test(sheetName);
  return `${plain ? sheetName : `'${sheetName.replaceAll("'", "''")}'`}!${cell}`;
}

/** The two parts of an address such as 'Pipe runs'!B4; without a sheet the name is empty. */
export function partsOf(address: string): { readonly sheetName: string; readonly cell: string } {
  const mark = address.lastIndexOf('!');
  const name = address.slice(0, Math.max(0, mark));
  const sheetName = /^'.*'$/.test(name) ? name.slice(1, -1).replaceAll("''", "'") : name;
  return { sheetName, cell: address.slice(mark + 1) };
}

/** What is wrong in one cell, or undefined: its code, and our words for it. */
export function faultAt(grid: Grid, place: CellPlace): CellFault | undefined {
  const cell = grid.reader.cellAt(place);
  const kept = grid.messages.at(place);
  const code = isCellError(cell) ? cell.error : kept?.code;
  return code === undefined ? undefined : fault(grid, place, code);
}

/**
 * Every faulty cell of the open workbook, or of one sheet of it. First those whose cause has a place on the sheet, last those
 * that only hold the error of another cell, or tell of the same cause as a cell before them.
 */
export function faultsOf(grid: Grid, sheetId?: string): readonly CellFault[] {
  const found = grid.reader.shownCells().flatMap(({ place, cell }) => {
    if (!isCellError(cell) || (sheetId !== undefined && place.sheetId !== sheetId)) return [];
    const own = fault(grid, place, cell.error);
    return [{ own, cause: causeOf(grid, place, own) }];
  });
  const said = new Set<string>();
  const placed = [...found.filter(({ own }) => own.about), ...found.filter(({ own }) => !own.about)];
  const marked = placed.map(({ own, cause }): CellFault => {
    if (cause === undefined) return own;
    const again = said.has(cause);
    said.add(cause);
    return again ? { ...own, repeats: true } : own;
  });
  return [...marked.filter(({ repeats }) => !repeats), ...marked.filter(({ repeats }) => repeats)];
}

/** Whether words say where in a table a fault is. */
const namesPlace = (words: string): boolean => addressIn(words) !== undefined || namesRow(words);

/** What two cells share that tell of one cause: words with their place in a table, or the same words in the same row. */
function causeOf(grid: Grid, place: CellPlace, { message, repeats }: CellFault): string | undefined {
  // only words of our functions name a cause: those of other functions fit many
  if (repeats || grid.messages.at(place)?.message !== message) return undefined;
  return namesPlace(message) ? message : JSON.stringify([place.sheetId, place.row, message]);
}

function fault(grid: Grid, place: CellPlace, code: string): CellFault {
  const formula = grid.reader.formulaAt(place) ?? '';
  const message = grid.explainer.cell(place, code);
  const about = aboutOf(grid, place, message);
  return {
    address: addressOf(grid.reader.sheetName(place.unitId, place.sheetId), cellName(place.row, place.column)),
    formula,
    code,
    message,
    repeats: grid.explainer.repeated(place, code) !== undefined,
    ...(about === undefined ? {} : { about }),
  };
}

/** The cell that words of a fault of a table begin with, where it is one of the workbook. */
function aboutOf(grid: Grid, { unitId }: CellPlace, message: string): string | undefined {
  const { sheet, cell } = addressIn(message) ?? {};
  if (sheet === undefined || cell === undefined || grid.reader.sheetId(unitId, sheet) === undefined) return undefined;
  return addressOf(sheet, cell);
}
