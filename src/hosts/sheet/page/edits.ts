import { type Block, MOST_COLUMNS, MOST_ROWS } from '../../../workbook/address.ts';
import {
  editsOf,
  movedBlocks,
  movedCells,
  movedLines,
  movedReference,
  type SheetEdit,
} from '../../../workbook/edits.ts';
import type { SheetExtras } from '../../../workbook/extras.ts';
import { movedFormula } from '../../../workbook/moved-formula.ts';
import type { Grid } from './grid.ts';
import { moveEdit } from './moves.ts';

export interface Edits {
  /** what was done to rows, columns, cells and names of sheets since the workbook was opened, in order; not what was undone */
  readonly done: readonly SheetEdit[];
  /** names of sheets on which cells alone were moved to other places: nothing but cells follows that */
  readonly rearranged: ReadonlySet<string>;
  forget(): void;
}

interface Params {
  readonly unitId?: string;
  readonly subUnitId?: string;
  readonly range?: Block;
  readonly name?: string;
  readonly fromRange?: Block;
  readonly toRange?: Block;
  /** whole rows or columns that move, and those in front of which they come to stand */
  readonly sourceRange?: Block;
  readonly targetRange?: Block;
  /** the sheet to which cells are moved */
  readonly to?: { readonly subUnitId?: string };
  /** a sheet that is put in, and its place */
  readonly sheet?: { readonly id?: string; readonly name?: string };
  readonly index?: number;
  /** the command that does it */
  readonly trigger?: string;
}

type Kind = { readonly kind: 'insert' | 'remove'; readonly axis: 'row' | 'column' };

/** Commands that put cells in or take cells out, and let those beside them give way: to the grid they are moves. */
const OF_CELLS: Readonly<Record<string, Kind>> = {
  'sheet.command.insert-range-move-down': { kind: 'insert', axis: 'row' },
  'sheet.command.delete-range-move-up': { kind: 'remove', axis: 'row' },
  'sheet.command.insert-range-move-right': { kind: 'insert', axis: 'column' },
  'sheet.command.delete-range-move-left': { kind: 'remove', axis: 'column' },
};
const OF_LINES: Readonly<Record<string, Kind>> = {
  'sheet.mutation.insert-row': { kind: 'insert', axis: 'row' },
  'sheet.mutation.remove-rows': { kind: 'remove', axis: 'row' },
  'sheet.mutation.insert-col': { kind: 'insert', axis: 'column' },
  'sheet.mutation.remove-col': { kind: 'remove', axis: 'column' },
};
const MOVES_CELLS = 'sheet.mutation.move-range';
const MOVES_LINES: Readonly<Record<string, 'row' | 'column'>> = {
  'sheet.mutation.move-rows': 'row',
  'sheet.mutation.move-columns': 'column',
};
const RENAMES = 'sheet.mutation.set-worksheet-name';
const PUTS_IN_A_SHEET = 'sheet.mutation.insert-sheet';
const TAKES_OUT_A_SHEET = 'sheet.mutation.remove-sheet';
const COPIES_A_SHEET = 'sheet.command.copy-sheet';
const UNDO = 'univer.command.undo';
/** What undoes a step, where that is not another one of its kind. */
const UNDONE_BY: Readonly<Record<string, string>> = {
  'sheet.mutation.insert-row': 'sheet.mutation.remove-rows',
  'sheet.mutation.remove-rows': 'sheet.mutation.insert-row',
  'sheet.mutation.insert-col': 'sheet.mutation.remove-col',
  'sheet.mutation.remove-col': 'sheet.mutation.insert-col',
  [PUTS_IN_A_SHEET]: TAKES_OUT_A_SHEET,
  [TAKES_OUT_A_SHEET]: PUTS_IN_A_SHEET,
};

/** One step of the grid, and what to go back to when it is undone. */
interface Step {
  readonly id: string;
  readonly edit?: SheetEdit | undefined;
  /** id of the sheet that it rearranges */
  readonly rearranges?: string | undefined;
  readonly before: ReadonlyMap<string, SheetExtras>;
}

/** Keeps lists and charts at their cells while rows, columns and cells come and go and sheets get other names. */
export function followEdits(grid: Grid): Edits {
  let steps: Step[] = [];
  const names = new Map<string, string>();
  /** Of steps that put cells in or take cells out, what they are: they come again as they were when they are repeated. */
  const known = new WeakMap<object, SheetEdit | 'room'>();
  const learnNames = (): void => {
    names.clear();
    for (const sheet of grid.api.getActiveWorkbook()?.getSheets() ?? [])
      names.set(sheet.getSheetId(), sheet.getSheetName());
  };
  learnNames();
  const take = (step: Omit<Step, 'before'>): void => {
    steps.push({ ...step, before: new Map(grid.extras) });
    const { edit } = step;
    if (edit === undefined) return;
    for (const [id, extras] of grid.extras) grid.extras.set(id, movedExtras(extras, names.get(id) ?? '', edit));
  };
  const takeBack = (): void => {
    for (const [id, extras] of steps.pop()?.before ?? []) grid.extras.set(id, extras);
  };
  /** What a step does to rows, columns or cells. Cells that give way to others may need room below or beside all of them. */
  const shiftOf = (id: string, params: Params, sheet: string): SheetEdit | 'room' | undefined => {
    const before = known.get(params);
    if (before !== undefined) return before;
    const ofCells = OF_CELLS[params.trigger ?? ''];
    const ofLines = OF_LINES[id];
    const { range, fromRange, toRange, sourceRange, targetRange } = params;
    const ofMove = MOVES_LINES[id];
    if (ofMove !== undefined) return sourceRange && targetRange && moveEdit(ofMove, sheet, sourceRange, targetRange);
    if (ofCells !== undefined && (ofLines !== undefined || (fromRange !== undefined && toRange !== undefined))) {
      const edit = ofLines === undefined ? cellsEdit(ofCells, sheet, fromRange as Block, toRange as Block) : 'room';
      known.set(params, edit);
      return edit;
    }
    if (ofLines === undefined || range === undefined) return undefined;
    const [at, end] = ofLines.axis === 'row' ? [range.startRow, range.endRow] : [range.startColumn, range.endColumn];
    return { ...ofLines, sheet, at, count: end - at + 1 };
  };
  const done = (): SheetEdit[] => steps.flatMap(({ edit }) => edit ?? []);
  /** What a sheet has beside its cells, for a copy of it, which stands behind it. */
  const copyExtras = ({ sheet, index = 0 }: Params): void => {
    const source = grid.api.getActiveWorkbook()?.getSheets()[index - 1];
    const { id, name } = sheet ?? {};
    if (source === undefined || id === undefined || name === undefined) return;
    const before = source.getSheetName();
    const copied: SheetEdit = { kind: 'rename', sheet: before, to: name };
    const extras = grid.extras.get(source.getSheetId());
    if (extras !== undefined) grid.extras.set(id, movedExtras(extras, before, copied));
    const origin = grid.origins.get(source.getSheetId());
    const all = done();
    if (origin !== undefined)
      grid.origins.set(id, {
        ...origin,
        edits: [...origin.edits, ...all.slice(origin.since), copied],
        since: all.length,
      });
  };
  grid.api.addEvent(grid.api.Event.CommandExecuted, ({ id, params }) => {
    // heard of with every key: asking for the open workbook takes longer than most of them
    const ofSheets = id === PUTS_IN_A_SHEET || id === TAKES_OUT_A_SHEET;
    const ofLines = OF_LINES[id] !== undefined || MOVES_LINES[id] !== undefined;
    const follows = ofLines || id === MOVES_CELLS || id === RENAMES || ofSheets;
    const renamesSheets = id.startsWith('sheet.mutation.') && /-sheet$|worksheet-name$/.test(id);
    if (!follows && !renamesSheets) return;
    const given: Params = params ?? {};
    const { unitId = '', to, subUnitId = to?.subUnitId ?? '', name, trigger } = given;
    if (unitId !== grid.api.getActiveWorkbook()?.getId()) return;
    const sheet = names.get(subUnitId);
    const last = steps.at(-1)?.id ?? '';
    if (follows && trigger === UNDO && id === (UNDONE_BY[last] ?? last)) takeBack();
    else if (ofSheets)
      // one that is put in is a step for its undo alone
      take({ id, edit: id === TAKES_OUT_A_SHEET && sheet !== undefined ? { kind: 'drop', sheet } : undefined });
    else if (follows && sheet !== undefined) {
      const shift = shiftOf(id, given, sheet);
      if (shift !== undefined) take({ id, edit: shift === 'room' ? undefined : shift });
      else if (id === MOVES_CELLS) take({ id, rearranges: subUnitId });
      else if (name !== undefined) take({ id, edit: { kind: 'rename', sheet, to: name } });
    }
    if (renamesSheets) learnNames();
    if (id === PUTS_IN_A_SHEET && trigger === COPIES_A_SHEET) copyExtras(given);
  });
  return {
    get done() {
      return done();
    },
    get rearranged() {
      return new Set(steps.flatMap(({ rearranges }) => names.get(rearranges ?? '') ?? []));
    },
    forget() {
      steps = [];
      learnNames();
    },
  };
}

/** Cells that came or went, by the move of those that give way. */
function cellsEdit({ kind, axis }: Kind, sheet: string, from: Block, to: Block): SheetEdit {
  const rows = axis === 'row';
  const [a, b] = rows ? [from.startRow, to.startRow] : [from.startColumn, to.startColumn];
  const across = rows ? { first: from.startColumn, last: from.endColumn } : { first: from.startRow, last: from.endRow };
  return { kind, axis, sheet, at: Math.min(a, b), count: Math.abs(a - b), across };
}

/** What a sheet has beside its cells, after an edit of it or of another one. */
function movedExtras(extras: SheetExtras, sheet: string, edit: SheetEdit): SheetExtras {
  const own = editsOf([edit], sheet);
  const { repeat, repeatColumns } = extras.print;
  const rows = { startColumn: 0, endColumn: MOST_COLUMNS - 1 };
  const repeated = repeat && movedBlocks({ ...rows, startRow: repeat.first, endRow: repeat.last }, own);
  const columns = { startRow: 0, endRow: MOST_ROWS - 1 };
  const beside =
    repeatColumns && movedBlocks({ ...columns, startColumn: repeatColumns.first, endColumn: repeatColumns.last }, own);
  const reference = (text: string): string => movedReference(text, [edit]);
  return {
    lists: extras.lists.map((list) => ({
      ...list,
      blocks: list.blocks.flatMap((block) => movedCells(block, own)),
      from: typeof list.from === 'string' ? movedFormula(list.from, sheet, [edit]) : list.from,
    })),
    charts: extras.charts.map((chart) => ({
      ...chart,
      series: chart.series.map((line) => ({
        ...line,
        name: reference(line.name),
        values: reference(line.values),
        categories: line.categories === undefined ? undefined : reference(line.categories),
      })),
    })),
    print: {
      ...extras.print,
      areas: extras.print.areas.flatMap((area) => movedBlocks(area, own) ?? []),
      repeat: repeated && { first: repeated.startRow, last: repeated.endRow },
      repeatColumns: beside && { first: beside.startColumn, last: beside.endColumn },
      breaks: movedLines(extras.print.breaks, 'row', own),
      columnBreaks: movedLines(extras.print.columnBreaks, 'column', own),
    },
  };
}
