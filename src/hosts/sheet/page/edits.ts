import { MOST_COLUMNS } from '../../../workbook/address.ts';
import { editsOf, movedBlocks, movedReference, type SheetEdit } from '../../../workbook/edits.ts';
import type { SheetExtras } from '../../../workbook/extras.ts';
import type { Grid } from './grid.ts';

export interface Edits {
  /** what was done to rows, columns and names of sheets since the workbook was opened, in order */
  readonly done: readonly SheetEdit[];
  /** sheets on which rows, columns or cells changed places, by their names: nothing but cells follows that */
  readonly rearranged: ReadonlySet<string>;
  forget(): void;
}

interface Params {
  readonly unitId?: string;
  readonly subUnitId?: string;
  readonly range?: {
    readonly startRow: number;
    readonly endRow: number;
    readonly startColumn: number;
    readonly endColumn: number;
  };
  readonly name?: string;
  /** the sheet to which cells are moved */
  readonly to?: { readonly subUnitId?: string };
}

const SHIFTS: Readonly<Record<string, { readonly kind: 'insert' | 'remove'; readonly axis: 'row' | 'column' }>> = {
  'sheet.mutation.insert-row': { kind: 'insert', axis: 'row' },
  'sheet.mutation.remove-rows': { kind: 'remove', axis: 'row' },
  'sheet.mutation.insert-col': { kind: 'insert', axis: 'column' },
  'sheet.mutation.remove-col': { kind: 'remove', axis: 'column' },
};
const REARRANGES = new Set(['sheet.mutation.move-rows', 'sheet.mutation.move-columns', 'sheet.mutation.move-range']);
const RENAMES = 'sheet.mutation.set-worksheet-name';

/** Keeps lists and charts at their cells while rows and columns come and go and sheets get other names. */
export function followEdits(grid: Grid): Edits {
  let done: SheetEdit[] = [];
  const rearranged = new Set<string>();
  const names = new Map<string, string>();
  const learnNames = (): void => {
    names.clear();
    for (const sheet of grid.api.getActiveWorkbook()?.getSheets() ?? [])
      names.set(sheet.getSheetId(), sheet.getSheetName());
  };
  learnNames();
  const take = (edit: SheetEdit): void => {
    done.push(edit);
    for (const [id, extras] of grid.extras) grid.extras.set(id, movedExtras(extras, names.get(id) ?? '', edit));
  };
  grid.api.addEvent(grid.api.Event.CommandExecuted, ({ id, params }) => {
    // heard of with every key: asking for the open workbook takes longer than most of them
    const shift = SHIFTS[id];
    const renamesSheets = id.startsWith('sheet.mutation.') && /-sheet$|worksheet-name$/.test(id);
    if (shift === undefined && !REARRANGES.has(id) && id !== RENAMES && !renamesSheets) return;
    const { unitId = '', to, subUnitId = to?.subUnitId ?? '', range, name }: Params = params ?? {};
    if (unitId !== grid.api.getActiveWorkbook()?.getId()) return;
    const sheet = names.get(subUnitId);
    if (shift !== undefined && range !== undefined && sheet !== undefined) {
      const [at, end] = shift.axis === 'row' ? [range.startRow, range.endRow] : [range.startColumn, range.endColumn];
      take({ ...shift, sheet, at, count: end - at + 1 });
    } else if (REARRANGES.has(id) && sheet !== undefined) rearranged.add(sheet);
    else if (id === RENAMES && sheet !== undefined && name !== undefined) {
      take({ kind: 'rename', sheet, to: name });
      if (rearranged.delete(sheet)) rearranged.add(name);
    }
    if (renamesSheets) learnNames();
  });
  return {
    get done() {
      return done;
    },
    rearranged,
    forget() {
      done = [];
      rearranged.clear();
      learnNames();
    },
  };
}

/** What a sheet has beside its cells, after an edit of it or of another one. */
function movedExtras(extras: SheetExtras, sheet: string, edit: SheetEdit): SheetExtras {
  const own = edit.kind === 'rename' ? [] : editsOf([edit], sheet);
  const { repeat } = extras.print;
  const rows = { startColumn: 0, endColumn: MOST_COLUMNS - 1 };
  const repeated = repeat && movedBlocks({ ...rows, startRow: repeat.first, endRow: repeat.last }, own);
  const reference = (text: string): string => movedReference(text, [edit]);
  return {
    lists: extras.lists.map((list) => ({
      ...list,
      blocks: list.blocks.flatMap((block) => movedBlocks(block, own) ?? []),
      from: typeof list.from === 'string' ? reference(list.from) : list.from,
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
      area: extras.print.area && movedBlocks(extras.print.area, own),
      repeat: repeated && { first: repeated.startRow, last: repeated.endRow },
    },
  };
}
