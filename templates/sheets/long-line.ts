import type { ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed, spareRows, type TableSpot } from '../layout.ts';
import { micronOf } from '../report-units.ts';
import { columnIndex, lastPlace, orFault, spilledCells, spilledLooks, widthOf } from '../spilled.ts';
import { choice } from './lists.ts';

const ID = 'EVAC.NETWORK';
const SHEET = 'Long line';

const RUNS_HEADER = ['From', 'To', 'Size', 'Length (m)', 'Component', 'Volume (L)'] as const;
/** Invented: a condensing unit on the roof, a riser of 60 m, and two rooms at its foot. */
const RUNS: readonly (readonly (string | number | null)[])[] = [
  ['roof unit', null, null, null, 'condenser and receiver', 6],
  ['roof unit', 'tee at level 1', '5/8 in', 60, null, null],
  ['tee at level 1', 'reading room', '1/2 in', 18, null, null],
  ['tee at level 1', 'archive', '1/2 in', 25, null, null],
  ['reading room', null, null, null, 'ceiling coil', 2.4],
  ['archive', null, null, null, 'close-control coil', 3.8],
];
const PORTS_HEADER = ['Node', 'Rig'] as const;
const ONE_PORT = [['roof unit', 'F half-inch hose, core out']] as const;
const TWO_PORTS = [...ONE_PORT, ['archive', 'B core out, small hose']] as const;

const RUNS_ROW = 5;
const RUNS_ROOM = 16;
const PORTS_COLUMN = 7;
const ONE_ROW = RUNS_ROW;
const ONE_ROOM = 3;
const TWO_ROW = ONE_ROW + ONE_ROOM + 3;
const TWO_ROOM = 5;
const FIGURES_ROW = RUNS_ROW + RUNS_ROOM + 3;
/** The two tables stand side by side: nothing stands below them, since the line may have any number of nodes. */
const TABLE_ROW = FIGURES_ROW + 8;
const FIRST_TABLE = 0;
const SECOND_TABLE = PORTS_COLUMN;
/** room for as many nodes as the runs can name */
const TABLE_ROOM = 2 * RUNS_ROOM + 2;
/** nodes that the chart draws, the whole network among them */
const SHOWN = 16;

/** nodes, and a row for the whole network */
const SPILLED = new Set(RUNS.flatMap(([from, to]) => [from ?? to, to ?? from])).size + 1;

const spot = (headerRow: number, rows: number): TableSpot => ({
  sheet: SHEET,
  headerRow,
  columns: RUNS_HEADER.length,
  lastRow: headerRow + rows,
});
export const lineRunsSpot: TableSpot = spot(RUNS_ROW, RUNS_ROOM);

const [portsFrom, portsTo] = [letter(PORTS_COLUMN), letter(PORTS_COLUMN + 1)];
const portsRange = (row: number, room: number): string => `'${SHEET}'!$${portsFrom}$${row}:$${portsTo}$${row + room}`;
export const onePortRange = portsRange(ONE_ROW, ONE_ROOM);
export const twoPortsRange = portsRange(TWO_ROW, TWO_ROOM);

const WHOLE = 'whole network';

/** Letter of a column of the table that begins in column `from`. */
const columnAt = (name: string, from: number): string => letter(from + columnIndex(ID, name));

/** Where the row for the whole network stands, the last one, in the table that begins in column `from`: over its last column. */
const placeCell = (from: number): string => `${letter(from + widthOf(ID) - 1)}${TABLE_ROW - 1}`;
const errorOf = (from: number): string => `$${letter(from)}$${TABLE_ROW}`;

/** A cell of the row for the whole network. */
function ofWhole(name: string, from: number): string {
  const found = `INDEX(${spilledCells(columnAt(name, from), TABLE_ROW + 1)},${placeCell(from)})`;
  return orFault(errorOf(from), found);
}

/** A long line with branches: what each node waits for, through one port and through two. */
export function longLineSheet(): ModelSheet {
  const columns = widthOf(ID);
  const rows = (name: string, from: number): string => {
    const at = columnAt(name, from);
    return `'${SHEET}'!$${at}$${TABLE_ROW + 1}:$${at}$${TABLE_ROW + SHOWN}`;
  };
  const table = (from: number, ports: string): ModelSheet['cells'] => ({
    [`${letter(from)}${TABLE_ROW}`]: {
      formula: `=NARROWS.EVAC.NETWORK(LineRuns,${ports},Parts,Conditions)`,
      spills: `${letter(from)}${TABLE_ROW}:${letter(from + columns - 1)}${TABLE_ROW + SPILLED}`,
      look: 'header',
    },
    [`${letter(from + columns - 2)}${TABLE_ROW - 1}`]: { value: `Place of ${WHOLE}`, look: 'note' },
    [placeCell(from)]: {
      formula: `=IF(ISERROR(${errorOf(from)}),"",${lastPlace(WHOLE, columnAt('Node', from), TABLE_ROW + 1)})`,
      look: 'formula',
      format: '0',
    },
  });
  const worst = (from: number): string =>
    micronOf(ofWhole('Pressure at gauge target', from), `${columnAt('Pressure at gauge target', from)}${TABLE_ROW}`);
  const figures: readonly (readonly [string, string])[] = [
    ['Minutes until the whole line is at target, one port', ofWhole('Time to target', FIRST_TABLE)],
    ['The same through two ports', ofWhole('Time to target', SECOND_TABLE)],
    ['Minutes that the second port saves', `D${FIGURES_ROW + 1}-D${FIGURES_ROW + 2}`],
    ['Gauge shows target: highest on the line (micron)', worst(FIRST_TABLE)],
    ['The same with two ports (micron)', worst(SECOND_TABLE)],
  ];
  const blockOf = (from: number): NonNullable<ModelSheet['blocks']> => [
    { at: `${letter(from + 1)}${TABLE_ROW}`, rows: spareRows(columns - 1, 1), look: 'header' },
    {
      at: `${letter(from)}${TABLE_ROW + 1}`,
      rows: spareRows(columns, TABLE_ROOM),
      columns: spilledLooks(ID, { Volume: '#,##0.00' }),
    },
  ];
  return {
    name: SHEET,
    widths: [26, 20, 18, 26, 46, 14, 3, 26, 34, 18, 26, 46],
    heights: {
      ...Object.fromEntries(figures.map((_, index) => [FIGURES_ROW + 1 + index, 22])),
      [TABLE_ROW]: 32,
    },
    frozenRows: 2,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Long line: what the gauge at the port hides', look: 'title' },
      A2: {
        value:
          'One row a length of pipe with its two ends, or a component at a node. The gauge stands at the first port. The line shown is invented.',
        look: 'note',
        wrap: false,
      },
      [`A${RUNS_ROW - 1}`]: { value: 'The line', look: 'heading' },
      [`${portsFrom}${ONE_ROW - 1}`]: { value: 'One port', look: 'heading' },
      [`${portsFrom}${TWO_ROW - 1}`]: { value: 'Two ports', look: 'heading' },
      [`A${FIGURES_ROW}`]: { value: 'What it comes to', look: 'heading' },
      [`A${TABLE_ROW - 1}`]: { value: 'Through one port, node by node', look: 'heading' },
      [`${letter(SECOND_TABLE)}${TABLE_ROW - 1}`]: { value: 'Through two ports, node by node', look: 'heading' },
      ...table(FIRST_TABLE, 'LinePort'),
      ...table(SECOND_TABLE, 'LinePorts'),
    },
    blocks: [
      { at: `A${RUNS_ROW}`, rows: [[...RUNS_HEADER]], look: 'header' },
      {
        at: `A${RUNS_ROW + 1}`,
        rows: [...RUNS.map((row) => [...row]), ...spareRows(RUNS_HEADER.length, RUNS_ROOM - RUNS.length)],
        look: 'input',
        columns: [{}, {}, {}, { format: '0.0' }, {}, { format: '0.0' }],
      },
      { at: `${portsFrom}${ONE_ROW}`, rows: [[...PORTS_HEADER]], look: 'header' },
      {
        at: `${portsFrom}${ONE_ROW + 1}`,
        rows: [...ONE_PORT.map((row) => [...row]), ...spareRows(2, ONE_ROOM - ONE_PORT.length)],
        look: 'input',
      },
      { at: `${portsFrom}${TWO_ROW}`, rows: [[...PORTS_HEADER]], look: 'header' },
      {
        at: `${portsFrom}${TWO_ROW + 1}`,
        rows: [...TWO_PORTS.map((row) => [...row]), ...spareRows(2, TWO_ROOM - TWO_PORTS.length)],
        look: 'input',
      },
      {
        at: `A${FIGURES_ROW + 1}`,
        rows: figures.map(([label, formula]) => [
          { value: label, look: 'label' as const },
          undefined,
          undefined,
          { formula: `=${formula}`, look: 'figure' as const, format: '#,##0.0' },
        ]),
      },
      ...blockOf(FIRST_TABLE),
      ...blockOf(SECOND_TABLE),
    ],
    validations: [
      {
        range: `C${RUNS_ROW + 1}:C${RUNS_ROW + RUNS_ROOM}`,
        list: choice('sizes'),
        title: 'Tube size',
        message: 'Pick a size, or clear it and name a component with its volume.',
      },
      ...[
        [ONE_ROW, ONE_ROOM],
        [TWO_ROW, TWO_ROOM],
      ].map(([row = 0, room = 0]) => ({
        range: `${portsTo}${row + 1}:${portsTo}${row + room}`,
        list: '=RigNames',
        title: 'Rig',
        message: 'Pick a rig of the Parts sheet. Each row is a rig of its own.',
      })),
    ],
    numberRules: ['D', 'F'].map((column) => ({
      range: `${column}${RUNS_ROW + 1}:${column}${RUNS_ROW + RUNS_ROOM}`,
      least: 0,
      title: 'Length or volume',
      message: '0 or more.',
    })),
    charts: [
      {
        kind: 'bar',
        title: `Minutes to target, node by node (first ${SHOWN} rows)`,
        from: `${letter(PORTS_COLUMN + 2)}${RUNS_ROW - 1}`,
        to: `${letter(PORTS_COLUMN + 5)}${TABLE_ROW - 3}`,
        categories: rows('Node', FIRST_TABLE),
        series: [
          { name: 'one port', values: rows('Time to target', FIRST_TABLE) },
          { name: 'two ports', values: rows('Time to target', SECOND_TABLE) },
        ],
        yTitle: 'min',
        altText: 'Bars of the minutes to target at each node of the line, through one port and through two.',
      },
    ],
    print: printed({
      headerRow: TABLE_ROW,
      area: `A:${letter(SECOND_TABLE + columns - 1)}`,
      columnsBefore: [letter(SECOND_TABLE)],
    }),
  };
}
