import { faultAt } from '../faults.ts';
import type { Grid } from './grid.ts';

const GAP = 16;

/** A small note of ours beside the pointer, with the words of the error in the cell under it. */
export function showMessagesOnHover(grid: Grid, container: HTMLElement): void {
  const tip = document.createElement('div');
  tip.className = 'nw-tip';
  tip.setAttribute('role', 'tooltip');
  tip.hidden = true;
  document.body.append(tip);
  let x = 0;
  let y = 0;

  const hide = () => {
    tip.hidden = true;
  };
  const place = () => {
    const left = Math.max(0, Math.min(x + GAP, innerWidth - tip.offsetWidth - GAP / 2));
    const below = y + GAP;
    const top = below + tip.offsetHeight > innerHeight ? y - GAP - tip.offsetHeight : below;
    tip.style.left = `${left}px`;
    tip.style.top = `${Math.max(0, top)}px`;
  };

  container.addEventListener('pointermove', (event) => {
    x = event.clientX;
    y = event.clientY;
    if (!tip.hidden) place();
  });
  container.addEventListener('pointerleave', hide);
  container.addEventListener('pointerdown', hide);
  container.addEventListener('wheel', hide, { passive: true });
  document.addEventListener('keydown', hide);
  grid.api.addEvent(grid.api.Event.CellHover, ({ worksheet, row, column }) => {
    const unitId = worksheet.getWorkbook().getUnitId();
    const found = faultAt(grid, { unitId, sheetId: worksheet.getSheetId(), row, column });
    if (found === undefined) {
      hide();
      return;
    }
    tip.textContent = `${found.code}  ${found.message}`;
    tip.hidden = false;
    place();
  });
}
