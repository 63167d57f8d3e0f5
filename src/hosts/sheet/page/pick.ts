import { ILayoutService } from '@univerjs/preset-sheets-core';
import { isBlank } from '../../../tables/cells.ts';
import type { ListRule } from '../../../workbook/extras.ts';
import { rangeCells } from '../range.ts';
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
    if (at === undefined) return undefined;
    const [row, column] = [at.getRow(), at.getColumn()];
    return grid.extras
      .get(at.getSheetId())
      ?.lists.find(({ blocks }) =>
        blocks.some(
          (block) =>
            row >= block.startRow && row <= block.endRow && column >= block.startColumn && column <= block.endColumn,
        ),
      );
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
    hint.textContent = rule.message;
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

/** The texts of a list: its own, or those of the range or defined name that it points at, blanks left out. */
function choicesOf(grid: Grid, { from }: ListRule): readonly string[] {
  if (typeof from !== 'string') return from;
  const named = grid.api
    .getActiveWorkbook()
    ?.getDefinedNames()
    .find((candidate) => candidate.getName().toLowerCase() === from.toLowerCase());
  const range = named?.getFormulaOrRefString().replace(/^=/, '') ?? from;
  const texts = rangeCells(grid, range)
    .flat()
    .flatMap((cell) => (isBlank(cell) || typeof cell === 'object' ? [] : [String(cell)]));
  return [...new Set(texts)].slice(0, MOST_CHOICES);
}
