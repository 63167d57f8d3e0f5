import { CellAlertManagerService } from '@univerjs/preset-sheets-core';
import type { FWorksheet } from '@univerjs/sheets/facade';
import { faultAt } from '../faults.ts';
import type { Grid } from './grid.ts';
import { hiddenNumber } from './narrow-numbers.ts';

const GAP = 16;
/** The library's own note on an error says only its kind; ours stands in its place. */
const LIBRARYS_NOTE = 'SHEET_FORMULA_ALERT';

/**
 * A small note of ours beside the pointer: the words of the error in the cell under it, or the number that the cell is too narrow
 * for. A finger points at nothing before it taps: its note stays from the tap to the next one, or to a swipe.
 */
export function showMessagesOnHover(grid: Grid, container: HTMLElement): void {
  silenceLibrary(grid);
  const tip = document.createElement('div');
  tip.className = 'nw-tip';
  tip.setAttribute('role', 'tooltip');
  tip.hidden = true;
  document.body.append(tip);
  let words = '';
  let x = 0;
  let y = 0;
  let tapped = false;

  const hide = () => {
    tip.hidden = true;
  };
  const show = () => {
    if (words === '') return;
    tip.textContent = words;
    tip.hidden = false;
    const left = Math.max(0, Math.min(x + GAP, innerWidth - tip.offsetWidth - GAP / 2));
    const below = y + GAP;
    const top = below + tip.offsetHeight > innerHeight ? y - GAP - tip.offsetHeight : below;
    tip.style.left = `${left}px`;
    tip.style.top = `${Math.max(0, top)}px`;
  };

  const showNote = (worksheet: FWorksheet, row: number, column: number) => {
    const unitId = worksheet.getWorkbook().getUnitId();
    const found = faultAt(grid, { unitId, sheetId: worksheet.getSheetId(), row, column });
    words = found === undefined ? (hiddenNumber(grid, row, column) ?? '') : `${found.code}  ${found.message}`;
    if (words === '') hide();
    else show();
  };

  container.addEventListener('pointermove', (event) => {
    if (isFinger(event)) return hide();
    x = event.clientX;
    y = event.clientY;
    show();
  });
  container.addEventListener('pointerleave', (event) => {
    // a finger that is lifted leaves as well
    if (!isFinger(event)) hide();
  });
  // in front of all others: a swipe is kept from the container, and the library tells of the cell of a tap before the container hears
  addEventListener(
    'pointerdown',
    (event) => {
      hide();
      tapped = isFinger(event);
      x = event.clientX;
      y = event.clientY;
    },
    true,
  );
  container.addEventListener('wheel', hide, { passive: true });
  document.addEventListener('keydown', hide);
  grid.messages.onChange(() => {
    words = '';
    hide();
  });
  const { Event } = grid.api;
  grid.api.addEvent(Event.CellHover, ({ worksheet, row, column }) => showNote(worksheet, row, column));
  grid.api.addEvent(Event.CellPointerDown, ({ worksheet, row, column }) => {
    if (tapped) showNote(worksheet, row, column);
  });
  grid.api.addEvent(Event.SheetEditStarted, hide);
}

const isFinger = ({ pointerType }: PointerEvent): boolean => pointerType === 'touch';

function silenceLibrary(grid: Grid): void {
  const alerts = grid.injector.get(CellAlertManagerService);
  const showAlert = alerts.showAlert.bind(alerts);
  alerts.showAlert = (alert) => {
    if (alert.key !== LIBRARYS_NOTE) showAlert(alert);
  };
}
