import type { ModelCell, ModelSheet } from '../../src/workbook/model.ts';
import { factors, factorsHeader, rates, ratesHeader } from '../labour.ts';
import { letter, spareRows } from '../layout.ts';
import { scenarioUnits } from '../scenario.ts';
import { spilledColumn, widthOf } from '../spilled.ts';
import { PERCENTILES } from './conditions.ts';
import { unitsSpot } from './units.ts';

const SHEET = 'Labour';
const HOURS = 'LABOUR.TABLE';
const RISK = 'LABOUR.RISK';

const FIGURES_ROW = 4;
/** Rates stand beside the figures, from the wide column of the rigs on. */
const RATES_COLUMN = 2;
const RATES_ROW = 4;
const RATES_LAST = RATES_ROW + rates.length + 4;

const TABLE_ROW = 16;
const TABLE_FIRST = TABLE_ROW + 1;
const TABLE_FILLED = TABLE_ROW + scenarioUnits.length;
/** below the units: Total, one row a role, Gear, Labour and gear */
const BELOW = 3;
const TABLE_END = TABLE_FILLED + rates.length + BELOW;
/** as many rows as Units and the rates have room for */
const TABLE_LAST = TABLE_ROW + (unitsSpot.lastRow - unitsSpot.headerRow) + (RATES_LAST - RATES_ROW) + BELOW;

const CHARTS_ROW = TABLE_LAST + 3;
const CHARTS_END = CHARTS_ROW + 26;

const FACTORS_ROW = CHARTS_END + 3;
const FACTORS_LAST = FACTORS_ROW + factors.length + 3;
const RISK_ROW = FACTORS_LAST + 2;
/** one row a percentile, Mean, one row a factor */
const RISK_END = RISK_ROW + PERCENTILES.length + 1 + factors.length;
const RISK_LAST = RISK_ROW + 30;
/** Points of the curve, beside the spilled table. */
const CURVE_COLUMN = 12;
const CURVE_ROOM = 15;

const [ratesFrom, ratesTo] = [letter(RATES_COLUMN), letter(RATES_COLUMN + ratesHeader.length - 1)];
export const ratesRange = `${SHEET}!$${ratesFrom}$${RATES_ROW}:$${ratesTo}$${RATES_LAST}`;
export const factorsRange = `${SHEET}!$A$${FACTORS_ROW}:$${letter(factorsHeader.length - 1)}$${FACTORS_LAST}`;

const hours = (name: string): string => spilledColumn(HOURS, name);
const risk = (name: string): string => spilledColumn(RISK, name);

/** A cell of the table of hours, by the name of its row and its column. */
function ofHours(row: string, name: string): string {
  const cells = (at: string): string => `$${at}$${TABLE_FIRST}:$${at}$${TABLE_LAST}`;
  return `INDEX(${cells(hours(name))},MATCH("${row}",${cells('A')},0))`;
}

/** A cell of the risk, by its percentile; words where Conditions does not ask for it. */
function ofRisk(percentile: string, name: string): string {
  const cells = (at: string): string => `$${at}$${RISK_ROW + 1}:$${at}$${RISK_LAST}`;
  return `IFERROR(INDEX(${cells(risk(name))},MATCH("${percentile}",${cells('A')},0)),"not asked for")`;
}

const FIGURES: readonly (readonly [label: string, formula: string, format: string])[] = [
  ['Attended hours of the whole project', `=${ofHours('Total', 'Attended')}`, '#,##0.0'],
  ['Waiting hours: pumps and holds', `=${ofHours('Total', 'Waiting')}`, '#,##0.0'],
  ['Cost of labour', `=${ofHours('Total', 'Cost')}`, '#,##0'],
  [
    'The other rigs save: hours',
    `=${ofHours('Total', 'Saves attended')}+${ofHours('Total', 'Saves waiting')}`,
    '#,##0.0',
  ],
  ['The other rigs save: money', `=${ofHours('Total', 'Saves')}`, '#,##0'],
  ['Price of the rigs in use, each once', `=${ofHours('Gear', 'Cost')}`, '#,##0'],
  ['Price of the rigs with the other rigs', `=${ofHours('Gear', 'Other cost')}`, '#,##0'],
  ['Attended hours, half of all cases (P50)', `=${ofRisk('P50', 'Attended')}`, '#,##0.0'],
  ['Attended hours, 80 of 100 cases (P80)', `=${ofRisk('P80', 'Attended')}`, '#,##0.0'],
  ['Attended hours, 90 of 100 cases (P90)', `=${ofRisk('P90', 'Attended')}`, '#,##0.0'],
];
const figure = (row: number): string => `${SHEET}!$B$${FIGURES_ROW + row}`;

/** Where Start finds its figures. */
export const labourFigures = {
  attended: figure(0),
  savesHours: figure(3),
  savesMoney: figure(4),
  gear: figure(5),
  otherGear: figure(6),
} as const;

const HOURS_FORMATS: Readonly<Record<string, string>> = {
  Count: '0',
  'Attended each': '0.00',
  'Waiting each': '0.00',
  Cost: '#,##0',
  'Gear cost': '#,##0',
  'Other cost': '#,##0',
  'Other gear cost': '#,##0',
  Saves: '#,##0',
};
const RISK_FORMATS: Readonly<Record<string, string>> = {
  'Attended error': '0.00',
  'Waiting error': '0.00',
  'Days error': '0.000',
  Cost: '#,##0',
  Rank: '0',
};

function formatsOf(id: string, formats: Readonly<Record<string, string>>) {
  return Array.from({ length: widthOf(id) }, (_, at) => {
    const named = Object.entries(formats).find(([name]) => spilledColumn(id, name) === letter(at));
    return { look: 'formula' as const, format: named?.[1] ?? '#,##0.0' };
  });
}

/** Percentile and hours of the nth percentile; beyond the last one, the last again, so that the curve ends there. */
function curveRows(): ModelCell[][] {
  const cells = (at: string): string => `$${at}$${RISK_ROW + 1}:$${at}$${RISK_LAST}`;
  return Array.from({ length: CURVE_ROOM }, (_, index) => {
    const nth = `MIN(${index + 1},MATCH("Mean",${cells('A')},0)-1)`;
    const cell = (formula: string, format: string): ModelCell => ({ formula, format, look: 'formula' });
    return [
      cell(`=VALUE(MID(INDEX(${cells('A')},${nth}),2,9))`, '0.0'),
      cell(`=INDEX(${cells(risk('Attended'))},${nth})`, '#,##0.0'),
      cell(`=INDEX(${cells(risk('Cost'))},${nth})`, '#,##0'),
    ];
  });
}

/** Hours and money of the whole project, what other rigs save, and how far all of it may be off. */
export function labourSheet(): ModelSheet {
  const hoursEnd = letter(widthOf(HOURS) - 1);
  const riskEnd = letter(widthOf(RISK) - 1);
  const rows = (name: string): string => `${SHEET}!$${hours(name)}$${TABLE_FIRST}:$${hours(name)}$${TABLE_FILLED}`;
  const [percent, attended, cost] = [CURVE_COLUMN, CURVE_COLUMN + 1, CURVE_COLUMN + 2].map(letter);
  const curve = (column = ''): string => `${SHEET}!$${column}$${RISK_ROW + 1}:$${column}$${RISK_ROW + CURVE_ROOM}`;
  return {
    name: SHEET,
    widths: [47, 13, 33, 12, 12, 12, 14, 12, 11, 12, 12, 33, 13, 13, 13, 13, 14, 13, 13, 12, 44],
    heights: {
      ...Object.fromEntries(FIGURES.map((_, index) => [FIGURES_ROW + index, 22])),
      [FIGURES_ROW]: 32,
      [TABLE_ROW]: 47,
      [RISK_ROW]: 47,
    },
    frozenRows: 2,
    frozenColumns: 1,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Labour: hours and money of the whole project', look: 'title' },
      A2: {
        value:
          'Rates and prices are invented, the factors are guesses of common practice without a source: put in your own. Work on one unit stands on Units and Conditions, prices of gear on Parts.',
        look: 'note',
        wrap: false,
      },
      [`${ratesFrom}${RATES_ROW - 1}`]: { value: 'Rates', look: 'heading' },
      [`${letter(RATES_COLUMN + 1)}${RATES_ROW - 1}`]: {
        value:
          'money an hour; people at a unit while it is attended, and paid while it waits; travel for each paid day',
        look: 'note',
        wrap: false,
      },
      [`A${TABLE_ROW - 1}`]: { value: 'Hours and money, row by row of Units', look: 'heading' },
      [`A${TABLE_ROW}`]: {
        formula: '=NARROWS.LABOUR.TABLE(Units,Parts,Rates,Runs,Conditions)',
        spills: `A${TABLE_ROW}:${hoursEnd}${TABLE_END}`,
        look: 'header',
      },
      [`A${CHARTS_ROW - 1}`]: { value: 'Where the hours go, and how far they may be off', look: 'heading' },
      [`A${FACTORS_ROW - 1}`]: { value: 'What may be off', look: 'heading' },
      [`B${FACTORS_ROW - 1}`]: {
        value:
          'Low, Likely and High are passed in 90, 50 and 10 of 100 cases: multiples of water and attended time, minutes for leaks, C for ambient. Shared yes: one draw for all units.',
        look: 'note',
        wrap: false,
      },
      [`A${RISK_ROW}`]: {
        formula: '=NARROWS.LABOUR.RISK(Units,Parts,Rates,Factors,Runs,Conditions)',
        spills: `A${RISK_ROW}:${riskEnd}${RISK_END}`,
        look: 'header',
      },
    },
    blocks: [
      {
        at: `A${FIGURES_ROW}`,
        rows: FIGURES.map(([label, formula, format]): ModelCell[] => [
          { value: label, look: 'label' },
          { formula, look: 'figure', format },
        ]),
      },
      { at: `${ratesFrom}${RATES_ROW}`, rows: [[...ratesHeader]], look: 'header' },
      {
        at: `${ratesFrom}${RATES_ROW + 1}`,
        rows: [
          ...rates.map((row) => [...row]),
          ...spareRows(ratesHeader.length, RATES_LAST - RATES_ROW - rates.length),
        ],
        look: 'input',
        columns: [
          {},
          { format: '#,##0.00' },
          { format: '0.0#' },
          { format: '0.0#' },
          { format: '0.0' },
          { format: '0' },
        ],
      },
      { at: `B${TABLE_ROW}`, rows: spareRows(widthOf(HOURS) - 1, 1), look: 'header' },
      {
        at: `A${TABLE_FIRST}`,
        rows: spareRows(widthOf(HOURS), TABLE_LAST - TABLE_ROW),
        columns: formatsOf(HOURS, HOURS_FORMATS),
      },
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
      { at: `B${RISK_ROW}`, rows: spareRows(widthOf(RISK) - 1, 1), look: 'header' },
      {
        at: `A${RISK_ROW + 1}`,
        rows: spareRows(widthOf(RISK), RISK_LAST - RISK_ROW),
        columns: formatsOf(RISK, RISK_FORMATS),
      },
      { at: `${percent}${RISK_ROW}`, rows: [['Percentile', 'Attended (h)', 'Cost']], look: 'header' },
      { at: `${percent}${RISK_ROW + 1}`, rows: curveRows() },
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
    numberRules: [
      {
        range: `${letter(RATES_COLUMN + 1)}${RATES_ROW + 1}:${ratesTo}${RATES_LAST}`,
        least: 0,
        title: 'Rates',
        message: 'Money, people or hours, 0 or more. Blank: attends 1, waits 0, a day of 8 h, no travel.',
      },
    ],
    charts: [
      {
        kind: 'bar',
        title: 'Hours of each row of Units: attended, and waiting',
        from: `A${CHARTS_ROW}`,
        to: `E${CHARTS_END}`,
        categories: rows('Unit'),
        series: [
          { name: 'Attended', values: rows('Attended') },
          { name: 'Waiting', values: rows('Waiting') },
        ],
        stacked: true,
        yTitle: 'h',
        altText:
          'One bar for each row of Units: attended hours of all its units, and end to end with them the waiting.',
      },
      {
        kind: 'scatter',
        title: 'Attended hours that are not passed, in so many of 100 cases',
        from: `F${CHARTS_ROW}`,
        to: `L${CHARTS_END}`,
        categories: curve(attended),
        series: [{ name: 'attended hours', values: curve(percent) }],
        xTitle: 'attended hours',
        yTitle: 'of 100 cases',
        altText:
          'A rising curve: for each number of attended hours, in how many of 100 cases the project needs no more than that.',
      },
      {
        kind: 'scatter',
        title: 'Cost that is not passed, in so many of 100 cases',
        from: `M${CHARTS_ROW}`,
        to: `T${CHARTS_END}`,
        categories: curve(cost),
        series: [{ name: 'cost', values: curve(percent) }],
        xTitle: 'cost of labour',
        yTitle: 'of 100 cases',
        altText: 'A rising curve: for each sum of money, in how many of 100 cases the labour costs no more than that.',
      },
    ],
    print: { paper: 'a4', landscape: true, fitWidth: true, area: `A1:${hoursEnd}${RISK_END}` },
  };
}
