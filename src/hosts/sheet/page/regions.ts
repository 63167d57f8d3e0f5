import { ICommandService } from '@univerjs/core';
import {
  DeviceInputEventType,
  IEditorBridgeService,
  ILayoutService,
  SetCellEditVisibleOperation,
} from '@univerjs/preset-sheets-core';
import type { Grid } from './grid.ts';

const KEY = 'F6';
const FOCUSABLE = 'button, input, select, textarea, summary, a[href], [tabindex="0"]';
/** Where the library types into cells and into its formula bar, by the begin of the id; without a name for screen readers. */
const EDITORS = [
  ['__editor___INTERNAL_EDITOR__DOCS_NORMAL', 'Cell'],
  ['__editor___INTERNAL_EDITOR__DOCS_FORMULA_BAR', 'Formula bar'],
] as const;

/** One part of the page that F6 goes to. */
interface Region {
  readonly selector: string;
  /** the name of what the library left without one */
  readonly name?: string;
  readonly isGrid?: true;
  readonly isPane?: true;
}

/** In the order of the page. Of two that hold an element the inner one counts, so the grid is what is left of its page. */
const REGIONS: readonly Region[] = [
  { selector: '#nw-bar' },
  { selector: '#nw-sheet [data-u-comp="headerbar"]', name: 'Toolbar of the grid' },
  { selector: '#nw-sheet [data-u-comp="formula-bar"]', name: 'Formula bar' },
  { selector: '#nw-grid', name: 'Cells', isGrid: true },
  { selector: '#nw-charts' },
  { selector: '#nw-pane', isPane: true },
];

/**
 * F6 goes to the next part of the page and Shift+F6 to the one before, from wherever the focus is: no other key leaves the
 * grid. What is being typed into a cell is finished first. Each part is entered where it was left.
 *
 * @param showPane where a narrow window has room for one of the two: shows the pane, or the grid
 */
export function walkRegions(grid: Grid, showPane: (shown: boolean) => void): void {
  const left = new Map<Region, HTMLElement>();
  addEventListener('focusin', ({ target }) => {
    if (!(target instanceof HTMLElement)) return;
    nameEditor(target);
    const region = regionOf(target);
    if (region !== undefined) left.set(region, target);
  });
  addEventListener(
    'keydown',
    (event) => {
      // Input methods have a use of their own for this key while a word is composed.
      if (event.key !== KEY || event.isComposing || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      const step = event.shiftKey ? -1 : 1;
      const from = regionOf(document.activeElement);
      void finishEntry(grid).then(() => leave(from, step));
    },
    true,
  );
  nameParts();
  if (document.activeElement instanceof HTMLElement) nameEditor(document.activeElement);

  function leave(from: Region | undefined, step: number): void {
    nameParts();
    const count = REGIONS.length;
    const start = from === undefined ? (step > 0 ? -1 : count) : REGIONS.indexOf(from);
    for (let i = 1; i <= count; i++) {
      const region = REGIONS[(start + step * i + 2 * count) % count];
      if (region !== undefined && region !== from && enter(region)) return;
    }
  }

  function enter(region: Region): boolean {
    const element = document.querySelector<HTMLElement>(region.selector);
    if (element === null || element.hidden) return false;
    const bar = region.selector === '#nw-bar';
    if (!bar) showPane(region.isPane === true);
    if (region.isGrid) {
      grid.injector.get(ILayoutService).focus();
      return true;
    }
    const before = left.get(region);
    const places = [...(before ? [before] : []), ...element.querySelectorAll<HTMLElement>(FOCUSABLE)];
    const place = places.find((candidate) => canFocus(candidate) && regionOf(candidate) === region);
    place?.focus();
    return place !== undefined && place === document.activeElement;
  }
}

function regionOf(element: Element | null): Region | undefined {
  const holds = REGIONS.filter(({ selector }) => element?.closest(selector));
  return holds.find(({ isGrid }) => !isGrid) ?? holds[0];
}

function canFocus(element: HTMLElement): boolean {
  return (
    element.isConnected &&
    element.tabIndex >= 0 &&
    !element.matches(':disabled') &&
    element.checkVisibility({ visibilityProperty: true })
  );
}

/** Puts what is being typed into its cell, and stays there: other keys that finish an entry go on to another cell. */
export async function finishEntry(grid: Grid): Promise<void> {
  if (!grid.injector.get(IEditorBridgeService).isVisible().visible) return;
  await grid.injector.get(ICommandService).executeCommand(SetCellEditVisibleOperation.id, {
    visible: false,
    eventType: DeviceInputEventType.PointerDown,
    unitId: grid.api.getActiveWorkbook()?.getId(),
  });
  // The library gives the focus back to the grid behind the entry.
  await new Promise((done) => setTimeout(done));
}

/** The library draws its parts when it gets to it, and again: what has a name keeps it. */
function nameParts(): void {
  for (const { selector, name } of REGIONS) {
    const element = name === undefined ? null : document.querySelector(selector);
    if (name === undefined || element === null || element.hasAttribute('aria-label')) continue;
    element.setAttribute('role', 'region');
    element.setAttribute('aria-label', name);
  }
}

function nameEditor(element: HTMLElement): void {
  const name = EDITORS.find(([id]) => element.id.startsWith(id))?.[1];
  if (name === undefined || element.hasAttribute('aria-label')) return;
  element.setAttribute('role', 'textbox');
  element.setAttribute('aria-label', name);
  element.setAttribute('aria-description', 'F6 and Shift+F6 leave the grid');
}
