import { placeWords } from '../faults/words.ts';
import type { CellRange } from './cells.ts';
import { type Column, type FaultSink, openTable, throwFault } from './table.ts';

/** A rig at a node of a network of lines. */
export interface PortRow {
  readonly node: string;
  readonly rig: string;
  /** row within the range, from 1 */
  readonly row: number;
}

export interface PortsTable {
  /** at least one */
  readonly ports: readonly PortRow[];
}

export const PORTS_COLUMNS = {
  node: {
    header: 'Node',
    synonyms: ['Port', 'Port node'],
    needed: true,
    description: 'node of the runs at which the rig is connected',
  },
  rig: { header: 'Rig', needed: true, description: 'name of a rig of the parts table' },
} as const satisfies Record<string, Column>;

/** Names of nodes are the same whatever their case and the spaces around and within them. */
export function nodeKey(name: string): string {
  return name.trim().replace(/\s+/gu, ' ').toLowerCase();
}

/** Reads where rigs are connected; the gauge is at the first port. A node given twice is a fault. */
export function readPorts(range: CellRange, sink: FaultSink = throwFault): PortsTable {
  const table = openTable(range, 'ports', PORTS_COLUMNS, sink);
  const ports: PortRow[] = [];
  const taken = new Map<string, number>();
  for (let row = 0; row < table.rowCount; row++) {
    const node = table.neededText(row, 'node');
    const rig = table.neededText(row, 'rig');
    if (node === undefined) continue;
    const key = nodeKey(node);
    const first = taken.get(key);
    if (first !== undefined) {
      table.fault(
        {
          kind: 'wrong',
          argument: 'Node',
          found: `"${node}", which has a rig already (${placeWords({ table: 'ports', row: first })})`,
          allowed: 'one rig at a node',
          todo: 'Remove one of the rows, or connect the second rig at another node.',
        },
        row,
        'node',
      );
      continue;
    }
    taken.set(key, table.rowNumber(row));
    if (rig !== undefined) ports.push({ node, rig, row: table.rowNumber(row) });
  }
  return { ports };
}
