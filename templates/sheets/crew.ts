import type { ModelCell, ModelSheet } from '../../src/workbook/model.ts';
import { growingTable } from '../growing.ts';
import { crews, crewsHeader } from '../labour.ts';
import { letter, printed, spareRows } from '../layout.ts';
import { scenarioUnits } from '../scenario.ts';
import { drawnNumbers, drawnRows, spilledColumn, widthOf } from '../spilled.ts';

const SHEET = 'Crew';
const ID = 'CREW.PLAN';

const FIGURES_ROW = 4;
/** Crews stand beside the figures, from the wide column of the rigs on. */
const CREWS_COLUMN = 3;
const CREWS_ROW = 4;
const CREWS_LAST = CREWS_ROW + crews.length + 4;

const HEADER_ROW = 13;
const FIRST_ROW = HEADER_ROW + 1;
const UNITS = scenarioUnits.reduce((sum, { count }) => sum + count, 0);
const FILLED_ROW = HEADER_ROW + UNITS;
/** below the units: Finish of all, First come, three bounds, Checks, Travel */
const BELOW = 7;
const END_ROW = FILLED_ROW + BELOW;
/** room for half as many units again; a longer plan spills all the same, without number formats */
const LAST_ROW = HEADER_ROW + Math.ceil(1.5 * UNITS) + BELOW;

/** What the chart draws: the first units of the plan, without the bounds below them. */
const CHART_ROOM = 150;

const [crewsFrom, crewsTo] = [letter(CREWS_COLUMN), letter(CREWS_COLUMN + crewsHeader.length - 1)];
export const crewsRange = `${SHEET}!$${crewsFrom}$${CREWS_ROW}:$${crewsTo}$${CREWS_LAST}`;

const column = (name: string): string => spilledColumn(ID, name);
/** One row a unit, so more of them than of other tables. */
const DEEPEST = 3_000;
const table = growingTable(ID, HEADER_ROW, 'Note', { deepest: DEEPEST });
const { cells } = table;
/** Place of one of the rows below the units; no crew is called so. */
const placeOf = (row: string): string => `MATCH("${row}",${cells('Crew')},0)`;
/** A cell of one of the rows below the units, by its name in the first column. */
const ofRow = (row: string, name: string): string => `INDEX(${cells(name)},${placeOf(row)})`;

/** The chart stands beside the table, and right of it the columns that it alone reads, so that paper can do without them. */
const PICTURE_COLUMN = widthOf(ID) + 1;
const PICTURE_COLUMNS = 12;
const CHART_COLUMN = PICTURE_COLUMN + PICTURE_COLUMNS + 1;
/** Place of the row under the units. */
const UNITS_END = `$${letter(CHART_COLUMN + 1)}$${HEADER_ROW - 1}`;

/** A column from its first row to the one under the units. */
const ofUnits = (name: string): string => `$${column(name)}$${FIRST_ROW}:INDEX(${cells(name)},${UNITS_END})`;

const LASTS = 'Lasts';
const BOUNDS = ['attended work', 'rig time', 'longest unit'].map((what) => ofRow(`Bound: ${what}`, LASTS)).join(',');

const FIGURES: readonly (readonly [label: string, formula: string, format: string])[] = [
  ['Working days by the plan', `${ofRow('Finish of all', 'Finish day')}-${ofRow('Finish of all', 'Day')}+1`, '0'],
  ['Units connected over a night', `COUNTIF(${ofUnits('Overnight')},"yes")`, '0'],
  ['Hours from first start to last finish', ofRow('Finish of all', LASTS), '#,##0.0'],
  ['Hours sooner than first come', `${ofRow('First come', LASTS)}-${ofRow('Finish of all', LASTS)}`, '#,##0.0'],
  ['No plan takes fewer hours than', `MAX(${BOUNDS})`, '#,##0.0'],
  ['Longer than that bound', `C${FIGURES_ROW + 2}/C${FIGURES_ROW + 4}-1`, '0.0%'],
  ['Hours on looks and on the way', `${ofRow('Checks', LASTS)}+${ofRow('Travel', LASTS)}`, '#,##0.0'],
];
const figure = (row: number): string => `${SHEET}!$C$${FIGURES_ROW + row}`;

/** Where Start finds its figures. */
export const crewFigures = {
  days: figure(0),
  overnight: figure(1),
  /** words where there are no figures or the plan is without some rows of Units, else blank */
  without: `${SHEET}!$A$${FIGURES_ROW - 1}`,
} as const;

/** What the plan leaves out, beside the figures: its note stands at the far end of the table. */
function withoutWords(): string {
  const note = ofRow('Finish of all', 'Note');
  const from = `FIND("without",${note})`;
  return `=${table.told(`IF(ISERROR(${from}),"",MID(${note},${from},LEN(${note}))&": see Note")`)}`;
}

const DRAWN = ['Unit', 'Begins', LASTS] as const;

/** Who evacuates which unit when, and how near to the best that is. */
export function crewSheet(): ModelSheet {
  const columns = widthOf(ID);
  const drawn = (at: number): string => {
    const name = letter(CHART_COLUMN + at);
    return `${SHEET}!$${name}$${FIRST_ROW}:$${name}$${HEADER_ROW + CHART_ROOM}`;
  };
  const hours = [column('Begins'), column(LASTS)];
  const [chartFrom, chartTo] = [letter(PICTURE_COLUMN), letter(PICTURE_COLUMN + PICTURE_COLUMNS)];
  // so wide that the table and its chart go on one page
  const beside = Array.from({ length: PICTURE_COLUMNS }, () => 6);
  return {
    name: SHEET,
    widths: [24, 19, 15, 30, 15, 9, 9, 9, 10, 10, 13, 14, 3, ...beside, 3, 22, 10, 10],
    heights: {
      ...Object.fromEntries(FIGURES.map((_, index) => [FIGURES_ROW + index, 22])),
      [FIGURES_ROW]: 32,
      [HEADER_ROW]: 32,
    },
    frozenRows: HEADER_ROW,
    frozenColumns: 2,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Crew: who evacuates which unit when', look: 'title' },
      A2: {
        value:
          'One row a unit, by its start, then the finish of all and the bounds that no plan can beat; bars to the right of the table. Every day is a working day. Steps and minutes are those of Labour. A rig is any set of gear.',
        look: 'note',
        wrap: false,
      },
      [`A${FIGURES_ROW - 1}`]: { formula: withoutWords(), look: 'formula' },
      [`${letter(CHART_COLUMN)}${HEADER_ROW - 1}`]: { value: 'Place of Finish of all', look: 'note' },
      [`${letter(CHART_COLUMN + 1)}${HEADER_ROW - 1}`]: {
        formula: `=${table.place(placeOf('Finish of all'))}`,
        look: 'formula',
        format: '0',
      },
      [`A${HEADER_ROW}`]: {
        formula: '=NARROWS.CREW.PLAN(Units,Parts,Crews,Runs,Conditions)',
        spills: `A${HEADER_ROW}:${letter(columns - 1)}${END_ROW}`,
        look: 'header',
      },
    },
    blocks: [
      {
        at: `A${FIGURES_ROW}`,
        rows: FIGURES.map(([label, formula, format]): (ModelCell | undefined)[] => [
          { value: label, look: 'label', wrap: false },
          undefined,
          { formula: `=${table.figure(formula)}`, look: 'figure', format },
        ]),
      },
      { at: `${crewsFrom}${CREWS_ROW}`, rows: [[...crewsHeader]], look: 'header' },
      {
        at: `${crewsFrom}${CREWS_ROW + 1}`,
        rows: [
          ...crews.map((row) => [...row]),
          ...spareRows(crewsHeader.length, CREWS_LAST - CREWS_ROW - crews.length),
        ],
        look: 'input',
        columns: [{}, ...Array.from({ length: 4 }, () => ({ format: '0' })), {}, {}, {}],
      },
      { at: `B${HEADER_ROW}`, rows: spareRows(columns - 1, 1), look: 'header' },
      {
        at: `A${FIRST_ROW}`,
        rows: spareRows(columns, LAST_ROW - HEADER_ROW),
        columns: Array.from({ length: columns }, (_, at) =>
          hours.includes(letter(at)) ? { look: 'formula' as const, format: '#,##0.0' } : { look: 'formula' as const },
        ),
      },
      { at: `${letter(CHART_COLUMN)}${HEADER_ROW}`, rows: [DRAWN.map((name) => `Chart: ${name}`)], look: 'header' },
      {
        at: `${letter(CHART_COLUMN)}${FIRST_ROW}`,
        rows: drawnRows(
          CHART_COLUMN,
          FIRST_ROW,
          CHART_ROOM,
          UNITS_END,
          DRAWN.map((name) => [column(name), name === 'Unit' ? (found) => found : drawnNumbers] as const),
        ),
        look: 'formula',
        columns: [{}, { format: '#,##0.0' }, { format: '#,##0.0' }],
      },
    ],
    validations: [
      {
        range: `${crewsTo}${CREWS_ROW + 1}:${crewsTo}${CREWS_LAST}`,
        list: ['yes', 'no'],
        title: 'Overnight',
        message: 'yes: pumps may run and holds stand while nobody is there.',
        strict: true,
      },
    ],
    numberRules: [
      {
        range: `${letter(CREWS_COLUMN + 1)}${CREWS_ROW + 1}:${letter(CREWS_COLUMN + 4)}${CREWS_LAST}`,
        least: 1,
        title: 'Crew',
        message: 'Whole numbers from 1 on. Pumps: blank where each rig has its own. Start day: working days from 1.',
      },
    ],
    charts: [
      {
        kind: 'bar',
        title: `From set-up to pack-up, hours from midnight of day 1 (first ${CHART_ROOM} units)`,
        from: `${chartFrom}${HEADER_ROW}`,
        to: `${chartTo}${HEADER_ROW + CHART_ROOM + 1}`,
        categories: drawn(0),
        series: [
          { name: 'Begins', values: drawn(1), unseen: true },
          { name: 'Lasts', values: drawn(2) },
        ],
        stacked: true,
        yStep: 24,
        scaleOnTop: true,
        altText:
          'One bar for each unit of the plan, from the hour of its set-up to the hour of its pack-up; 24 hours stand for each working day.',
      },
    ],
    print: printed({ headerRow: HEADER_ROW, area: `A:${letter(PICTURE_COLUMN + PICTURE_COLUMNS - 1)}` }),
  };
}
