import type { Grid } from './grid.ts';

/** Inputs that nothing is typed into: they have no undoing of their own. */
const NO_TEXT: ReadonlySet<string> = new Set([
  'button',
  'checkbox',
  'color',
  'file',
  'radio',
  'range',
  'reset',
  'submit',
]);

/**
 * Keys that people press wherever they are: Ctrl+Z and Ctrl+Y undo and redo in the grid, Ctrl+S saves. Fields of text have their
 * own undoing, and the grid's library acts by itself where the focus is in its parts.
 */
export function keysEverywhere(grid: Grid, save: () => void): void {
  addEventListener(
    'keydown',
    (event) => {
      if (event.defaultPrevented || event.isComposing || event.altKey || !(event.ctrlKey || event.metaKey)) return;
      const act = actionOf(event, grid, save);
      if (act === undefined || !mayAct(event.key, document.activeElement)) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      act();
    },
    true,
  );
}

function actionOf({ key, shiftKey }: KeyboardEvent, grid: Grid, save: () => void): (() => void) | undefined {
  switch (key.toLowerCase()) {
    case 's':
      return shiftKey ? undefined : save;
    case 'z':
      return () => void (shiftKey ? grid.api.redo() : grid.api.undo());
    case 'y':
      return shiftKey ? undefined : () => void grid.api.redo();
    default:
      return undefined;
  }
}

/** What is typed into a cell goes into the file as well, so saving is no matter of the field. */
function mayAct(key: string, focus: Element | null): boolean {
  return !isTextField(focus) || (key.toLowerCase() === 's' && focus?.closest('#nw-grid') !== null);
}

function isTextField(element: Element | null): boolean {
  if (element instanceof HTMLInputElement) return !NO_TEXT.has(element.type);
  return element instanceof HTMLTextAreaElement || (element instanceof HTMLElement && element.isContentEditable);
}
