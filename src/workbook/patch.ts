import { columnNumber, spotName } from './address.ts';
import { inOrder } from './in-order.ts';
import { escapeXml } from './xml.ts';

/** What a cell holds when it is written: a number, text, a boolean, an error, or nothing. */
export type Stored = number | string | boolean | null | { readonly error: string };

export interface CellPatch {
  readonly value: Stored;
  /**
   * Formula beside the value: `keep` the one of the file, `none`, or another one; without a text, the text of the file
   * with a new range and mark. `range` is what an array formula fills;
   * `mark` is the index of the cell metadata that makes it spill, none for the older kind that is tied to its range.
   */
  readonly formula: 'keep' | 'none' | { readonly text?: string; readonly range?: string; readonly mark?: number };
  /** index of a cell format that replaces the one in the file */
  readonly format?: number;
}

/** Patches of a sheet by row, then by column; both count from 0. */
export type SheetPatch = ReadonlyMap<number, ReadonlyMap<number, CellPatch>>;

/** Any cell of the sheet's data, rows and their ends included, in the order of the file. */
const PIECE =
  /<(?:(\w+):)?row(?=[\s/>])([^>]*?)(\/?)>|<\/(?:\w+:)?row\s*>|<(?:\w+:)?c(?=[\s/>])([^>]*?)(?:\/>|>([\s\S]*?)<\/(?:\w+:)?c\s*>)/g;

/**
 * The sheet's XML with some cells changed; whatever is not named stays to the letter.
 * @param xml the part with the cells
 * @param patch cells to change; cells that the file does not have are put in their place
 */
export function patchedSheet(xml: string, patch: SheetPatch): string {
  if (patch.size === 0) return xml;
  const start = /<((?:\w+:)?)sheetData(?=[\s/>])[^>]*?(\/?)>/.exec(xml);
  if (start === null) return xml;
  const prefix = start[1] ?? '';
  const from = start.index + start[0].length;
  const empty = start[2] === '/';
  const to = empty ? from : xml.indexOf(`</${prefix}sheetData`, from);
  const data = empty ? '' : inOrder(xml.slice(from, to), prefix);
  const patched = patchedRows(data, patch, prefix);
  const head = withDimension(xml.slice(0, start.index), patch);
  const rest = empty ? xml.slice(from) : xml.slice(xml.indexOf('>', to) + 1);
  return `${head}<${prefix}sheetData>${patched}</${prefix}sheetData>${rest}`;
}

function patchedRows(data: string, patch: SheetPatch, prefix: string): string {
  const out: string[] = [];
  const rows = [...patch.keys()].sort((a, b) => a - b);
  let next = 0;
  let row = -1;
  let cells: CellWriter | undefined;
  const rowsBefore = (limit: number): void => {
    for (let at = rows[next]; at !== undefined && at < limit; at = rows[++next]) {
      const writer = cellWriter(at, patch.get(at), prefix);
      const text = writer.rest();
      if (text !== '') out.push(`<${prefix}row r="${at + 1}">${text}</${prefix}row>`);
    }
  };
  for (const piece of data.matchAll(PIECE)) {
    const text = piece[0];
    if (text.startsWith('</')) {
      if (cells !== undefined) out.push(cells.rest());
      out.push(text);
      cells = undefined;
    } else if (piece[2] !== undefined) {
      row = number(piece[2], 'r') ?? row + 2;
      row -= 1;
      rowsBefore(row);
      const changes = rows[next] === row ? patch.get(row) : undefined;
      if (changes !== undefined) next++;
      const kept = changes === undefined ? piece[2] : piece[2].replace(/\sspans\s*=\s*(?:"[^"]*"|'[^']*')/, '');
      if (piece[3] === '/') {
        const added = changes === undefined ? '' : cellWriter(row, changes, prefix).rest();
        out.push(added === '' ? `<${prefix}row${kept}/>` : `<${prefix}row${kept}>${added}</${prefix}row>`);
      } else {
        out.push(`<${prefix}row${kept}>`);
        cells = cellWriter(row, changes, prefix);
      }
    } else if (cells !== undefined) out.push(cells.take(text, piece[4] ?? '', piece[5] ?? ''));
    else out.push(text);
  }
  rowsBefore(Number.POSITIVE_INFINITY);
  return out.join('');
}

interface CellWriter {
  /** a cell of the file, patched, with the new cells that stand before it */
  readonly take: (text: string, attributes: string, inside: string) => string;
  /** the new cells that stand behind the last one */
  readonly rest: () => string;
}

function cellWriter(row: number, changes: ReadonlyMap<number, CellPatch> | undefined, prefix: string): CellWriter {
  const columns = changes === undefined ? [] : [...changes.keys()].sort((a, b) => a - b);
  let next = 0;
  let column = -1;
  const before = (limit: number): string => {
    let text = '';
    for (let at = columns[next]; at !== undefined && at < limit; at = columns[++next]) {
      const change = changes?.get(at);
      if (change !== undefined) text += cellXml(prefix, spotName(row, at), undefined, '', change);
    }
    return text;
  };
  return {
    take: (text, given, inside) => {
      const letters = /(?:^|\s)r\s*=\s*["']([A-Za-z]+)\d+["']/.exec(given)?.[1];
      column = letters === undefined ? column + 1 : columnNumber(letters);
      const added = before(column);
      if (columns[next] !== column) return added + text;
      next++;
      const change = changes?.get(column);
      if (change === undefined) return added + text;
      return added + cellXml(prefix, spotName(row, column), given, inside, change);
    },
    rest: () => before(Number.POSITIVE_INFINITY),
  };
}

const COUNTS = {
  r: /(?:^|\s)r\s*=\s*["'](\d+)["']/,
  s: /(?:^|\s)s\s*=\s*["'](\d+)["']/,
  cm: /(?:^|\s)cm\s*=\s*["'](\d+)["']/,
} as const;

function number(given: string, name: keyof typeof COUNTS): number | undefined {
  const value = COUNTS[name].exec(given)?.[1];
  return value === undefined ? undefined : Number(value);
}

function cellXml(prefix: string, spot: string, given: string | undefined, inside: string, change: CellPatch): string {
  const format = change.format ?? (given === undefined ? undefined : number(given, 's'));
  const formula = change.formula === 'keep' ? keptFormula(inside) : change.formula;
  let body = '';
  let mark: number | undefined;
  if (typeof formula === 'string') {
    if (formula !== 'none') {
      body = formula;
      mark = given === undefined ? undefined : number(given, 'cm');
    }
  } else {
    mark = formula.mark;
    const array = formula.range === undefined ? '' : ` t="array" ref="${formula.range}"`;
    body = `<${prefix}f${array}>${formula.text === undefined ? keptText(inside) : escapeXml(formula.text)}</${prefix}f>`;
  }
  const [type, value] = storedXml(change.value, prefix);
  if (body === '' && value === '' && format === undefined) return '';
  const marks = `${format === undefined ? '' : ` s="${format}"`}${type === '' ? '' : ` t="${type}"`}`;
  const open = `<${prefix}c r="${spot}"${marks}${mark === undefined ? '' : ` cm="${mark}"`}`;
  return body === '' && value === '' ? `${open}/>` : `${open}>${body}${value}</${prefix}c>`;
}

function keptFormula(inside: string): string {
  return /<((?:\w+:)?)f(?=[\s/>])[^>]*?(?:\/>|>[\s\S]*?<\/\1f\s*>)/.exec(inside)?.[0] ?? 'none';
}

/** The formula's text as it stands in the file, escapes included. */
function keptText(inside: string): string {
  return /<((?:\w+:)?)f(?=[\s/>])[^>]*>([\s\S]*?)<\/\1f\s*>/.exec(inside)?.[2] ?? '';
}

/** A value as the cell's type and its element (ISO/IEC 29500-1 §18.18.11). */
function storedXml(value: Stored, prefix: string): readonly [string, string] {
  const element = (text: string, space = ''): string => `<${prefix}v${space}>${text}</${prefix}v>`;
  if (value === null) return ['', ''];
  if (typeof value === 'boolean') return ['b', element(value ? '1' : '0')];
  if (typeof value === 'object') return ['e', element(escapeXml(value.error))];
  if (typeof value === 'number') return Number.isFinite(value) ? ['', element(String(value))] : ['e', element('#NUM!')];
  return ['str', element(escapeXml(value), /^\s|\s$|\n/.test(value) ? ' xml:space="preserve"' : '')];
}

/** Widens the range that the head says the sheet uses; takes the statement out when it cannot be read. */
function withDimension(head: string, patch: SheetPatch): string {
  return head.replace(/<(?:\w+:)?dimension\b[^>]*?(?:\/>|>\s*<\/(?:\w+:)?dimension>)/, (text) => {
    const used = /ref\s*=\s*["']\$?([A-Z]+)\$?(\d+)(?::\$?([A-Z]+)\$?(\d+))?["']/.exec(text);
    if (used === null) return '';
    let [left, top] = [columnNumber(used[1] as string), Number(used[2]) - 1];
    let right = used[3] === undefined ? left : columnNumber(used[3]);
    let bottom = used[4] === undefined ? top : Number(used[4]) - 1;
    for (const [row, cells] of patch) {
      top = Math.min(top, row);
      bottom = Math.max(bottom, row);
      for (const column of cells.keys()) {
        left = Math.min(left, column);
        right = Math.max(right, column);
      }
    }
    const ref =
      left === right && top === bottom ? spotName(top, left) : `${spotName(top, left)}:${spotName(bottom, right)}`;
    return text.replace(/ref\s*=\s*["'][^"']*["']/, `ref="${ref}"`);
  });
}
