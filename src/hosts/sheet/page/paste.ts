import type { Injector } from '@univerjs/core';
import type { FUniver } from '@univerjs/core/facade';
import { ISheetClipboardService } from '@univerjs/preset-sheets-core';
import { rowsOfText } from '../../../workbook/pasted-text.ts';

/** The parts of the library's clipboard that its types keep private. They hold for the pinned version. */
interface Clipboard {
  _pastePlainText(text: string, kind: string): Promise<boolean>;
  _pasteHTML(html: string, kind: string): Promise<boolean>;
}

/**
 * Pastes text with tabs or lines as the table that it is. The library puts it into one cell from its menu; by keyboard it
 * drops blank cells at its begin, cuts cells of several lines and takes text for HTML.
 */
export function pasteTables(api: FUniver, injector: Injector): void {
  const clipboard = injector.get(ISheetClipboardService) as unknown as Clipboard;
  const plain = clipboard._pastePlainText.bind(clipboard);
  clipboard._pastePlainText = (text, kind) =>
    isTable(text) ? clipboard._pasteHTML(htmlOf(text), kind) : plain(text, kind);
  api.addEvent(api.Event.BeforeCommandExecute, ({ id, params }) => {
    if (id !== 'sheet.command.paste-by-short-key') return;
    const given = params as { htmlContent?: string; textContent?: string; files?: unknown };
    if (given.htmlContent || given.files || !isTable(given.textContent ?? '')) return;
    given.htmlContent = htmlOf(given.textContent ?? '');
  });
}

const isTable = (text: string): boolean => /[\t\n]/.test(text);

function htmlOf(text: string): string {
  const cell = (value: string): string => `<td>${escaped(value).replaceAll('\n', '<br>')}</td>`;
  return `<table>${rowsOfText(text)
    .map((row) => `<tr>${row.map(cell).join('')}</tr>`)
    .join('')}</table>`;
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
