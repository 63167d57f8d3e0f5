import { type Run, unitKey } from '../../tables/runs.ts';
import type { SpillColumn } from '../../tables/spill.ts';
import { defineFunction } from '../define.ts';
import { runsTable } from '../parameters.ts';

const COLUMNS: readonly SpillColumn[] = [
  { name: 'Unit' },
  { name: 'Size or component' },
  { name: 'Bore', quantity: 'length', metricUnit: 'mm', inchUnit: 'in' },
  { name: 'Length', quantity: 'length', metricUnit: 'm', inchUnit: 'ft' },
  { name: 'Volume', quantity: 'volume', metricUnit: 'L', inchUnit: 'ft3' },
  { name: 'Rows' },
];

interface Sum {
  readonly first: Run;
  length: number;
  volume: number;
  readonly rows: number[];
}

/** 2, 3, 4, 7 -> "2-4, 7" */
function rowList(rows: readonly number[]): string {
  const spans: [number, number][] = [];
  for (const row of rows) {
    const last = spans.at(-1);
    if (last !== undefined && row === last[1] + 1) last[1] = row;
    else spans.push([row, row]);
  }
  return spans.map(([from, to]) => (from === to ? String(from) : `${from}-${to}`)).join(', ');
}

export const runTable = defineFunction({
  id: 'RUN.TABLE',
  group: 'Volume',
  summary: 'Gives the volumes of pipe runs and components by unit and size, with the rows that each comes from.',
  parameters: { runs: runsTable() },
  result: {
    kind: 'table',
    columns: COLUMNS,
    description: 'one row for each unit and size: total length, volume, and the rows of the range that went into it',
  },
  examples: [
    {
      formula:
        '=NARROWS.RUN.TABLE({"Unit","Size","Length (m)","Component","Volume (L)";"Reading room","3/8 in",12,"","";"","5/8 in",12,"","";"","","","indoor coil",2.1})',
      shows: 'three rows: 3/8 in, 5/8 in and the indoor coil of the reading room',
    },
  ],
  notes: ['Rows count from 1 at the header. Length is the sum over all pipes of the row.'],
  body: ({ runs }) => {
    const sums = new Map<string, Sum>();
    for (const run of runs.runs) {
      const key = JSON.stringify([unitKey(run.unit), run.label.toLowerCase(), run.bore]);
      const sum = sums.get(key) ?? { first: run, length: 0, volume: 0, rows: [] };
      sum.length += run.length * run.count;
      sum.volume += run.volume;
      sum.rows.push(run.row);
      sums.set(key, sum);
    }
    const rows = [...sums.values()].map(({ first, length, volume, rows }) =>
      first.isComponent
        ? [first.unit, first.label, '', '', volume, rowList(rows)]
        : [first.unit, first.label, first.bore, length, volume, rowList(rows)],
    );
    return { columns: COLUMNS, rows };
  },
});
