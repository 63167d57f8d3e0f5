import type { Injector } from '@univerjs/core';
import { ISheetClipboardService, PREDEFINED_HOOK_NAME_COPY } from '@univerjs/preset-sheets-core';

export interface OwnCopy {
  /** The id of what was copied last from the cells, where a text from the clipboard is of it; undefined where it is not. */
  of(text: string): Promise<string | undefined>;
}

/** The attribute by which the library knows HTML of its own. */
const COPY_ID = /data-copy-id="([^\s"]+)"/;
const READING = 'clipboard-read' as PermissionName;

/**
 * Tells text of the cells that were copied last from text of other programs. A browser that pastes without looks hands over
 * nothing but text.
 */
export function rememberOwnCopy(injector: Injector): OwnCopy {
  const clipboard = injector.get(ISheetClipboardService);
  /** The text that went to the clipboard with a copy, and whether anybody may have copied something else since. */
  let last: { readonly id: string; readonly text: string; left: boolean } | undefined;
  const contentOf = clipboard.generateCopyContent.bind(clipboard);
  clipboard.generateCopyContent = (unitId, sheetId, range, options) => {
    const content = contentOf(unitId, sheetId, range, options);
    // formulas that were copied as such are text to their own cells, too
    const isOfFormulas = options?.copyHookType === PREDEFINED_HOOK_NAME_COPY.SPECIAL_COPY_FORMULA_ONLY;
    if (content) last = isOfFormulas ? undefined : { id: content.copyId, text: content.plain, left: false };
    return content;
  };
  addEventListener('blur', () => {
    if (last) last.left = true;
  });
  return {
    async of(text) {
      const kept = clipboard.copyContentCache();
      if (last === undefined || kept.getLastCopyId() !== last.id || !kept.get(last.id)?.matrix) return undefined;
      const { id, left } = last;
      if (lines(text) !== lines(last.text)) return undefined;
      const now = await idInClipboard(left);
      return now === id || (now === undefined && !left) ? id : undefined;
    },
  };
}

const lines = (text: string): string => text.replace(/\r\n?/g, '\n');

/**
 * The id of the copy that is in the clipboard, empty if it is of another program; undefined where the browser does not let the
 * page look.
 *
 * @param ask whether the person may be asked for leave to look
 */
async function idInClipboard(ask: boolean): Promise<string | undefined> {
  try {
    if (!ask && (await navigator.permissions.query({ name: READING })).state !== 'granted') return undefined;
    const found = (await navigator.clipboard.read()).find(({ types }) => types.includes('text/html'));
    const html = found === undefined ? '' : await (await found.getType('text/html')).text();
    return COPY_ID.exec(html)?.[1] ?? '';
  } catch {
    return undefined;
  }
}
