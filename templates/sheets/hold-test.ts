import type { ModelSheet } from '../../src/workbook/model.ts';
import { HOLD_REFRIGERANT, HOLD_VOLUME, holdLog } from '../hold-log.ts';
import { letter, printed, spareRows, type TableSpot } from '../layout.ts';
import { pascalOf } from '../report-units.ts';
import { orFault, spilledColumn, widthOf } from '../spilled.ts';
import { choice } from './lists.ts';

const ID = 'HOLD.READ';
const LEAK_ROW = 4;
const VERDICT_ROW = 7;
const LINE_ROW = 10;
const HEADER_ROW = 12;
const FIRST_ROW = HEADER_ROW + 1;
const SPARE = 35;
/** points of the line that a steady leak would draw */
const LINE_POINTS = 11;
const HEADER = ['Minutes', 'Pressure (micron)', 'Temperature (C)'] as const;

export const holdLogSpot: TableSpot = {
  sheet: 'Hold test',
  headerRow: HEADER_ROW,
  columns: HEADER.length,
  lastRow: HEADER_ROW + holdLog.length + SPARE,
};

/** What each verdict means, in a line. */
const MEANINGS: readonly (readonly [string, string])[] = [
  ['tight', 'The system holds: what rise there is, the gauge can hide. Charge when the level suits the maker.'],
  ['leak', 'Air comes in at a steady rate. Find the leak and mend it: a longer pull would not help.'],
  ['moisture', 'Water is boiling off inside. Go on drying; nothing points to a leak.'],
  ['outgassing', 'Oil, seals and walls give off gas ever more slowly. Keep pulling, then hold again.'],
  ['leak and moisture', 'Both at once. Mend the leak first, then dry.'],
];
const OPEN = 'Not settled yet: the cell under What to do says what would settle it.';

const meaning = (cell: string): string =>
  MEANINGS.reduceRight((rest, [verdict, words]) => `IF(${cell}="${verdict}","${words}",${rest})`, `"${OPEN}"`);

/** A log of readings, the verdict on it, and the readings beside the line that a steady leak would draw. */
export function holdTestSheet(): ModelSheet {
  const columns = widthOf(ID);
  const end = letter(columns - 1);
  const verdictRow = VERDICT_ROW + 1;
  const verdict = `${spilledColumn(ID, 'Verdict')}${verdictRow}`;
  const rise = spilledColumn(ID, 'Rise in a minute');
  const minutes = `$A$${FIRST_ROW}:$A$${holdLogSpot.lastRow}`;
  const lastLine = HEADER_ROW + LINE_POINTS;
  const range = (column: string, last: number): string => `'Hold test'!$${column}$${FIRST_ROW}:$${column}$${last}`;
  return {
    name: 'Hold test',
    widths: [39, 20, 20, 24, 22, 104],
    heights: { [verdictRow]: 48, [HEADER_ROW]: 32 },
    frozenRows: HEADER_ROW,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Hold test: leak, moisture or tight', look: 'title' },
      A2: {
        value:
          'Valve the pump off, read the gauge at the system, and type or paste the readings below, the first at minute 0. Clear the old ones before. The readings shown are invented.',
        look: 'note',
        wrap: false,
      },
      A4: { value: 'Inside volume of the system (L)', look: 'label' },
      B4: { value: HOLD_VOLUME, look: 'input', format: '0.0' },
      A5: { value: 'Refrigerant of the system', look: 'label' },
      B5: { value: HOLD_REFRIGERANT, look: 'input' },
      [`D${LEAK_ROW}`]: {
        formula: `=NARROWS.LEAK.RATE(B4,MAX(0,${pascalOf(`${rise}${verdictRow}`, `${rise}${VERDICT_ROW}`)}),1,B5)`,
        spills: `D${LEAK_ROW}:E${LEAK_ROW + 1}`,
        look: 'header',
      },
      [`E${LEAK_ROW}`]: { look: 'header' },
      [`D${LEAK_ROW + 1}`]: { look: 'formula', format: '0.0E+00', align: 'left' },
      [`E${LEAK_ROW + 1}`]: { look: 'formula', format: '#,##0', align: 'left' },
      F4: {
        value: 'If all of the rise is a leak: the flow, and the same flow of vapour of the refrigerant in a year.',
        look: 'note',
        wrap: false,
      },
      F5: { value: 'The same hole under the pressure of a charge loses far more.', look: 'note', wrap: false },
      [`A${VERDICT_ROW}`]: {
        formula: '=NARROWS.HOLD.READ(HoldLog,B4,Conditions)',
        spills: `A${VERDICT_ROW}:${end}${verdictRow}`,
        look: 'header',
      },
      A9: { value: 'What it means', look: 'label' },
      B9: { formula: `=${orFault(`A${VERDICT_ROW}`, meaning(verdict))}`, look: 'formula' },
      [`A${LINE_ROW}`]: { value: 'Leak', look: 'label' },
      [`B${LINE_ROW}`]: { formula: `=D${LEAK_ROW + 1}`, look: 'formula', format: '0.0E+00' },
      [`C${LINE_ROW}`]: { value: 'Pa m3/s', look: 'text' },
      [`D${LINE_ROW}`]: {
        value:
          'draws the line of the chart. Readings along it: a leak. Readings that bend away from it: something that slows down.',
        look: 'note',
        wrap: false,
      },
      [`A${LINE_ROW + 1}`]: {
        value:
          'A reading counts no finer than one micron, or than the steps that the log shows. For a coarser gauge add Gauge resolution to Conditions.',
        look: 'note',
        wrap: false,
      },
    },
    blocks: [
      { at: `B${VERDICT_ROW}`, rows: spareRows(columns - 1, 1), look: 'header' },
      {
        at: `A${verdictRow}`,
        rows: spareRows(columns, 1),
        look: 'text',
        columns: [{ look: 'label' }, { format: '0.0E+00' }, { format: '#,##0.00' }, {}, { format: '0.0' }, {}],
      },
      { at: `A${HEADER_ROW}`, rows: [[...HEADER]], look: 'header' },
      {
        at: `A${FIRST_ROW}`,
        rows: [...holdLog.map((row) => [...row, null]), ...spareRows(HEADER.length, SPARE)],
        look: 'input',
        columns: [{ format: '0.0' }, { format: '#,##0' }, { format: '0.0' }],
      },
      { at: `D${HEADER_ROW}`, rows: [['Line: minutes', 'Line: steady leak (micron)']], look: 'header' },
      {
        at: `D${FIRST_ROW}`,
        rows: Array.from({ length: LINE_POINTS }, (_, index) => [
          { formula: `=MAX(${minutes})*${index}/${LINE_POINTS - 1}` },
          {
            formula: `=NARROWS.CONVERT(NARROWS.HOLD.RISE($B$4,D${FIRST_ROW + index},NARROWS.CONVERT($B$${FIRST_ROW},"micron","Pa"),$A$${LINE_ROW}:$C$${LINE_ROW}),"Pa","micron")`,
          },
        ]),
        look: 'formula',
        columns: [{ format: '0.0' }, { format: '#,##0' }],
      },
    ],
    validations: [
      {
        range: 'B5',
        list: choice('gases'),
        title: 'Refrigerant',
        message: 'Pick a gas from the list; blank leaves out grams a year.',
      },
    ],
    numberRules: [
      { range: 'B4', least: 0, title: 'Volume', message: 'Litres, above 0.' },
      {
        range: `A${FIRST_ROW}:B${holdLogSpot.lastRow}`,
        least: 0,
        title: 'Reading',
        message: 'Minutes rising from row to row; pressure absolute, in micron.',
      },
    ],
    charts: [
      {
        kind: 'scatter',
        title: 'Readings beside a steady leak',
        from: `F${FIRST_ROW}`,
        to: `G${FIRST_ROW + 25}`,
        categories: range('D', lastLine),
        series: [
          // as far as the table goes: blank rows draw nothing, and a longer log is drawn in full
          {
            name: 'readings',
            values: range('B', holdLogSpot.lastRow),
            categories: range('A', holdLogSpot.lastRow),
            points: true,
          },
          { name: 'a steady leak at the rate found', values: range('E', lastLine) },
        ],
        xTitle: 'min',
        yTitle: 'micron',
        altText:
          'Readings of the hold test against minutes, and the straight line of a steady leak at the rate found. Readings along the line speak for a leak.',
      },
    ],
    print: printed({ headerRow: HEADER_ROW, area: `A:${end}` }),
  };
}
