import type { CellFunction } from '../src/functions/define.ts';
import { functions } from '../src/functions/index.ts';
import { letter } from './layout.ts';

/** Columns of the tables that functions spill, taken from their declarations so that no position is typed twice. */
function columnsOf(id: string): readonly string[] {
  const found: CellFunction | undefined = functions.find((one) => one.id === id);
  if (found?.result.kind !== 'table' || found.result.columns === undefined)
    throw new Error(`${id} declares no columns to refer to`);
  return found.result.columns.map(({ name }) => name);
}

/** How many columns the function spills. */
export function widthOf(id: string): number {
  return columnsOf(id).length;
}

/** Letter of a column of the table that the function spills from column A on. */
export function spilledColumn(id: string, name: string): string {
  const index = columnsOf(id).indexOf(name);
  if (index < 0) throw new Error(`${id} spills no column called ${name}`);
  return letter(index);
}
