import { Fault } from '../../faults/issue.ts';
import { wordsOf } from '../../faults/words.ts';
import { type CellRange, isCellError } from '../../tables/cells.ts';
import { readConditions } from '../../tables/conditions.ts';
import { readCrews } from '../../tables/crews.ts';
import { readFactors } from '../../tables/factors.ts';
import { readLog } from '../../tables/log.ts';
import { ownFigures, ownWords } from '../../tables/own-figures.ts';
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

/** row, column, what, what to do */
type Line = readonly [number | string, string, string, string];

/** All faults of a range, in reading order; the same fault of one cell is told once. */
function faultsOf(range: CellRange, kind: Kind): readonly Line[] {
  const rows = new Map<string, Line>();
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

/** What is no fault and may be a slip: rows with the name of a library part and other figures than it. */
function notesOf(range: CellRange, kind: Kind): readonly Line[] {
  if (kind !== 'parts') return [];
  return ownFigures(range)
    .slice(0, MOST_FAULTS)
    .map((found): Line => {
      const { what, todo } = ownWords(found);
      return [found.row, found.figures.map(({ header }) => header).join(', '), `Note: ${what}`, todo];
    });
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
    description:
      'one row for each fault, or one that says that none was found; below them a note for each part that bears a name of the parts library and has other figures than it',
  },
  examples: [
    {
      formula: '=NARROWS.CHECK({"Rig","Kind","Bore (mm)","Length (m)";"A","hose",0,1.5},"parts")',
      shows: 'that the bore must be above 0 mm, and that the rig has no pump',
    },
  ],
  notes: [
    'Rows count from 1 at the first row of the range.',
    "A row's own figures always count before those of the parts library: a part that is renamed keeps the figures of its row until they are changed or cleared. A note names such rows; figures within 2 % of the library's are taken to be the same.",
  ],
  body: ({ table, kind }) => {
    const range = isRange(table) ? table : [[isCellError(table) ? table : (table ?? null)]];
    const faults = faultsOf(range, kind);
    const told: readonly Line[] = faults.length > 0 ? faults : [['', '', 'no fault found', '']];
    return { columns: COLUMNS, rows: [...told, ...notesOf(range, kind)] };
  },
});
