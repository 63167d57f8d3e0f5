import {
  CellValueType,
  cloneValue,
  getNumfmtParseValueFilter,
  type ICellData,
  type IMutationInfo,
  type Injector,
  IUniverInstanceService,
  isDefaultFormat,
  isFormulaString,
  isTextFormat,
  type Nullable,
  type ObjectMatrix,
  UniverInstanceType,
  type Workbook,
  type Worksheet,
  willLoseNumericPrecision,
} from '@univerjs/core';
import {
  type ICellDataWithSpanInfo,
  ISheetClipboardService,
  type ISheetDiscreteRangeLocation,
  PREDEFINED_HOOK_NAME_PASTE,
} from '@univerjs/preset-sheets-core';
import { SetRangeValuesMutation, SetRangeValuesUndoMutationFactory } from '@univerjs/sheets';
import { rowsOfText } from '../../../workbook/pasted-text.ts';
import { rememberOwnCopy } from './own-copy.ts';
import { saysNothingOfLooks } from './plain-html.ts';

/** The parts of the library's clipboard that its types keep private. They hold for the pinned version. */
interface Clipboard {
  _pastePlainText(text: string, kind: string): Promise<boolean>;
  _pasteHTML(html: string, kind: string): Promise<boolean>;
}

/** Our way of pasting, beside those of the library. */
const AS_TEXT = 'narrows-paste-text';
const { SPECIAL_PASTE_FORMAT, SPECIAL_PASTE_COL_WIDTH } = PREDEFINED_HOOK_NAME_PASTE;

/**
 * Pastes text with tabs or lines as the table that it is, into cells that keep their looks. The library puts it into one cell
 * from its menu; by keyboard it drops blank cells at its begin, cuts cells of several lines, takes text for HTML and gives
 * the cells the looks of a new sheet. So it does with a table of HTML that says nothing of looks, which other programs put
 * beside the text: then it is the text that is pasted.
 */
export function pasteTables(injector: Injector): void {
  const service = injector.get(ISheetClipboardService);
  service.addClipboardHook({
    id: AS_TEXT,
    // after the library's own, and before its formulas
    priority: 1,
    specialPasteInfo: { label: 'specialPaste.value' },
    onPasteCells: (_, to, cells) => cellsAsText(injector, to, cells),
    onPastePlainText: (to, text) => ownFormat(injector, to, text),
  });
  const clipboard = service as unknown as Clipboard;
  const plain = clipboard._pastePlainText.bind(clipboard);
  const takesText = (kind: string): boolean => kind !== SPECIAL_PASTE_FORMAT && kind !== SPECIAL_PASTE_COL_WIDTH;
  clipboard._pastePlainText = (text, kind) =>
    isTable(text) && takesText(kind) ? clipboard._pasteHTML(htmlOf(text), AS_TEXT) : plain(text, kind);
  const byKey = service.legacyPaste.bind(service);
  const ownCopy = rememberOwnCopy(injector);
  service.legacyPaste = async (html, text, files) => {
    if (files || !text || (html && !saysNothingOfLooks(html))) return byKey(html, text, files);
    const copied = html ? undefined : await ownCopy.of(text);
    // the text is what the cells show, which may be less than their values
    return copied === undefined
      ? clipboard._pastePlainText(text, PREDEFINED_HOOK_NAME_PASTE.DEFAULT_PASTE)
      : service.pasteByCopyId(copied, PREDEFINED_HOOK_NAME_PASTE.SPECIAL_PASTE_VALUE);
  };
  const byMenu = service.paste.bind(service);
  service.paste = async (item, kind = PREDEFINED_HOOK_NAME_PASTE.DEFAULT_PASTE) => {
    const [html, text] = await Promise.all([textOf(item, 'text/html'), textOf(item, 'text/plain')]);
    return text !== '' && saysNothingOfLooks(html) && takesText(kind)
      ? clipboard._pastePlainText(text, kind)
      : byMenu(item, kind);
  };
}

const textOf = async (item: ClipboardItem, type: string): Promise<string> =>
  item.types.includes(type) ? (await item.getType(type)).text() : '';

const isTable = (text: string): boolean => /[\t\n]/.test(text);

function htmlOf(text: string): string {
  const cell = (value: string): string => `<td>${escaped(value).replaceAll('\n', '<br>')}</td>`;
  return `<table>${rowsOfText(text)
    .map((row) => `<tr>${row.map(cell).join('')}</tr>`)
    .join('')}</table>`;
}

const escaped = (text: string): string => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');

interface Change {
  readonly redos: IMutationInfo[];
  readonly undos: IMutationInfo[];
}

/** Puts a table into cells as it would be typed; the formulas in it are the library's to put in. */
function cellsAsText(
  injector: Injector,
  to: ISheetDiscreteRangeLocation,
  cells: ObjectMatrix<ICellDataWithSpanInfo>,
): Change {
  const sheet = sheetOf(injector, to);
  const cellValue: Record<number, Record<number, ICellData>> = {};
  cells.forValue((atRow, atColumn, cell) => {
    const [row, column] = [to.range.rows[atRow], to.range.cols[atColumn]];
    if (row === undefined || column === undefined || isFormulaString(cell.v)) return;
    cellValue[row] ??= {};
    cellValue[row][column] = asTyped(cell, sheet?.getCellStyle(row, column)?.n?.pattern);
  });
  return change(injector, to, cellValue);
}

/** A cell of a table as it would be typed into a cell with a number format: that stays unless it is the general one. */
function asTyped({ v, p }: ICellData, format: string | undefined): ICellData {
  const bare = { f: null, si: null, p: null };
  if (p?.body) return { ...bare, v: v ?? null, p: cloneValue(p) };
  const text = String(v ?? '');
  if (text === '') return { ...bare, v: null };
  if (isTextFormat(format)) return { ...bare, v: text, t: CellValueType.STRING };
  const number = getNumfmtParseValueFilter(text.trim());
  if (typeof number?.v !== 'number') return { ...bare, v: text };
  // a long number is a name, such as that of an article
  if (!number.z && willLoseNumericPrecision(text.trim())) return { ...bare, v: text, t: CellValueType.FORCE_STRING };
  const shown = number.z && isDefaultFormat(format) ? { s: { n: { pattern: String(number.z) } } } : {};
  return { ...bare, v: number.v, ...shown };
}

/** Gives the number format of a cell back to it, where the library puts a single text there that brings one along. */
function ownFormat(injector: Injector, to: ISheetDiscreteRangeLocation, text: string): Change {
  const [row = 0, column = 0] = [to.range.rows[0], to.range.cols[0]];
  const n = sheetOf(injector, to)?.getCellStyle(row, column)?.n;
  const changed = !isDefaultFormat(n?.pattern) && getNumfmtParseValueFilter(text)?.z;
  return changed ? change(injector, to, { [row]: { [column]: { s: { n } } } }) : { redos: [], undos: [] };
}

function change(
  injector: Injector,
  { unitId, subUnitId }: ISheetDiscreteRangeLocation,
  cellValue: Record<number, Record<number, ICellData>>,
): Change {
  const params = { unitId, subUnitId, cellValue };
  const undo = injector.invoke((accessor) => SetRangeValuesUndoMutationFactory(accessor, params));
  return {
    redos: [{ id: SetRangeValuesMutation.id, params }],
    undos: [{ id: SetRangeValuesMutation.id, params: undo }],
  };
}

const sheetOf = (injector: Injector, { unitId, subUnitId }: ISheetDiscreteRangeLocation): Nullable<Worksheet> =>
  injector
    .get(IUniverInstanceService)
    .getUnit<Workbook>(unitId, UniverInstanceType.UNIVER_SHEET)
    ?.getSheetBySheetId(subUnitId);
