import type { ModelCell, ModelChart, ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed, spareRows } from '../layout.ts';
import { orFault, spilledColumn, widthOf } from '../spilled.ts';
import { conditionRows, TAKEN_OVER } from '../taken-over.ts';

const PULL = 'EVAC.CURVE';
const DRY = 'DRY.CURVE';
const SHEET = 'Curves';
/** g and W/K of the example: a wet line after rain got in, uncovered copper in still air */
const WATER = 10;
const HEAT = 0.5;
const LITRES = 10;
const RIGS = ['A core in, small hose', 'B core out, small hose'] as const;
const PULL_POINTS = 25;
const DRY_POINTS = 60;

const CONDITIONS_ROW = 9;
const CONDITIONS = `$A$${CONDITIONS_ROW}:$C$${CONDITIONS_ROW + TAKEN_OVER.length}`;
const CHARTS_ROW = CONDITIONS_ROW + TAKEN_OVER.length + 2;
const CHART_ROWS = 20;
const PULL_ROW = CHARTS_ROW + 2 * CHART_ROWS + 3;
const DRY_ROW = PULL_ROW + PULL_POINTS + 3;

/** columns that the chart of the water's temperature reads: up to the last moment with water, then that again */
const WET = ['Chart: minutes', 'Chart: water temperature'] as const;

/** Where the tables of a rig begin. */
const firstColumn = (rig: number): number => rig * (widthOf(DRY) + WET.length + 1);
const columnOf = (id: string, name: string, rig: number): string =>
  letter(spilledColumn(id, name).charCodeAt(0) - 65 + firstColumn(rig));
const wetColumn = (at: number, rig: number): string => letter(firstColumn(rig) + widthOf(DRY) + at);

/** Formats of a spilled table by the names of its columns. */
function formats(id: string): { look: 'formula'; format: string }[] {
  return Array.from({ length: widthOf(id) }, (_, at) => {
    const fine = spilledColumn(id, id === PULL ? 'Speed at system' : 'Water left');
    return { look: 'formula', format: letter(at) === fine ? '0.000' : '#,##0.0' };
  });
}

function rangeOf(column: string, headerRow: number, points: number): string {
  return `${SHEET}!$${column}$${headerRow + 1}:$${column}$${headerRow + points}`;
}

function chart(
  spot: readonly [from: string, to: string],
  title: string,
  yTitle: string,
  altText: string,
  values: (rig: number) => { readonly x: string; readonly y: string },
  yLog = false,
): ModelChart {
  const [from, to] = spot;
  return {
    kind: 'scatter',
    title,
    from,
    to,
    categories: values(0).x,
    series: RIGS.map((_, rig) => ({ name: `rig ${rig + 1}`, values: values(rig).y, categories: values(rig).x })),
    xTitle: 'min',
    yTitle,
    yLog,
    altText,
  };
}

function charts(): ModelChart[] {
  const upper = CHARTS_ROW + CHART_ROWS;
  const pull = (rig: number) => ({
    x: rangeOf(columnOf(PULL, 'Time', rig), PULL_ROW, PULL_POINTS),
    y: rangeOf(columnOf(PULL, 'System pressure', rig), PULL_ROW, PULL_POINTS),
  });
  const dry = (name: string) => (rig: number) => ({
    x: rangeOf(columnOf(DRY, 'Time', rig), DRY_ROW, DRY_POINTS),
    y: rangeOf(columnOf(DRY, name, rig), DRY_ROW, DRY_POINTS),
  });
  const wet = (rig: number) => ({
    x: rangeOf(wetColumn(0, rig), DRY_ROW, DRY_POINTS),
    y: rangeOf(wetColumn(1, rig), DRY_ROW, DRY_POINTS),
  });
  const [left, right] = ['A', 'D'];
  const [leftEnd, rightEnd] = ['D', 'H'];
  return [
    chart(
      [`${left}${CHARTS_ROW}`, `${leftEnd}${upper}`],
      'Pull-down of the dry system',
      'pressure (log scale)',
      'Pressure in the dry system against minutes on a log scale, for both rigs.',
      pull,
      true,
    ),
    chart(
      [`${right}${CHARTS_ROW}`, `${rightEnd}${upper}`],
      'Dry-out: pressure',
      'pressure (log scale)',
      'Pressure in the wet system against minutes on a log scale, for both rigs: it stands still while water boils off.',
      dry('System pressure'),
      true,
    ),
    chart(
      [`${left}${upper + 1}`, `${leftEnd}${upper + 1 + CHART_ROWS}`],
      'Dry-out: water left',
      'water left',
      'Water that is left in the system against minutes, for both rigs.',
      dry('Water left'),
    ),
    chart(
      [`${right}${upper + 1}`, `${rightEnd}${upper + 1 + CHART_ROWS}`],
      'Dry-out: temperature of the water',
      'water temperature',
      'Temperature of the water against minutes, for both rigs, up to the moment when it is gone.',
      wet,
    ),
  ];
}

/** Two rigs on one system, dry and wet: the pull-down and the dry-out side by side. */
export function curvesSheet(): ModelSheet {
  const cells: Record<string, ModelCell> = {};
  const blocks: NonNullable<ModelSheet['blocks']>[number][] = [];
  const figures = ['E', 'F'] as const;
  RIGS.forEach((name, rig) => {
    const first = firstColumn(rig);
    const cell = `$B$${4 + rig}`;
    cells[`A${4 + rig}`] = { value: `Rig ${rig + 1}`, look: 'label' };
    cells[`B${4 + rig}`] = { value: name, look: 'input' };
    for (const [id, row, points, formula] of [
      [PULL, PULL_ROW, PULL_POINTS, `=NARROWS.EVAC.CURVE($B$6,Parts,${cell},${PULL_POINTS},${CONDITIONS})`],
      [DRY, DRY_ROW, DRY_POINTS, `=NARROWS.DRY.CURVE($B$6,$B$7,Parts,${cell},${DRY_POINTS},${CONDITIONS})`],
    ] as const) {
      const columns = widthOf(id);
      const [from, to] = [letter(first), letter(first + columns - 1)];
      cells[`${from}${row - 1}`] = {
        formula: `="${id === PULL ? 'Pull-down of the dry system' : 'Dry-out'}: "&${cell}`,
        look: 'formula',
      };
      cells[`${from}${row}`] = { formula, spills: `${from}${row}:${to}${row + points}`, look: 'header' };
      blocks.push({ at: `${letter(first + 1)}${row}`, rows: spareRows(columns - 1, 1), look: 'header' });
      blocks.push({ at: `${from}${row + 1}`, rows: spareRows(columns, points), look: 'formula', columns: formats(id) });
    }
    const [time, temperature] = [columnOf(DRY, 'Time', rig), columnOf(DRY, 'Water temperature', rig)];
    const state = columnOf(DRY, 'State', rig);
    const rows = (column: string): string => `${column}${DRY_ROW + 1}:${column}${DRY_ROW + DRY_POINTS}`;
    // Water never comes back, so what has a temperature are the first rows.
    const wetRows = `COUNT(${rows(temperature)})`;
    blocks.push({ at: `${wetColumn(0, rig)}${DRY_ROW}`, rows: [[...WET]], look: 'header' });
    blocks.push({
      at: `${wetColumn(0, rig)}${DRY_ROW + 1}`,
      rows: [
        [time, temperature].map((column, at) => ({
          formula: `=IF(${rows(temperature)}="",IF(${wetRows}=0,0,INDEX(${rows(column)},${wetRows})),${rows(column)})`,
          spills: rows(wetColumn(at, rig)),
        })),
        ...spareRows(WET.length, DRY_POINTS - 1),
      ],
      look: 'formula',
      format: '0.0',
    });
    const at = figures[rig] ?? 'E';
    const dryTable = `${letter(first)}${DRY_ROW}`;
    cells[`${at}4`] = { value: `Rig ${rig + 1}`, look: 'header' };
    cells[`${at}5`] = {
      formula: `=NARROWS.EVAC.TIME($B$6,Parts,${cell},${CONDITIONS})`,
      look: 'figure',
      format: '#,##0.0',
    };
    cells[`${at}6`] = {
      formula: `=NARROWS.DRY.TIME($B$6,$B$7,Parts,${cell},${CONDITIONS})`,
      look: 'figure',
      format: '#,##0.0',
    };
    cells[`${at}7`] = {
      formula: `=${orFault(dryTable, `IF(COUNT(${rows(temperature)})=0,"",MIN(${rows(temperature)}))`)}`,
      look: 'figure',
      format: '0.0',
    };
    cells[`${at}8`] = {
      formula: `=${orFault(dryTable, `IF(COUNTIF(${rows(state)},"ice")+COUNTIF(${rows(state)},"freezing")>0,"yes","no")`)}`,
      look: 'figure',
    };
  });
  return {
    name: SHEET,
    widths: [39, 32, 18, 44, 16, 21, 40, 18, 20, 3, 34, 20, 18, 22, 16, 18, 24, 18, 20],
    heights: { 5: 22, 6: 22, 7: 22, 8: 22, [PULL_ROW]: 32, [DRY_ROW]: 32 },
    frozenRows: 2,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Curves: two rigs on one system, dry and wet', look: 'title' },
      A2: {
        value: 'Pick two rigs, a volume and the water in it. Rig 1 and rig 2 differ by the core in the example.',
        look: 'note',
        wrap: false,
      },
      A6: { value: 'Inside volume of the system (L)', look: 'label' },
      B6: { value: LITRES, look: 'input', format: '0.0' },
      A7: { value: 'Water in the system (g)', look: 'label' },
      B7: { value: WATER, look: 'input', format: '0.0' },
      A8: { value: 'Heat is yours to set; the rest is that of Conditions.', look: 'note', wrap: false },
      D4: { value: 'What it comes to', look: 'header' },
      D5: { value: 'Minutes to target, dry system', look: 'label' },
      D6: { value: 'Minutes until dry and at target', look: 'label' },
      D7: { formula: `="Lowest: "&${columnOf(DRY, 'Water temperature', 0)}${DRY_ROW}`, look: 'formula' },
      D8: { value: 'Freezes on the way', look: 'label' },
      D9: {
        value: 'Heat: as a start 10 W/K for each square metre of wetted pipe in still air (common practice).',
        look: 'note',
        wrap: false,
      },
      ...cells,
    },
    blocks: [
      {
        at: `A${CONDITIONS_ROW}`,
        rows: conditionRows([['Heat', HEAT, 'W/K']]),
      },
      ...blocks,
    ],
    validations: [{ range: 'B4:B5', list: '=RigNames', title: 'Rig', message: 'Pick a rig of the Parts sheet.' }],
    numberRules: [
      { range: 'B6:B7', least: 0, title: 'Volume and water', message: 'Litres, above 0; grams, 0 or more.' },
      {
        range: `B${CONDITIONS_ROW}`,
        least: 0,
        title: 'Heat',
        message: 'W/K from the surroundings to the water, above 0: without heat it never dries.',
      },
    ],
    charts: charts(),
    // up to the columns that the charts alone read, then the tables of rig 2 between these; figures and charts on one page, and each table of rig 1 begins one
    print: printed({
      headerRow: DRY_ROW,
      breaksBefore: [PULL_ROW - 1, DRY_ROW - 1],
      area: RIGS.map((_, rig) => {
        const from = firstColumn(rig);
        const top = rig === 0 ? 1 : PULL_ROW - 1;
        return `${letter(from)}${top}:${letter(from + widthOf(DRY) - 1)}${DRY_ROW + DRY_POINTS}`;
      }).join(','),
    }),
  };
}
