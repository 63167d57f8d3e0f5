import { ILayoutService } from '@univerjs/preset-sheets-core';
import { isBlank } from '../../../tables/cells.ts';
import { parseBlock, spotName } from '../../../workbook/address.ts';
import type { ListRule } from '../../../workbook/extras.ts';
import { partsOf } from '../faults.ts';
import { rangeCells } from '../range.ts';
import type { Bar } from './bar.ts';
import { isOfAPerson } from './changes.ts';
import type { Grid } from './grid.ts';

/** Choices above this number are a range given by mistake. */
const MOST_CHOICES = 2_000;
const OPEN_KEY = 'ArrowDown';

/**
 * A small card in the corner of the grid with the list of the selected cell, where the workbook has one for it. Alt+Down
 * goes to the list; Enter or a click puts the choice into the cell, Escape goes back without one.
 */
export function offerLists(grid: Grid, area: HTMLElement): void {
  const card = document.createElement('div');
  card.className = 'nw-pick';
  card.hidden = true;
  const label = document.createElement('label');
  const select = document.createElement('select');
  const hint = document.createElement('p');
  const name = document.createElement('span');
  label.append(name, select);
  card.append(label, hint);
  area.append(card);

  const cell = () => grid.api.getActiveWorkbook()?.getActiveSheet().getActiveCell() ?? undefined;
  const backToGrid = () => grid.injector.get(ILayoutService).focus();

  function ruleHere(): ListRule | undefined {
    const at = cell();
    return at && ruleAt(grid, at.getSheetId(), at.getRow(), at.getColumn());
  }

  function draw(): void {
    if (card.contains(document.activeElement)) return;
    const rule = ruleHere();
    const at = cell();
    card.hidden = rule === undefined || at === undefined;
    if (rule === undefined || at === undefined) return;
    const place = { unitId: at.getUnitId(), sheetId: at.getSheetId(), row: at.getRow(), column: at.getColumn() };
    const held = grid.reader.cellAt(place);
    const now = isBlank(held) || typeof held === 'object' ? '' : String(held);
    const choices = choicesOf(grid, rule);
    name.textContent = `${rule.title || 'Choices'}, ${at.getA1Notation()} (Alt+↓)`;
    const list = placeOf(grid, rule);
    hint.textContent =
      `${rule.message}${list === undefined ? '' : ` The list is ${list}: type a new entry there.`}`.trim();
    const listed = ['', ...(now !== '' && !choices.includes(now) ? [now] : []), ...choices];
    select.replaceChildren(
      ...listed.map((choice) => {
        const option = new Option(choice === '' ? '(blank)' : choice, choice);
        option.selected = choice === now;
        return option;
      }),
    );
  }

  const put = () => {
    const text = select.value;
    cell()?.setValue({ v: text === '' ? null : text, f: null, si: null, p: null });
    backToGrid();
  };
  let byPointer = false;
  select.addEventListener('pointerdown', () => {
    byPointer = true;
  });
  select.addEventListener('change', () => {
    if (byPointer) put();
  });
  select.addEventListener('keydown', (event) => {
    byPointer = false;
    event.stopPropagation();
    if (event.key === 'Enter') {
      event.preventDefault();
      put();
    } else if (event.key === 'Escape') backToGrid();
  });
  select.addEventListener('blur', () => setTimeout(draw));
  addEventListener(
    'keydown',
    (event) => {
      if (card.hidden || !event.altKey || event.key !== OPEN_KEY || card.contains(event.target as Node)) return;
      event.preventDefault();
      event.stopPropagation();
      select.focus();
    },
    true,
  );
  const later = () => setTimeout(draw);
  for (const event of [grid.api.Event.SelectionChanged, grid.api.Event.ActiveSheetChanged])
    grid.api.addEvent(event, later);
  grid.messages.onChange(later);
}

function ruleAt(grid: Grid, sheetId: string, row: number, column: number): ListRule | undefined {
  return grid.extras
    .get(sheetId)
    ?.lists.find(({ blocks }) =>
      blocks.some(
        (block) =>
          row >= block.startRow && row <= block.endRow && column >= block.startColumn && column <= block.endColumn,
      ),
    );
}

/** Entries that are looked at after one change: a table that was pasted may be long. */
const MOST_LOOKED_AT = 2_000;

/**
 * Says so when what was typed or pasted is not in the list of its cell, until the next edit. It stays: a list may be short of
 * a name that a table will have in a moment, and the functions say what they cannot take.
 */
export function watchLists(grid: Grid, { say, unsay }: Pick<Bar, 'say' | 'unsay'>): void {
  let strangers: string[] = [];
  let said = '';
  let waits = false;
  // one edit may come in several parts
  const tell = (): void => {
    waits = false;
    unsay(said);
    const [first] = strangers;
    if (first !== undefined) {
      said = strangers.length > 1 ? `${strangers.length} entries are not in their lists. ${first}` : first;
      say(said);
    }
    strangers = [];
  };
  grid.api.addEvent(grid.api.Event.CommandExecuted, (done) => {
    if (!isOfAPerson(done)) return;
    if (done.id === 'sheet.mutation.set-range-values') strangers.push(...strangersIn(grid, done.params ?? {}));
    if (!waits) setTimeout(tell);
    waits = true;
  });
}

/** What to do about each entry of an edit that is not in the list of its cell. */
function strangersIn(grid: Grid, { subUnitId = '', cellValue = {} }: CellEdit): string[] {
  const found: string[] = [];
  let looked = 0;
  for (const [row, cells] of Object.entries(cellValue)) {
    for (const [column, cell] of Object.entries(cells ?? {})) {
      if (cell?.v === undefined || cell.v === null || cell.v === '' || cell.f) continue;
      if (++looked > MOST_LOOKED_AT) return found;
      const rule = ruleAt(grid, subUnitId, Number(row), Number(column));
      if (rule === undefined || rule.free) continue;
      const text = String(cell.v).trim().toLowerCase();
      if (choicesOf(grid, rule).some((choice) => choice.trim().toLowerCase() === text)) continue;
      const spot = `${spotName(Number(row), Number(column))} (${String(cell.v)})`;
      const place = placeOf(grid, rule);
      const add = place === undefined ? '' : `, or add it to ${place}`;
      found.push(`Not in its list: ${spot}. Pick with Alt+↓${add}.`);
    }
  }
  return found;
}

interface CellEdit {
  readonly subUnitId?: string;
  readonly cellValue?: Record<string, Record<string, { readonly v?: unknown; readonly f?: unknown } | null> | null>;
}

/** The cells that hold a list, such as Parts!P5:P44; undefined for a list of its own, and for one on a sheet that is not seen. */
function placeOf(grid: Grid, { from }: ListRule): string | undefined {
  const place = typeof from === 'string' ? rangeOf(grid, from).replaceAll('$', '') : '';
  const { sheetName, cell } = partsOf(place);
  const sheet = grid.api.getActiveWorkbook()?.getSheetByName(sheetName);
  return sheet?.isSheetHidden() === false && parseBlock(cell) !== undefined ? place : undefined;
}

/** The address that a defined name stands for, or the address itself. */
function rangeOf(grid: Grid, from: string): string {
  const named = grid.api
    .getActiveWorkbook()
    ?.getDefinedNames()
    .find((candidate) => candidate.getName().toLowerCase() === from.toLowerCase());
  return named?.getFormulaOrRefString().replace(/^=/, '') ?? from;
}

/** The texts of a list: its own, or those of the range or defined name that it points at, blanks left out. */
function choicesOf(grid: Grid, { from }: ListRule): readonly string[] {
  if (typeof from !== 'string') return from;
  const texts = rangeCells(grid, rangeOf(grid, from))
    .flat()
    .flatMap((cell) => (isBlank(cell) || typeof cell === 'object' ? [] : [String(cell)]));
  return [...new Set(texts)].slice(0, MOST_CHOICES);
}
