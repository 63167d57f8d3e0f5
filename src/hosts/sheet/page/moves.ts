import type { Workbook } from '@univerjs/core';
import { type IDefinedNamesService, type IFormulaData, SetDefinedNameMutation } from '@univerjs/engine-formula';
import { UpdateDefinedNameController, UpdateFormulaController } from '@univerjs/sheets-formula';
import type { Block } from '../../../workbook/address.ts';
import type { SheetEdit } from '../../../workbook/edits.ts';
import { movedFormula } from '../../../workbook/moved-formula.ts';
import { shifted } from '../../../workbook/shift.ts';

/** What the library says of a command that changes where cells stand. */
interface Moves {
  readonly type: number;
  readonly unitId: string;
  readonly sheetId: string;
  readonly from?: Block;
  readonly to?: Block;
}

/** Kinds of such commands, as the library numbers them. */
const MOVES_ROWS = 1;
const MOVES_COLUMNS = 2;

type NewFormulas = Record<string, Record<string, Record<number, Record<number, { readonly f: string }>>>>;
type SheetIds = Readonly<Record<string, Readonly<Record<string, string>> | null | undefined>>;
type NameChange = { readonly id: string; readonly params: object };

/** The parts of the library that make formulas and names follow, which its types keep private. They hold for the pinned version. */
interface FormulasFollow {
  _getFormulaReferenceMoveInfo(formulas: IFormulaData, ids: SheetIds, moves: Moves): { newFormulaData: NewFormulas };
}
interface NamesFollow {
  readonly _definedNamesService: IDefinedNamesService;
  _getUpdateDefinedNameMutations(workbook: Workbook, moves: Moves): { redos: NameChange[]; undos: NameChange[] };
}

/**
 * Lets formulas and names read what they read before when rows or columns are dragged to another place: a single cell is
 * followed, a range keeps its cells (`runAfter` says which where they part). The library cuts ranges short when rows change
 * places inside of them, and leaves single cells behind.
 */
export function followMoves(): void {
  const formulas = UpdateFormulaController.prototype as unknown as FormulasFollow;
  const { _getFormulaReferenceMoveInfo: formulasOf } = formulas;
  const names = UpdateDefinedNameController.prototype as unknown as NamesFollow;
  const { _getUpdateDefinedNameMutations: namesOf } = names;
  if (formulasOf === undefined || namesOf === undefined)
    throw new Error('The grid makes formulas follow moved rows in another way than this page knows.');
  formulas._getFormulaReferenceMoveInfo = function (this: FormulasFollow, data, ids, moves) {
    const sheets = new Map(Object.entries(ids[moves.unitId] ?? {}).map(([name, id]) => [id, name]));
    const edit = moveOf(moves, sheets.get(moves.sheetId));
    if (edit === undefined) return formulasOf.call(this, data, ids, moves);
    return { newFormulaData: { [moves.unitId]: movedFormulas(data[moves.unitId] ?? {}, sheets, edit) } };
  };
  names._getUpdateDefinedNameMutations = function (this: NamesFollow, workbook, moves) {
    const edit = moveOf(moves, workbook.getSheetBySheetId(moves.sheetId)?.getName());
    if (edit === undefined) return namesOf.call(this, workbook, moves);
    const { unitId } = moves;
    const redos: NameChange[] = [];
    const undos: NameChange[] = [];
    for (const name of Object.values(this._definedNamesService.getDefinedNameMap(unitId) ?? {})) {
      // a reference without a sheet is, as for the library, one to the sheet at hand
      const formulaOrRefString = movedFormula(name.formulaOrRefString, edit.sheet, [edit]);
      if (formulaOrRefString === name.formulaOrRefString) continue;
      redos.push({ id: SetDefinedNameMutation.id, params: { unitId, ...name, formulaOrRefString } });
      undos.push({ id: SetDefinedNameMutation.id, params: { unitId, ...name } });
    }
    return { redos, undos };
  };
}

/** The move as an edit of its sheet; undefined where whole rows or columns do not move. */
function moveOf({ type, from, to }: Moves, sheet: string | undefined): SheetEdit | undefined {
  if (from === undefined || to === undefined || sheet === undefined) return undefined;
  if (type === MOVES_ROWS) return moveEdit('row', sheet, from, to);
  return type === MOVES_COLUMNS ? moveEdit('column', sheet, from, to) : undefined;
}

/** Whole rows or columns that move in front of those where another block begins, all of them as counted before. */
export function moveEdit(axis: 'row' | 'column', sheet: string, from: Block, to: Block): SheetEdit {
  const [at, end, before] =
    axis === 'row' ? [from.startRow, from.endRow, to.startRow] : [from.startColumn, from.endColumn, to.startColumn];
  return { kind: 'move', axis, sheet, at, count: end - at + 1, to: before };
}

/**
 * Formulas of a workbook that read otherwise after a move, at their places before it. Cells that share one formula get each
 * their own where one of them changes or stands on the sheet of the move: they may not be as far apart as before.
 *
 * @param sheets names of sheets by their ids
 */
export function movedFormulas(
  formulas: NonNullable<IFormulaData[string]>,
  sheets: ReadonlyMap<string, string>,
  edit: SheetEdit,
): NewFormulas[string] {
  const moved: NewFormulas[string] = {};
  for (const [sheetId, rows] of Object.entries(formulas)) {
    const name = sheets.get(sheetId) ?? '';
    const cells = Object.entries(rows ?? {}).flatMap(([row, columns]) =>
      Object.entries(columns ?? {}).flatMap(([column, cell]) => {
        if (!cell?.f) return [];
        const before = shifted(cell.f, cell.y ?? 0, cell.x ?? 0);
        return [
          { row: Number(row), column: Number(column), si: cell.si, before, f: movedFormula(before, name, [edit]) },
        ];
      }),
    );
    const parted = new Set(
      cells.flatMap(({ si, f, before }) => (si && (f !== before || name === edit.sheet) ? [si] : [])),
    );
    const here: NewFormulas[string][string] = {};
    for (const { row, column, si, before, f } of cells) {
      if (f === before && !(si && parted.has(si))) continue;
      here[row] = { ...here[row], [column]: { f } };
    }
    moved[sheetId] = here;
  }
  return moved;
}
