import { useEffect, useState } from 'react';
import type { CellBlock, PaneHost } from '../host.ts';

/** Changes come in flocks: the tables are read once they are over. */
const PAUSE_MS = 120;

export interface RigTables {
  /** undefined until they have been looked for */
  readonly looked: boolean;
  readonly parts: CellBlock | undefined;
  readonly conditions: CellBlock | undefined;
  readonly row: CellBlock | undefined;
}

/** The tables that the drawing reads and the selected row, kept up with the sheet. */
export function useRigTables(host: PaneHost, partsName: string, conditionsName: string): RigTables {
  const [tables, setTables] = useState<RigTables>({
    looked: false,
    parts: undefined,
    conditions: undefined,
    row: undefined,
  });
  useEffect(() => {
    let latest = 0;
    let timer: ReturnType<typeof setTimeout> | undefined;
    async function look() {
      latest += 1;
      const mine = latest;
      const nothing = () => undefined;
      const [parts, conditions, row] = await Promise.all([
        host.cells(partsName).catch(nothing),
        conditionsName === '' ? undefined : host.cells(conditionsName).catch(nothing),
        host.selectedRow().catch(nothing),
      ]);
      if (mine !== latest) return;
      setTables((old) => ({
        looked: true,
        parts: same(old.parts, parts),
        conditions: same(old.conditions, conditions),
        row: same(old.row, row),
      }));
    }
    const soon = () => {
      clearTimeout(timer);
      timer = setTimeout(() => void look(), PAUSE_MS);
    };
    void look();
    const stops = [host.onSelection(soon), host.onChange(soon)];
    return () => {
      latest = -1;
      clearTimeout(timer);
      for (const stop of stops) stop();
    };
  }, [host, partsName, conditionsName]);
  return tables;
}

/** The old block if nothing in it has changed, so that nothing is worked out anew. */
function same(old: CellBlock | undefined, next: CellBlock | undefined): CellBlock | undefined {
  return old !== undefined && next !== undefined && JSON.stringify(old) === JSON.stringify(next) ? old : next;
}
