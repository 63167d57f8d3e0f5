import type { Sheet as FileSheet, RowDef } from 'hucre';
import { MOST_COLUMNS, MOST_ROWS } from '../../../workbook/address.ts';
import { type editsOf, movedBlocks } from '../../../workbook/edits.ts';

/** Rows and columns with the groups that they are in. */
export function grouped(
  before: FileSheet,
  now: FileSheet,
  edits: ReturnType<typeof editsOf>,
): Pick<FileSheet, 'rowDefs' | 'columns'> {
  const rowDefs = new Map(now.rowDefs);
  for (const [row, { outlineLevel, collapsed }] of before.rowDefs ?? []) {
    const group = groupOf(outlineLevel, collapsed);
    const line = { startColumn: 0, endColumn: MOST_COLUMNS - 1, startRow: row, endRow: row };
    const to = group && movedBlocks(line, edits)?.startRow;
    if (to !== undefined) rowDefs.set(to, { ...rowDefs.get(to), ...group });
  }
  const columns = [...(now.columns ?? [])];
  (before.columns ?? []).forEach((column, at) => {
    const group = column && groupOf(column.outlineLevel, column.collapsed);
    const line = { startRow: 0, endRow: MOST_ROWS - 1, startColumn: at, endColumn: at };
    const to = group && movedBlocks(line, edits)?.startColumn;
    if (to !== undefined) columns[to] = { ...columns[to], ...group };
  });
  return { rowDefs, columns: Array.from(columns, (column) => column ?? {}) };
}

function groupOf(outlineLevel = 0, collapsed = false): Pick<RowDef, 'outlineLevel' | 'collapsed'> | undefined {
  if (outlineLevel === 0 && !collapsed) return undefined;
  return { ...(outlineLevel === 0 ? {} : { outlineLevel }), ...(collapsed ? { collapsed } : {}) };
}
