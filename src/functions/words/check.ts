import { Fault } from '../../faults/issue.ts';
import { wordsOf } from '../../faults/words.ts';
import { type CellRange, isCellError } from '../../tables/cells.ts';
import { readConditions } from '../../tables/conditions.ts';
import { readCrews } from '../../tables/crews.ts';
import { readFactors } from '../../tables/factors.ts';
import { readLog } from '../../tables/log.ts';
import { readPlan } from '../../tables/plan.ts';
import { readPorts } from '../../tables/ports.ts';
import { readRates } from '../../tables/rates.ts';
import { readParts } from '../../tables/rigs.ts';
import { readRuns } from '../../tables/runs.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import type { FaultSink } from '../../tables/table.ts';
import { readUnits } from '../../tables/units.ts';
import { defineFunction } from '../define.ts';
import { anyRange, choice, isRange } from '../parameters.ts';

const KINDS = ['parts', 'runs', 'units', 'conditions', 'log', 'ports', 'plan', 'rates', 'factors', 'crews'] as const;
type Kind = (typeof KINDS)[number];

const READERS: { readonly [K in Kind]: (range: CellRange, sink: FaultSink) => unknown } = {
  parts: readParts,
  runs: readRuns,
  units: readUnits,
  conditions: readConditions,
  log: readLog,
  ports: readPorts,
  plan: readPlan,
  rates: readRates,
  factors: readFactors,
  crews: readCrews,
};

/** A table with more faults than this has one cause, most likely a wrong range. */
const MOST_FAULTS = 500;

const COLUMNS: readonly SpillColumn[] = [
  { name: 'Row' },
  { name: 'Column' },
  { name: 'What is wrong' },
  { name: 'What to do' },
];

/** All faults of a range, in reading order; the same fault of one cell is told once. */
function faultsOf(range: CellRange, kind: Kind): readonly (readonly [number | string, string, string, string])[] {
  const rows = new Map<string, readonly [number | string, string, string, string]>();
  let more = 0;
  const sink: FaultSink = ({ issue, place }) => {
    const { what, todo } = wordsOf(issue);
    const row = [place?.row ?? '', place?.column ?? '', what, todo] as const;
    const key = JSON.stringify(row);
    if (rows.has(key)) return;
    if (rows.size < MOST_FAULTS) rows.set(key, row);
    else more += 1;
  };
  try {
    READERS[kind](range, sink);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    sink(error);
  }
  const found = [...rows.values()].sort((a, b) => Number(a[0]) - Number(b[0]));
  return more === 0 ? found : [...found, ['', '', `and ${more} more`, 'Check that the range and the kind are right.']];
}

export const check = defineFunction({
  id: 'CHECK',
  group: 'Words',
  summary: 'Lists all faults of a table: row, column, what is wrong and what to do.',
  parameters: {
    table: anyRange('range with the table'),
    kind: choice(KINDS, 'what the table holds'),
  },
  result: {
    kind: 'table',
    columns: COLUMNS,
    description: 'one row for each fault, or one that says that none was found',
  },
  examples: [
    {
      formula: '=NARROWS.CHECK({"Rig","Kind","Bore (mm)","Length (m)";"A","hose",0,1.5},"parts")',
      shows: 'that the bore must be above 0 mm, and that the rig has no pump',
    },
  ],
  notes: ['Rows count from 1 at the first row of the range.'],
  body: ({ table, kind }) => {
    const range = isRange(table) ? table : [[isCellError(table) ? table : (table ?? null)]];
    const rows = faultsOf(range, kind);
    return { columns: COLUMNS, rows: rows.length > 0 ? rows : [['', '', 'no fault found', '']] };
  },
});
