import { columnNumber, spotName } from './address.ts';

/** Rows and cells of a sheet's data; the pieces of a row that hold no cell are of no account. */
const ROW = /<(?:\w+:)?row(?=[\s/>])([^>]*?)(?:\/>|>([\s\S]*?)<\/((?:\w+:)?)row\s*>)/g;
const CELL = /<(?:\w+:)?c(?=[\s/>])([^>]*?)(?:\/>|>[\s\S]*?<\/(?:\w+:)?c\s*>)/g;
const ROW_NUMBER = /(?:^|\s)r\s*=\s*["'](\d+)["']/;
const CELL_COLUMN = /(?:^|\s)r\s*=\s*["']([A-Za-z]+)\d+["']/;

interface Row {
  /** attributes of the row, as written */
  given: string;
  readonly cells: Map<number, string>;
}

/**
 * A sheet's data with its rows, and the cells of each, in ascending order and each but once, as ISO/IEC 29500-1 wants them and
 * patching needs them. Data in order is given back as it is. Of two entries for a cell the later one counts, as it does
 * for the reader.
 */
export function inOrder(data: string, prefix: string): string {
  const rows = new Map<number, Row>();
  let ordered = true;
  let row = 0;
  for (const [, given = '', inside = ''] of data.matchAll(ROW)) {
    const before = row;
    row = Number(ROW_NUMBER.exec(given)?.[1] ?? before + 1);
    if (row <= before) ordered = false;
    const known = rows.get(row);
    const cells = known?.cells ?? new Map<number, string>();
    rows.set(row, { given: known?.given ?? given, cells });
    let column = -1;
    for (const [text, attributes = ''] of inside.matchAll(CELL)) {
      const last = column;
      const letters = CELL_COLUMN.exec(attributes)?.[1];
      column = letters === undefined ? last + 1 : columnNumber(letters);
      if (column <= last) ordered = false;
      cells.set(column, letters === undefined ? named(text, spotName(row - 1, column)) : text);
    }
  }
  if (ordered) return data;
  const lines = [...rows].sort(([a], [b]) => a - b);
  return lines
    .map(([number, { given, cells }]) => {
      const own = ROW_NUMBER.test(given) ? given : `${given} r="${number}"`;
      const inside = [...cells].sort(([a], [b]) => a - b).map(([, text]) => text);
      return `<${prefix}row${own}>${inside.join('')}</${prefix}row>`;
    })
    .join('');
}

/** A cell that goes by its place alone loses it when it moves: it gets its address written down. */
function named(text: string, spot: string): string {
  return text.replace(/^<((?:\w+:)?c)(?=[\s/>])/, `<$1 r="${spot}"`);
}
