import type { ModelSheet } from '../../src/workbook/model.ts';
import { factors, factorsHeader } from '../labour.ts';
import { letter, printed, spareRows } from '../layout.ts';
import { drawnRows, orFault, spilledCells, spilledColumn, spilledLooks, widthOf } from '../spilled.ts';
import { PERCENTILES } from './conditions.ts';

const SHEET = 'Risk';
const ID = 'LABOUR.RISK';

const FACTORS_ROW = 4;
const FACTORS_LAST = FACTORS_ROW + factors.length + 3;
/** Nothing stands below this table: it is as long as the percentiles of Conditions and the factors. */
const TABLE_ROW = FACTORS_LAST + 3;
const TABLE_FIRST = TABLE_ROW + 1;
/** one row a percentile, Mean, one row a factor */
const TABLE_END = TABLE_ROW + PERCENTILES.length + 1 + factors.length;
const TABLE_ROOM = 30;

/** The charts stand beside the table, the points that they draw beside them. */
const CHART_COLUMN = widthOf(ID) + 1;
const CHART_COLUMNS = 8;
const CHART_ROWS = 20;
const CURVE_COLUMN = CHART_COLUMN + CHART_COLUMNS + 1;
const CURVE_HEADER = ['Percentile', 'Attended (h)', 'Cost'] as const;
const CURVE_ROOM = 15;

export const factorsRange = `${SHEET}!$A$${FACTORS_ROW}:$${letter(factorsHeader.length - 1)}$${FACTORS_LAST}`;

const column = (name: string): string => spilledColumn(ID, name);
const cells = (name: string): string => spilledCells(column(name), TABLE_FIRST);
const firstCells = spilledCells('A', TABLE_FIRST);
const table = `$A$${TABLE_ROW}`;

/** Words where there is no risk, else blank: other than the hours it cannot leave a row out. */
const without = `$B$${TABLE_ROW - 1}`;
export const riskWithout = `${SHEET}!${without}`;
const NO_RISK = 'no risk: a row that it reads is wrong; see Verdict on Labour, or Check in the pane';

/**
 * A cell of the risk, by its percentile, for other sheets; words where Conditions does not ask for that percentile. The
 * percentiles stand first in the table, so that no factor of such a name is met.
 */
export function ofRisk(percentile: string, name: string): string {
  const there = `${SHEET}!`;
  const place = `MATCH("${percentile}",${there}${firstCells},0)`;
  const found = `INDEX(${there}${cells(name)},${place})`;
  return orFault(`${there}${table}`, `IF(ISNA(${place}),"not asked for",${found})`);
}

const FORMATS: Readonly<Record<string, string>> = {
  'Attended error': '0.00',
  'Waiting error': '0.00',
  'Days error': '0.000',
  Cost: '#,##0',
  Rank: '0',
};

/** Place of the row under the percentiles; blank where the table is an error, so that nothing is drawn of it. */
const MEAN = `$${letter(CURVE_COLUMN + 1)}$${TABLE_ROW - 1}`;

const same = (found: string): string => found;
/** Points of the curves: percentile without its P, hours and cost. */
const CURVE = [
  ['A', (found: string): string => `VALUE(MID(${found},2,9))`],
  [column('Attended'), same],
  [column('Cost'), same],
] as const;

/** How far hours and money of the whole project may be off, and what drives that. */
export function riskSheet(): ModelSheet {
  const end = letter(widthOf(ID) - 1);
  const [percent, attended, cost] = CURVE_HEADER.map((_, at) => {
    const name = letter(CURVE_COLUMN + at);
    return `${SHEET}!$${name}$${TABLE_FIRST}:$${name}$${TABLE_ROW + CURVE_ROOM}`;
  }) as [string, string, string];
  const [chartFrom, chartTo] = [letter(CHART_COLUMN), letter(CHART_COLUMN + CHART_COLUMNS - 1)];
  return {
    name: SHEET,
    widths: [
      38,
      ...Array.from({ length: 10 }, () => 13),
      3,
      ...Array.from({ length: CHART_COLUMNS }, () => 9),
      3,
      14,
      14,
      14,
    ],
    heights: { [TABLE_ROW]: 47 },
    frozenRows: 2,
    frozenColumns: 1,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Risk: how far hours and money may be off', look: 'title' },
      A2: {
        value:
          'The factors are guesses of common practice without a source: put in your own. Conditions says which percentiles are asked for.',
        look: 'note',
        wrap: false,
      },
      [`A${FACTORS_ROW - 1}`]: { value: 'What may be off', look: 'heading' },
      [`B${FACTORS_ROW - 1}`]: {
        value:
          'Low, Likely and High are passed in 90, 50 and 10 of 100 cases: multiples of water and attended time, minutes for leaks, C for ambient. Shared yes: one draw for all units.',
        look: 'note',
        wrap: false,
      },
      [`A${TABLE_ROW - 1}`]: { value: 'How far that goes', look: 'heading' },
      [without.replaceAll('$', '')]: { formula: `=IF(ISERROR(${table}),"${NO_RISK}","")`, look: 'formula' },
      [`${letter(CURVE_COLUMN)}${TABLE_ROW - 1}`]: { value: 'Place of Mean', look: 'note' },
      [MEAN.replaceAll('$', '')]: {
        formula: `=IF(ISERROR(${table}),"",MATCH("Mean",${firstCells},0))`,
        look: 'formula',
        format: '0',
      },
      [`A${TABLE_ROW}`]: {
        formula: '=NARROWS.LABOUR.RISK(Units,Parts,Rates,Factors,Runs,Conditions)',
        spills: `A${TABLE_ROW}:${end}${TABLE_END}`,
        look: 'header',
      },
    },
    blocks: [
      { at: `A${FACTORS_ROW}`, rows: [[...factorsHeader]], look: 'header' },
      {
        at: `A${FACTORS_ROW + 1}`,
        rows: [
          ...factors.map((row) => [...row]),
          ...spareRows(factorsHeader.length, FACTORS_LAST - FACTORS_ROW - factors.length),
        ],
        look: 'input',
        columns: [{}, {}, { format: '0.0#' }, { format: '0.0#' }, { format: '0.0#' }, { format: '0.0#' }, {}],
      },
      { at: `B${TABLE_ROW}`, rows: spareRows(widthOf(ID) - 1, 1), look: 'header' },
      { at: `A${TABLE_FIRST}`, rows: spareRows(widthOf(ID), TABLE_ROOM), columns: spilledLooks(ID, FORMATS) },
      { at: `${letter(CURVE_COLUMN)}${TABLE_ROW}`, rows: [[...CURVE_HEADER]], look: 'header' },
      {
        at: `${letter(CURVE_COLUMN)}${TABLE_FIRST}`,
        rows: drawnRows(CURVE_COLUMN, TABLE_FIRST, CURVE_ROOM, MEAN, CURVE, true),
        look: 'formula',
        columns: [{ format: '0.0' }, { format: '#,##0.0' }, { format: '#,##0' }],
      },
    ],
    validations: [
      {
        range: `B${FACTORS_ROW + 1}:B${FACTORS_LAST}`,
        list: ['water', 'ambient', 'access', 'learning', 'leaks'],
        title: 'Acts on',
        message: 'One factor on each.',
        strict: true,
      },
      {
        range: `G${FACTORS_ROW + 1}:G${FACTORS_LAST}`,
        list: ['yes', 'no'],
        title: 'Shared',
        message: 'yes: one draw for the whole project. Blank or no: each kind of unit has its own.',
        strict: true,
      },
    ],
    charts: [
      {
        kind: 'scatter',
        title: 'Attended hours that are not passed, in so many of 100 cases',
        from: `${chartFrom}${TABLE_ROW}`,
        to: `${chartTo}${TABLE_ROW + CHART_ROWS}`,
        categories: attended,
        series: [{ name: 'attended hours', values: percent }],
        xTitle: 'attended hours',
        yTitle: 'of 100 cases',
        altText:
          'A rising curve: for each number of attended hours, in how many of 100 cases the project needs no more than that.',
      },
      {
        kind: 'scatter',
        title: 'Cost that is not passed, in so many of 100 cases',
        from: `${chartFrom}${TABLE_ROW + CHART_ROWS + 1}`,
        to: `${chartTo}${TABLE_ROW + 2 * CHART_ROWS + 1}`,
        categories: cost,
        series: [{ name: 'cost', values: percent }],
        xTitle: 'cost of labour',
        yTitle: 'of 100 cases',
        altText: 'A rising curve: for each sum of money, in how many of 100 cases the labour costs no more than that.',
      },
    ],
    print: printed({ headerRow: TABLE_ROW, area: `A:${end}` }),
  };
}
