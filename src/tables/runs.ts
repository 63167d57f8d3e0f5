import { Fault } from '../faults/issue.ts';
import type { CellRange } from './cells.ts';
import { tubeBore } from './library/tube-sizes.ts';
import { type Column, type FaultSink, openTable, plainName, throwFault } from './table.ts';

/** What a line carries when the system is charged; `none` for pipe that is no part of the refrigerant lines. */
export type Line = 'liquid' | 'vapour' | 'none';

const LINES: readonly Line[] = ['liquid', 'vapour', 'none'];
const LINE_BY_NAME: ReadonlyMap<string, Line> = new Map<string, Line>([
  ...LINES.map((line): [string, Line] => [line, line]),
  ...['liquid line'].map((name): [string, Line] => [plainName(name), 'liquid']),
  ...[
    'vapor',
    'gas',
    'suction',
    'discharge',
    'hot gas',
    'vapour line',
    'gas line',
    'suction line',
    'discharge line',
  ].map((name): [string, Line] => [plainName(name), 'vapour']),
  ...['no', 'other'].map((name): [string, Line] => [name, 'none']),
]);

/** One row: equal lengths of pipe, or a component that holds a volume. SI. */
export interface Run {
  /** '' where the table has no Unit column */
  readonly unit: string;
  /** tube size or component as written */
  readonly label: string;
  readonly isComponent: boolean;
  /** m; 0 for a component */
  readonly bore: number;
  /** m; 0 for a component */
  readonly length: number;
  readonly count: number;
  /** m3, of all `count` together */
  readonly volume: number;
  readonly from?: string;
  readonly to?: string;
  /** what it carries; undefined where the cell is blank or there is no such column */
  readonly line?: Line;
  /** m of each pipe that the charge of the unit already covers */
  readonly chargedLength: number;
  /** row within the range, from 1 */
  readonly row: number;
}

export interface RunsTable {
  readonly runs: readonly Run[];
  /** m3 by the unit's name without regard to case */
  readonly volumes: ReadonlyMap<string, number>;
  /** names of units as first written */
  readonly units: readonly string[];
  /** m3, or undefined when no row names the unit */
  volumeOf(unit: string): number | undefined;
}

export const RUNS_COLUMNS = {
  unit: {
    header: 'Unit',
    synonyms: ['System', 'Unit name'],
    description: 'name of the unit that the pipe belongs to; blank is the unit of the row above',
  },
  size: {
    header: 'Size',
    synonyms: ['Tube size', 'Pipe size'],
    description: 'copper tube size such as 3/8 in, 1 1/8 in or 10 mm',
  },
  standard: {
    header: 'Standard',
    description: 'ASTM B280 coil, ASTM B280 straight or EN 12735-1; blank takes them in this order',
  },
  bore: {
    header: 'Bore',
    synonyms: ['Inside diameter', 'ID'],
    quantity: 'length',
    unit: 'mm',
    limit: { above: 0 },
    description: 'inside diameter, in place of a size',
  },
  length: { header: 'Length', quantity: 'length', unit: 'm', limit: { atLeast: 0 }, description: 'length of one pipe' },
  count: {
    header: 'Count',
    synonyms: ['Number', 'Qty', 'Quantity'],
    quantity: 'number',
    limit: { atLeast: 0 },
    whole: true,
    description: 'equal pipes or components, default 1',
  },
  from: { header: 'From', description: 'node where the pipe begins, or at which the component stands' },
  to: { header: 'To', description: 'node where the pipe ends; a component may join two nodes' },
  component: { header: 'Component', description: 'name of a component that holds gas: coil, receiver, filter drier' },
  volume: {
    header: 'Volume',
    synonyms: ['Internal volume'],
    quantity: 'volume',
    unit: 'L',
    limit: { atLeast: 0 },
    description: 'inside volume of one component',
  },
  line: {
    header: 'Line',
    synonyms: ['Line type', 'Carries'],
    description: 'what the pipe carries, for the extra charge: liquid, vapour (suction, discharge, gas) or none',
  },
  chargedLength: {
    header: 'Charged length',
    synonyms: ['Precharged length', 'Length charged'],
    quantity: 'length',
    unit: 'm',
    limit: { atLeast: 0 },
    description: 'length of one pipe that the charge of the unit already covers, default 0',
  },
} as const satisfies Record<string, Column>;

export function unitKey(name: string): string {
  return name.trim().toLowerCase();
}

/** Reads pipe runs and components; volume of a pipe is pi/4 bore^2 length count. */
export function readRuns(range: CellRange, sink: FaultSink = throwFault): RunsTable {
  const table = openTable(range, 'runs', RUNS_COLUMNS, sink);
  const runs: Run[] = [];
  let unit: string | undefined = table.has('unit') ? undefined : '';
  for (let row = 0; row < table.rowCount; row++) {
    unit = table.text(row, 'unit') ?? unit;
    if (unit === undefined) {
      table.fault({ kind: 'missing', argument: 'Unit' }, row, 'unit');
      continue;
    }
    const count = table.number(row, 'count') ?? 1;
    const volume = table.number(row, 'volume');
    const component = table.text(row, 'component');
    const from = table.text(row, 'from');
    const to = table.text(row, 'to');
    const carries = table.text(row, 'line');
    const line = carries === undefined ? undefined : LINE_BY_NAME.get(plainName(carries));
    if (carries !== undefined && line === undefined) {
      table.fault({ kind: 'unknown', what: 'line', value: carries, known: LINES }, row, 'line');
      continue;
    }
    const base = {
      unit,
      count,
      chargedLength: table.number(row, 'chargedLength') ?? 0,
      row: table.rowNumber(row),
      ...(from === undefined ? {} : { from }),
      ...(to === undefined ? {} : { to }),
      ...(line === undefined ? {} : { line }),
    };
    if (component !== undefined || volume !== undefined) {
      const one = volume ?? table.needed(row, 'volume');
      if (one === undefined) continue;
      const pipe = (['size', 'bore', 'length'] as const).find((column) => !table.blank(row, column));
      if (pipe !== undefined) {
        const todo = 'Give the pipe and the component a row each.';
        const argument = RUNS_COLUMNS[pipe].header;
        table.fault(
          { kind: 'wrong', argument, found: 'given in the row of a component', allowed: 'a volume there', todo },
          row,
          pipe,
        );
        continue;
      }
      runs.push({
        ...base,
        label: component ?? 'component',
        isComponent: true,
        bore: 0,
        length: 0,
        volume: one * count,
      });
      continue;
    }
    const size = table.text(row, 'size');
    let bore = table.number(row, 'bore');
    if (bore === undefined && size !== undefined) {
      try {
        bore = tubeBore(size, table.text(row, 'standard'));
      } catch (error) {
        if (!(error instanceof Fault)) throw error;
        table.fault(error.issue, row, 'size');
        continue;
      }
    }
    if (bore === undefined) {
      if (table.blank(row, 'bore')) table.fault({ kind: 'missing', argument: 'Size or Bore' }, row, 'size');
      continue;
    }
    const length = table.needed(row, 'length');
    if (length === undefined) continue;
    runs.push({
      ...base,
      label: size ?? 'bore',
      isComponent: false,
      bore,
      length,
      volume: (Math.PI / 4) * bore * bore * length * count,
    });
  }
  const volumes = new Map<string, number>();
  const units: string[] = [];
  for (const run of runs) {
    const key = unitKey(run.unit);
    const sum = volumes.get(key);
    if (sum === undefined) units.push(run.unit);
    volumes.set(key, (sum ?? 0) + run.volume);
  }
  return { runs, volumes, units, volumeOf: (name) => volumes.get(unitKey(name)) };
}
