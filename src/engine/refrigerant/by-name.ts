import { raise } from '../../faults/issue.ts';
import { TABLES } from './data/index.ts';
import { refrigerantFrom } from './from-table.ts';
import type { Refrigerant } from './refrigerant.ts';
import type { RefrigerantTable } from './table.ts';

/** Names by which people know a refrigerant without its number. */
const COMMON: Readonly<Record<string, readonly string[]>> = {
  'R-290': ['propane'],
  'R-600a': ['isobutane'],
  'R-717': ['ammonia', 'NH3'],
  'R-744': ['carbon dioxide', 'CO2'],
  'R-1234ze(E)': ['R-1234ze'],
};

/** "R410A", "r-410a", "410 A" and "HFC-410A" are one: case, spaces, hyphens, brackets and the prefix do not count. */
function key(name: string): string {
  return name
    .toLowerCase()
    .replace(/[^a-z0-9]/g, '')
    .replace(/^(?:r|hfc|hfo|hcfc|hc)(?=\d)/, '');
}

const TABLE_BY_KEY: ReadonlyMap<string, RefrigerantTable> = new Map(
  TABLES.flatMap((table) => [table.name, ...(COMMON[table.name] ?? [])].map((name) => [key(name), table] as const)),
);
const made = new Map<RefrigerantTable, Refrigerant>();

/** The refrigerants that are known, as the trade writes them. */
export const refrigerantNames: readonly string[] = TABLES.map((table) => table.name);

/** As `refrigerantByName`, undefined where there is none. */
export function findRefrigerant(name: string): Refrigerant | undefined {
  const table = TABLE_BY_KEY.get(key(name));
  if (table === undefined) return undefined;
  const kept = made.get(table) ?? refrigerantFrom(table);
  made.set(table, kept);
  return kept;
}

/** The refrigerant by its name, spelt leniently: "R410A", "r-410a", "410a", "propane". Raises `unknown` with the list. */
export function refrigerantByName(name: string): Refrigerant {
  return findRefrigerant(name) ?? raise({ kind: 'unknown', what: 'refrigerant', value: name, known: refrigerantNames });
}
