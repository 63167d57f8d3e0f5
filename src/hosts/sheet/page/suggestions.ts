import type { Injector } from '@univerjs/core';
import {
  IDescriptionService,
  IEditorService,
  type IShortcutItem,
  IShortcutService,
} from '@univerjs/preset-sheets-core';

/** What the library calls the keys of its list of suggestions; the id of the editor stands behind it. */
const LIST_KEYS = 'sheet.formula-embedding-editor.search_function.';
/** Keys by their codes that take the marked suggestion. */
const ENTER = 13;
const TAB = 9;
const WORD_BEFORE = /[\p{L}\p{N}_.]*$/u;
const WORD_BEHIND = /^[\p{L}\p{N}_.]*/u;

/** What stands in the editor of a formula, and where the cursor is. */
interface Standing {
  readonly text: string;
  readonly at: number;
}

/**
 * Lets Enter and Tab take a suggestion only where the list was made for the word at the cursor as it stands now. The
 * library looks for suggestions a third of a second after the last key, and Enter would put the first one of an older list
 * in place of the function that was typed meanwhile. Where the list is older, the entry is finished as it was typed.
 */
export function guardSuggestions(injector: Injector): void {
  const descriptions = injector.get(IDescriptionService);
  const editors = injector.get(IEditorService);
  const shortcuts = injector.get(IShortcutService);
  const standing = (editorId: string | undefined): Standing | undefined => {
    const editor = editorId === undefined ? editors.getFocusEditor() : editors.getEditor(editorId);
    const [selection, another] = editor?.getSelectionRanges() ?? [];
    if (!editor || !selection?.collapsed || another !== undefined) return undefined;
    return { text: editor.getDocumentData().body?.dataStream ?? '', at: selection.startOffset };
  };

  /** The search before, of which the next list comes. */
  let searched: { readonly word: string; readonly standing: Standing | undefined } | undefined;
  const search = descriptions.getSearchListByNameFirstLetter.bind(descriptions);
  descriptions.getSearchListByNameFirstLetter = (word) => {
    searched = { word, standing: standing(undefined) };
    return search(word);
  };

  const register = shortcuts.registerShortcut.bind(shortcuts);
  shortcuts.registerShortcut = (item: IShortcutItem) => {
    if (!item.id.startsWith(LIST_KEYS) || (item.binding !== ENTER && item.binding !== TAB)) return register(item);
    // The keys are registered anew with each list: this is the search that it came from.
    const source = searched;
    const editorId = item.id.slice(LIST_KEYS.length);
    const mayTake = (): boolean => {
      const now = standing(editorId);
      const then = source?.standing;
      return now !== undefined && now.text === then?.text && now.at === then.at && isWordAt(source?.word ?? '', now);
    };
    return register({ ...item, preconditions: (context) => mayTake() && (item.preconditions?.(context) ?? true) });
  };
}

/** Whether the whole word at the cursor is this one, without the bracket of its arguments behind it. */
function isWordAt(word: string, { text, at }: Standing): boolean {
  const behind = text.slice(at);
  const rest = WORD_BEHIND.exec(behind)?.[0] ?? '';
  const whole = `${WORD_BEFORE.exec(text.slice(0, at))?.[0] ?? ''}${rest}`;
  return whole.toUpperCase() === word.trim().toUpperCase() && !/^\s*\(/.test(behind.slice(rest.length));
}
