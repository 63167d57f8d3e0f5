import type { ModelSheet } from '../../src/workbook/model.ts';
import { printed, rowsBelow, spareRows, type TableSpot } from '../layout.ts';
import { scenarioKinds, scenarioUnits } from '../scenario.ts';
import { choice } from './lists.ts';

const HEADER_ROW = 4;
const SPARE = 20;
const HEADER = ['Unit', 'Size', 'Standard', 'Length (m)', 'Count', 'Component', 'Volume (L)', 'From', 'To'] as const;
const componentOf = new Map(scenarioKinds.map(({ kind, component, litres }) => [kind, [component, litres] as const]));

type Row = (string | number | null)[];

const rows: readonly Row[] = scenarioUnits.flatMap(({ unit, kind, runs, componentAt }): Row[] => {
  if (runs.length === 0) return [];
  const [component, litres] = componentOf.get(kind) ?? ['component', 0];
  return [
    ...runs.map(
      ({ size, metres, count, from, to }): Row => [
        unit,
        size,
        null,
        metres,
        count ?? null,
        null,
        null,
        from ?? null,
        to ?? null,
      ],
    ),
    [unit, null, null, null, null, component, litres, componentAt ?? null, null],
  ];
});

export const runsSpot: TableSpot = {
  sheet: 'Pipe runs',
  headerRow: HEADER_ROW,
  columns: HEADER.length,
  lastRow: HEADER_ROW + rows.length + SPARE,
};

const firstRow = HEADER_ROW + 1;

export const runsSheet: ModelSheet = {
  name: 'Pipe runs',
  widths: [14, 14, 20, 12, 9, 36, 12, 18, 18],
  frozenRows: HEADER_ROW,
  frozenColumns: 1,
  tabColour: '4F6D7A',
  cells: {
    A1: { value: 'Pipe runs and components', look: 'title' },
    A2: {
      value:
        'One row a length of copper tube, or a component that holds gas. Figures are those of one unit; Units says how many there are. From and To name the ends of a long line, as Port on Units does. Blank Standard: ASTM B280 coil, else straight, else EN 12735-1.',
      look: 'note',
      wrap: false,
    },
    A3: rowsBelow('Runs', runsSpot),
  },
  blocks: [
    { at: `A${HEADER_ROW}`, rows: [[...HEADER]], look: 'header' },
    {
      at: `A${firstRow}`,
      rows: [...rows, ...spareRows(HEADER.length, SPARE)],
      look: 'input',
      columns: [
        { look: 'input' },
        { look: 'input' },
        { look: 'input' },
        { look: 'input', format: '0.0' },
        { look: 'input', format: '0' },
        { look: 'input' },
        { look: 'input', format: '0.0' },
        { look: 'input' },
        { look: 'input' },
      ],
    },
  ],
  validations: [
    {
      range: `B${firstRow}:B${runsSpot.lastRow}`,
      list: choice('sizes'),
      title: 'Tube size',
      message: 'Pick a size, or clear it and name a component with its volume.',
    },
    {
      range: `C${firstRow}:C${runsSpot.lastRow}`,
      list: choice('standards'),
      title: 'Standard',
      message: 'Blank tries the standards in the order of the list.',
    },
  ],
  numberRules: [
    { range: `D${firstRow}:E${runsSpot.lastRow}`, least: 0, title: 'Length and count', message: '0 or more.' },
  ],
  print: printed({ landscape: false, headerRow: HEADER_ROW, area: 'A:I' }),
};
