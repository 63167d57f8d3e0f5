import type { ModelCell, ModelSheet } from '../../src/workbook/model.ts';
import { growingTable } from '../growing.ts';
import { rates, ratesHeader } from '../labour.ts';
import { letter, printed, spareRows } from '../layout.ts';
import { scenarioUnits } from '../scenario.ts';
import { drawnNumbers, drawnRows, lastPlace, spilledColumn, spilledLooks, widthOf } from '../spilled.ts';
import { ofRisk, riskWithout } from './risk.ts';
import { unitsSpot } from './units.ts';

const SHEET = 'Labour';
const ID = 'LABOUR.TABLE';

const FIGURES_ROW = 4;
/** Rates stand beside the figures, from the wide column of the rigs on. */
const RATES_COLUMN = 2;
const RATES_ROW = 4;
const RATES_LAST = RATES_ROW + rates.length + 4;

/** Nothing stands below this table: it is as long as Units and Rates. */
const TABLE_ROW = 16;
const TABLE_FIRST = TABLE_ROW + 1;
/** below the units: Total, one row a role, Gear, Labour and gear */
const BELOW = 3;
const TABLE_END = TABLE_ROW + scenarioUnits.length + rates.length + BELOW;
/** as many rows as Units and the rates have room for; a longer table spills all the same, without number formats */
const TABLE_LAST = TABLE_ROW + (unitsSpot.lastRow - unitsSpot.headerRow) + (RATES_LAST - RATES_ROW) + BELOW;

/** What the chart draws, right of the table: the first rows of Units, without the totals below them. */
const CHART_COLUMN = widthOf(ID) + 1;
const CHART_ROOM = scenarioUnits.length + 11;

const [ratesFrom, ratesTo] = [letter(RATES_COLUMN), letter(RATES_COLUMN + ratesHeader.length - 1)];
export const ratesRange = `${SHEET}!$${ratesFrom}$${RATES_ROW}:$${ratesTo}$${RATES_LAST}`;

const table = growingTable(ID, TABLE_ROW, 'Verdict');
const column = (name: string): string => spilledColumn(ID, name);
/** Where the rows below those of Units stand in the table. */
const places = {
  Total: `$${letter(CHART_COLUMN + 1)}$${TABLE_ROW - 2}`,
  Gear: `$${letter(CHART_COLUMN + 1)}$${TABLE_ROW - 1}`,
};

/** A cell of one of those rows. */
const ofRow = (row: keyof typeof places, name: string): string => `INDEX(${table.cells(name)},${places[row]})`;
/** The same where it is a number, else words that say why there is none. */
const numberOr = (words: string, row: keyof typeof places, name: string): string =>
  table.figure(`IF(ISNUMBER(${ofRow(row, name)}),${ofRow(row, name)},${words})`);

/** No row of Units names another rig: then nothing stands in the columns that compare. */
export const NONE = '"none given"';
const isCompared = `ISNUMBER(${ofRow('Total', 'Saves')})`;
/** Some rig has a part without a price: then the row of the gear has words only. */
const NO_COST = '"no Cost"';

const FIGURES: readonly (readonly [label: string, formula: string, format: string])[] = [
  ['Attended hours of the whole project', table.figure(ofRow('Total', 'Attended')), '#,##0.0'],
  ['Waiting hours: pumps and holds', table.figure(ofRow('Total', 'Waiting')), '#,##0.0'],
  ['Cost of labour', table.figure(ofRow('Total', 'Cost')), '#,##0'],
  [
    'The other rigs save: hours',
    table.figure(`IF(${isCompared},${ofRow('Total', 'Saves attended')}+${ofRow('Total', 'Saves waiting')},${NONE})`),
    '#,##0.0',
  ],
  ['The other rigs save: money', numberOr(NONE, 'Total', 'Saves'), '#,##0'],
  ['Price of the rigs in use, each once', numberOr(NO_COST, 'Gear', 'Cost'), '#,##0'],
  [
    'Price of the rigs with the other rigs',
    numberOr(`IF(${isCompared},${NO_COST},${NONE})`, 'Gear', 'Other cost'),
    '#,##0',
  ],
  ['Attended hours, half of all cases (P50)', ofRisk('P50', 'Attended'), '#,##0.0'],
  ['Attended hours, 80 of 100 cases (P80)', ofRisk('P80', 'Attended'), '#,##0.0'],
  ['Attended hours, 90 of 100 cases (P90)', ofRisk('P90', 'Attended'), '#,##0.0'],
];
const figure = (row: number): string => `${SHEET}!$B$${FIGURES_ROW + row}`;

/** Where Start finds its figures. */
export const labourFigures = {
  attended: figure(0),
  savesHours: figure(3),
  savesMoney: figure(4),
  gear: figure(5),
  otherGear: figure(6),
  half: figure(7),
  eighty: figure(8),
  /** words where there are no figures or they are without some rows of Units, else blank */
  without: `${SHEET}!$A$${FIGURES_ROW - 1}`,
  /** words where rows keep their own rig beside the other, else blank */
  kept: `${SHEET}!$A$${FIGURES_ROW + FIGURES.length}`,
  /** words where there is no risk, else blank */
  noRisk: `${SHEET}!$${ratesFrom}$${RATES_LAST + 2}`,
} as const;

const verdict = ofRow('Total', 'Verdict');
const leavesOut = `LEFT(${verdict},7)="without"`;

/** What Total leaves out, as its verdict begins: it stands beside the figures, since the verdict is far to the right. */
function withoutWords(): string {
  const words = `LEFT(${verdict},FIND(";",${verdict}&";")-1)&": see Verdict"`;
  return `=${table.told(`IF(${leavesOut},${words},"")`)}`;
}

/** The rest of the verdict: how many rows keep their own rig, and so save nothing. */
function keptWords(): string {
  return `=IFERROR(IF(${leavesOut},MID(${verdict},FIND(";",${verdict}&";")+2,99),${verdict}&""),"")`;
}

const FORMATS: Readonly<Record<string, string>> = {
  Count: '0',
  'Attended each': '0.00',
  'Waiting each': '0.00',
  Cost: '#,##0',
  'Gear cost': '#,##0',
  'Other cost': '#,##0',
  'Other gear cost': '#,##0',
  Saves: '#,##0',
};

const DRAWN = ['Unit', 'Attended', 'Waiting'] as const;

/** Hours and money of the whole project, and what other rigs save. */
export function labourSheet(): ModelSheet {
  const end = letter(widthOf(ID) - 1);
  const drawn = (at: number): string => {
    const name = letter(CHART_COLUMN + at);
    return `${SHEET}!$${name}$${TABLE_FIRST}:$${name}$${TABLE_ROW + CHART_ROOM}`;
  };
  return {
    name: SHEET,
    widths: [47, 17, 26, 9, 14, 12, 14, 12, 8, 10, 10, 26, 9, 13, 11, 10, 10, 13, 11, 10, 25, 3, 18, 14, 14],
    heights: {
      ...Object.fromEntries(FIGURES.map((_, index) => [FIGURES_ROW + index, 22])),
      [FIGURES_ROW]: 32,
      [TABLE_ROW]: 47,
    },
    frozenRows: 2,
    frozenColumns: 1,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Labour: hours and money of the whole project', look: 'title' },
      A2: {
        value:
          'Rates and prices are invented: put in your own. Work on one unit stands on Units and Conditions, prices of gear on Parts; how far all of it may be off on Risk.',
        look: 'note',
        wrap: false,
      },
      [`A${FIGURES_ROW - 1}`]: { formula: withoutWords(), look: 'formula' },
      [`A${FIGURES_ROW + FIGURES.length}`]: { formula: keptWords(), look: 'formula' },
      // beside the figures of the risk; directly below the rates it would be taken for one of them
      [`${ratesFrom}${RATES_LAST + 2}`]: { formula: `=IF(${riskWithout}="","","no risk: see Risk")`, look: 'formula' },
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
        spills: `A${TABLE_ROW}:${end}${TABLE_END}`,
        look: 'header',
      },
    },
    blocks: [
      {
        at: `A${FIGURES_ROW}`,
        rows: FIGURES.map(([label, formula, format]): ModelCell[] => [
          { value: label, look: 'label' },
          { formula: `=${formula}`, look: 'figure', format },
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
      { at: `B${TABLE_ROW}`, rows: spareRows(widthOf(ID) - 1, 1), look: 'header' },
      {
        at: `A${TABLE_FIRST}`,
        rows: spareRows(widthOf(ID), TABLE_LAST - TABLE_ROW),
        columns: spilledLooks(ID, FORMATS),
      },
      {
        at: `${letter(CHART_COLUMN)}${TABLE_ROW - 2}`,
        rows: (['Total', 'Gear'] as const).map((row): ModelCell[] => [
          { value: `Place of ${row}`, look: 'note' },
          { formula: `=${table.place(lastPlace(row, column('Unit'), TABLE_FIRST))}`, look: 'formula', format: '0' },
        ]),
      },
      { at: `${letter(CHART_COLUMN)}${TABLE_ROW}`, rows: [DRAWN.map((name) => `Chart: ${name}`)], look: 'header' },
      {
        at: `${letter(CHART_COLUMN)}${TABLE_FIRST}`,
        rows: drawnRows(CHART_COLUMN, TABLE_FIRST, CHART_ROOM, places.Total, [
          [column('Unit'), (found) => found],
          [column('Attended'), drawnNumbers],
          [column('Waiting'), drawnNumbers],
        ]),
        look: 'formula',
        columns: [{}, { format: '#,##0.0' }, { format: '#,##0.0' }],
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
        title: `Hours of each row of Units: attended, and waiting (first ${CHART_ROOM} rows)`,
        from: `${letter(CHART_COLUMN + DRAWN.length + 1)}${TABLE_ROW}`,
        to: `${letter(CHART_COLUMN + DRAWN.length + 10)}${TABLE_ROW + CHART_ROOM}`,
        categories: drawn(0),
        series: [
          { name: 'Attended', values: drawn(1) },
          { name: 'Waiting', values: drawn(2) },
        ],
        stacked: true,
        yTitle: 'h',
        altText:
          'One bar for each row of Units: attended hours of all its units, and end to end with them the waiting.',
      },
    ],
    print: printed({ headerRow: TABLE_ROW, area: `A:${end}`, columnsBefore: [column('Other rig')] }),
  };
}
