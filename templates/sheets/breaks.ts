import type { ModelCell, ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed, spareRows, type TableSpot } from '../layout.ts';
import { drawnRows, lastPlace, orFault, spilledCells, spilledColumn, widthOf } from '../spilled.ts';
import { conditionRows, TAKEN_OVER } from '../taken-over.ts';
import { choice } from './lists.ts';

const ID = 'EVAC.BREAKS';
const SHEET = 'Breaks';
/** Invented: a wet system under insulation that gets little heat in a vacuum and more while nitrogen stands in it. */
const RIG = 'F half-inch hose, core out';
const LITRES = 10;
const WATER = 20;
const HEAT = 0.2;
const PLAN_HEADER = [
  'Pull to (micron)',
  'Break to',
  'Gas',
  'Supply',
  'Wait (min)',
  'Longest pull (min)',
  'Heat under gas (W/K)',
] as const;
const BREAK = [1000, '0.2 bar g', 'nitrogen', '2 bar g', 8, 15, 2] as const;
const PLAN: readonly (readonly (string | number | null)[])[] = [
  BREAK,
  BREAK,
  [500, null, null, null, null, null, null],
];

const CONDITIONS_ROW = 7;
const OWN = [
  ['Water', WATER, 'g'],
  ['Heat', HEAT, 'W/K'],
] as const;
const CONDITIONS = `A${CONDITIONS_ROW}:C${CONDITIONS_ROW + OWN.length + TAKEN_OVER.length - 1}`;
const PLAN_ROW = 4;
const PLAN_COLUMN = 4;
const PLAN_ROOM = 12;
const FIGURES_ROW = CONDITIONS_ROW + OWN.length + TAKEN_OVER.length + 1;
const CHARTS_ROW = FIGURES_ROW + 5;
const TABLE_ROW = CHARTS_ROW + 22;
/** three rows a step with a break and its wait, one for the last pull */
const EVENTS = 3 * (PLAN.length - 1) + 1;
/** the whole plan, one deep pull, and the difference */
const SPILLED = EVENTS + 3;
const TABLE_ROOM = 3 * PLAN_ROOM + 3;

/** What the chart draws, right of the table: the events of a plan that fills its room, without the rows below them. */
const CHART_ROOM = 3 * (PLAN_ROOM - 1) + 1;
const CHART_COLUMN = widthOf(ID) + 1;
const DRAWN = ['Time so far', 'Water left'] as const;
/** Place of the row under the events; blank where the table is an error. */
const PLAN_END = `$${letter(CHART_COLUMN + 1)}$${TABLE_ROW - 1}`;

const column = (name: string): string => spilledColumn(ID, name);

export const planSpot: TableSpot = {
  sheet: SHEET,
  headerRow: PLAN_ROW,
  columns: PLAN_HEADER.length,
  lastRow: PLAN_ROW + PLAN_ROOM,
};
const [planFrom, planTo] = [letter(PLAN_COLUMN), letter(PLAN_COLUMN + PLAN_HEADER.length - 1)];
export const planRange = `${SHEET}!$${planFrom}$${PLAN_ROW}:$${planTo}$${planSpot.lastRow}`;

const WHOLE = 'whole plan';

/** A cell of the row that `what` names in the spilled table: such rows stand at its end. */
function ofRow(what: string, name: string): string {
  const place = what === WHOLE ? PLAN_END : lastPlace(what, column('What'), TABLE_ROW + 1);
  return `=${orFault(`A${TABLE_ROW}`, `INDEX(${spilledCells(column(name), TABLE_ROW + 1)},${place})`)}`;
}

const FORMATS: Readonly<Record<string, string>> = {
  Step: '0',
  'Air left': '0.00E+00',
  'Air mass left': '0.00E+00',
  'Water left': '0.00',
};

/** A plan of pulls and nitrogen breaks against one deep pull. */
export function breaksSheet(): ModelSheet {
  const columns = widthOf(ID);
  const end = letter(columns - 1);
  const formats = Array.from({ length: columns }, (_, at) => {
    const named = Object.entries(FORMATS).find(([name]) => column(name) === letter(at));
    return { look: 'formula' as const, format: named?.[1] ?? '#,##0.0' };
  });
  const figures: readonly (readonly [string, string, string])[] = [
    ['Minutes, whole plan', ofRow(WHOLE, 'Time'), '#,##0.0'],
    ['Minutes, one deep pull', ofRow('one deep pull', 'Time'), '#,##0.0'],
    ['Minutes saved (minus: lost)', `=B${FIGURES_ROW + 2}-B${FIGURES_ROW + 1}`, '#,##0.0'],
  ];
  const [firstFigure, secondFigure] = [FIGURES_ROW + 1, FIGURES_ROW + 2];
  const events = (name: (typeof DRAWN)[number]): string => {
    const own = letter(CHART_COLUMN + DRAWN.indexOf(name));
    return `${SHEET}!$${own}$${TABLE_ROW + 1}:$${own}$${TABLE_ROW + CHART_ROOM}`;
  };
  const inPlan = (at: number): string => {
    const name = letter(PLAN_COLUMN + at);
    return `${name}${PLAN_ROW + 1}:${name}${planSpot.lastRow}`;
  };
  return {
    name: SHEET,
    widths: [40, 29, 18, 16, 20, 15, 17, 16, 20, 22, 102, 3, 20, 18],
    heights: {
      ...Object.fromEntries(figures.map((_, index) => [FIGURES_ROW + 1 + index, 22])),
      [TABLE_ROW]: 32,
    },
    frozenRows: 2,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Breaks: nitrogen between pulls, or one deep pull', look: 'title' },
      A2: {
        value:
          'One row of the plan is a pull and the break after it; the last has no break. Nitrogen only through a regulator with a relief device; take the vacuum gauge off before gas goes in unless it is rated for it.',
        look: 'note',
        wrap: false,
      },
      A4: { value: 'Rig', look: 'label' },
      B4: { value: RIG, look: 'input' },
      A5: { value: 'Inside volume of the system (L)', look: 'label' },
      B5: { value: LITRES, look: 'input', format: '0.0' },
      A6: { value: 'Water and Heat are yours to set; the rest is that of Conditions.', look: 'note', wrap: false },
      [`A${FIGURES_ROW}`]: { value: 'What it comes to', look: 'heading' },
      [`A${TABLE_ROW - 1}`]: { value: 'The plan, step by step', look: 'heading' },
      [`${letter(CHART_COLUMN)}${TABLE_ROW - 1}`]: { value: 'Place of whole plan', look: 'note' },
      [PLAN_END.replaceAll('$', '')]: {
        formula: `=IF(ISERROR(A${TABLE_ROW}),"",${lastPlace(WHOLE, column('What'), TABLE_ROW + 1)})`,
        look: 'formula',
        format: '0',
      },
      [`A${TABLE_ROW}`]: {
        formula: `=NARROWS.EVAC.BREAKS(B5,Parts,B4,BreakPlan,${CONDITIONS})`,
        spills: `A${TABLE_ROW}:${end}${TABLE_ROW + SPILLED}`,
        look: 'header',
      },
    },
    blocks: [
      { at: `A${CONDITIONS_ROW}`, rows: conditionRows(OWN) },
      { at: `${planFrom}${PLAN_ROW}`, rows: [[...PLAN_HEADER]], look: 'header' },
      {
        at: `${planFrom}${PLAN_ROW + 1}`,
        rows: [...PLAN.map((row) => [...row]), ...spareRows(PLAN_HEADER.length, PLAN_ROOM - PLAN.length)],
        look: 'input',
        columns: [{ format: '#,##0' }, {}, {}, {}, { format: '0' }, { format: '0' }, { format: '0.0#' }],
      },
      {
        at: `A${FIGURES_ROW + 1}`,
        rows: figures.map(([label, formula, format]): ModelCell[] => [
          { value: label, look: 'label' },
          { formula, look: 'figure', format },
        ]),
      },
      { at: `B${TABLE_ROW}`, rows: spareRows(columns - 1, 1), look: 'header' },
      { at: `A${TABLE_ROW + 1}`, rows: spareRows(columns, TABLE_ROOM), look: 'formula', columns: formats },
      { at: `${letter(CHART_COLUMN)}${TABLE_ROW}`, rows: [DRAWN.map((name) => `Chart: ${name}`)], look: 'header' },
      {
        at: `${letter(CHART_COLUMN)}${TABLE_ROW + 1}`,
        rows: drawnRows(
          CHART_COLUMN,
          TABLE_ROW + 1,
          CHART_ROOM,
          PLAN_END,
          DRAWN.map((name) => [column(name), (found) => found] as const),
          true,
        ),
        look: 'formula',
        columns: [{ format: '#,##0.0' }, { format: '0.00' }],
      },
    ],
    validations: [
      { range: 'B4', list: '=RigNames', title: 'Rig', message: 'Pick a rig of the Parts sheet.' },
      {
        range: inPlan(2),
        list: choice('gases'),
        title: 'Gas',
        message: 'Dry nitrogen; blank is nitrogen. Never oxygen or shop air.',
      },
    ],
    numberRules: [
      { range: 'B5', least: 0, title: 'Volume', message: 'Litres, above 0.' },
      { range: inPlan(0), least: 0, title: 'Pull to', message: 'Micron. Blank in the last row: the target.' },
      {
        range: `B${CONDITIONS_ROW}:B${CONDITIONS_ROW + OWN.length - 1}`,
        least: 0,
        title: 'Water and heat',
        message: 'Grams; W/K from the surroundings to the water, above 0 with any water.',
      },
    ],
    charts: [
      {
        kind: 'bar',
        title: 'Minutes: the plan against one deep pull',
        from: `A${CHARTS_ROW}`,
        to: `${planFrom}${CHARTS_ROW + 20}`,
        categories: `${SHEET}!$A$${firstFigure}:$A$${secondFigure}`,
        series: [{ name: 'Minutes', values: `${SHEET}!$B$${firstFigure}:$B$${secondFigure}` }],
        yTitle: 'min',
        altText: 'Two bars: minutes of the whole plan, and minutes of one deep pull to the same end.',
      },
      {
        kind: 'scatter',
        title: `Water left through the plan (first ${CHART_ROOM} rows)`,
        // where a page begins: none of the charts goes over two
        from: `${planFrom}${CHARTS_ROW}`,
        to: `J${CHARTS_ROW + 20}`,
        categories: events('Time so far'),
        series: [{ name: 'water left', values: events('Water left') }],
        xTitle: 'min',
        yTitle: 'water left',
        altText: 'Water that is left after each pull, break and wait of the plan, against the minutes so far.',
      },
    ],
    print: printed({
      headerRow: TABLE_ROW,
      area: `A:${end}`,
      columnsBefore: [planFrom],
      repeatColumns: 'A:A',
      pagesAcross: 1,
    }),
  };
}
