import { IEditorBridgeService, ILayoutService } from '@univerjs/preset-sheets-core';
import type { Grid } from './grid.ts';

/** Parts of the page that are ours: what else there is belongs to the grid, also where the library hangs it into the body. */
const OURS = '#nw-bar, #nw-charts, #nw-pane, .nw-skip';
/** What the library lays over the page and closes when the focus leaves it. */
const LAYERS = '[data-radix-popper-content-wrapper], [role="dialog"], [role="alertdialog"]';
/** Shown while the mouse rests on a button: takes no keys. */
const HINT = '[role="tooltip"]';
/** What happens when a menu, a list, a dialog or the renaming of a tab ends. */
const ENDINGS = ['focusout', 'keyup', 'pointerup', 'pointercancel', 'click'] as const;

/**
 * Gives the focus to the grid where the library drops it: after many of its menus, lists and dialogs nothing has it, and keys
 * do nothing until the next click. Only for a person who was in the grid's part of the page with a mouse or the keys: a finger
 * would get a keyboard on the screen.
 */
export function giveFocusBack(grid: Grid): void {
  let inGrid = false;
  let touched = false;
  let pressed = false;
  let due: ReturnType<typeof setTimeout> | undefined;

  const follow = ({ target }: Event) => {
    if (!(target instanceof Element) || target === document.body || target === document.documentElement) return;
    inGrid = target.closest(OURS) === null;
  };
  const mayFocus = () =>
    inGrid &&
    !touched &&
    !pressed &&
    nothingHasFocus() &&
    document.hasFocus() &&
    !layerIsOpen() &&
    !grid.injector.get(IEditorBridgeService).isVisible().visible;
  // After the turn: who means to take the focus has done so by then.
  const check = () => {
    if (!inGrid || !nothingHasFocus()) return;
    clearTimeout(due);
    due = setTimeout(() => mayFocus() && grid.injector.get(ILayoutService).focus());
  };

  addEventListener('focusin', follow, true);
  addEventListener(
    'pointerdown',
    (event) => {
      follow(event);
      touched = event.pointerType === 'touch';
      pressed = true;
    },
    true,
  );
  for (const kind of ['pointerup', 'pointercancel', 'dragend', 'blur']) {
    addEventListener(kind, () => (pressed = false), true);
  }
  // Browsers say nothing when the focus goes with what is taken out of the page.
  for (const kind of ENDINGS) addEventListener(kind, check, true);
  new MutationObserver(check).observe(document.body, { childList: true, subtree: true });
}

const nothingHasFocus = (): boolean => document.activeElement === null || document.activeElement === document.body;

const layerIsOpen = (): boolean =>
  [...document.querySelectorAll(LAYERS)].some((layer) => layer.checkVisibility() && layer.querySelector(HINT) === null);
