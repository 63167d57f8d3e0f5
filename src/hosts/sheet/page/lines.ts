import {
  CellValueType,
  type ICellData,
  type IDocumentData,
  type Injector,
  type Nullable,
  WrapStrategy,
} from '@univerjs/core';
import type { FUniver } from '@univerjs/core/facade';
import { AFTER_CELL_EDIT, BEFORE_CELL_EDIT, SheetInterceptorService } from '@univerjs/sheets';

/** The marks of the library's documents: the end of a paragraph, and of the document. */
const PARAGRAPH = '\r';
const END = '\r\n';
/** Before those of the library, so that it sees what they give. */
const OUTERMOST = 1_000;

/**
 * Text of several lines is text with line feeds in all cells, as files and formulas know it. The library makes a document of
 * what is typed or pasted so, which holds no value, and loses the line feeds of text when that is edited.
 */
export function keepLines(api: FUniver, injector: Injector): void {
  const { writeCellInterceptor } = injector.get(SheetInterceptorService);
  writeCellInterceptor.intercept(BEFORE_CELL_EDIT, {
    priority: OUTERMOST,
    handler(cell, _, next) {
      const given = next(cell);
      return given?.f || typeof given?.v !== 'string' || !/[\r\n]/.test(given.v) || given.p
        ? given
        : { ...given, p: documentOf(given.v) };
    },
  });
  writeCellInterceptor.intercept(AFTER_CELL_EDIT, {
    priority: OUTERMOST,
    handler(cell, { worksheet, row, col }, next) {
      const given = next(cell);
      return given?.p ? asText(given, /\n/.test(String(worksheet.getCellRaw(row, col)?.v))) : given;
    },
  });
  api.addEvent(api.Event.BeforeCommandExecute, ({ id, params, options }) => {
    if (id !== 'sheet.mutation.set-range-values' || options?.fromFormula) return;
    const { cellValue } = params as { cellValue?: Record<string, Record<string, Nullable<ICellData>>> };
    for (const cells of Object.values(cellValue ?? {})) {
      for (const [column, cell] of Object.entries(cells ?? {})) if (cell?.p?.body) cells[column] = asText(cell, false);
    }
  });
}

/**
 * A cell that holds a document with the text of it, and without the document where that says no more.
 *
 * @param had whether the cell had several lines before: it is wrapped or not, as somebody wanted it
 */
function asText(cell: ICellData, had: boolean): ICellData {
  const body = cell.p?.body;
  if (body === undefined || cell.p?.drawingsOrder?.length) return cell;
  const { dataStream, textRuns = [], paragraphs = [] } = body;
  const text = dataStream.endsWith(END) ? dataStream.slice(0, -END.length) : dataStream;
  const looks = textRuns.some(
    ({ st, ed, ts }) => ts && Object.keys(ts).length > 0 && st < text.length && (st > 0 || ed < text.length),
  );
  const v = text.replaceAll(PARAGRAPH, '\n');
  const own = typeof cell.s === 'object' ? cell.s : undefined;
  return {
    ...cell,
    v,
    t: CellValueType.STRING,
    ...(looks || paragraphs.some(({ bullet }) => bullet) ? {} : { p: null }),
    ...(v.includes('\n') && !had ? { s: { ...own, tb: WrapStrategy.WRAP } } : {}),
  };
}

function documentOf(text: string): IDocumentData {
  const dataStream = text.replace(/\r\n?|\n/g, PARAGRAPH) + END;
  const paragraphs = [...dataStream.matchAll(/\r/g)].map(({ index }) => ({
    startIndex: index,
    paragraphId: `line-${index}`,
  }));
  return { id: '', body: { dataStream, paragraphs }, documentStyle: {} };
}
