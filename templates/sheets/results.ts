import type { ModelSheet } from '../../src/workbook/model.ts';
import { growingTable, withoutRows } from '../growing.ts';
import { letter, printed, type TableSpot } from '../layout.ts';
import { litresOf } from '../report-units.ts';
import { scenarioUnits } from '../scenario.ts';
import { spilledColumn, widthOf } from '../spilled.ts';
import { unitsSpot } from './units.ts';

const ID = 'EVAC.PROJECT';
const HEADER_ROW = 10;
const FIRST_ROW = HEADER_ROW + 1;
/** Where Start finds its figures. */
export const resultFigures = {
  units: 'Results!$B$4',
  hours: 'Results!$B$5',
  longest: 'Results!$B$6',
  /** words where there are no figures or they are without some rows of Units, else blank */
  without: 'Results!$A$3',
} as const;

/** The results of a table of units, by default that of the template. */
export function resultsSheet(
  spot: TableSpot = unitsSpot,
  units: number = scenarioUnits.length,
  formula = '=NARROWS.EVAC.PROJECT(Units,Parts,Runs,Conditions)',
): ModelSheet {
  /** as many rows as Units has room for; a longer table spills all the same, without number formats */
  const LAST_ROW = HEADER_ROW + (spot.lastRow - spot.headerRow);
  const FILLED_ROW = HEADER_ROW + units;
  /** rows that the chart draws */
  const SHOWN = units + 11;

  // one row for each row of Units
  const table = growingTable(ID, HEADER_ROW, 'Verdict', { room: 'ROWS(Units)' });
  const column = table.cells;
  const ofTable = (formula: string): string => `=${table.figure(formula)}`;
  // a row without a Total is left out of every figure, as on Labour
  const unanswered = `(COUNT(${column('Count')})-COUNT(${column('Total')}))`;
  const answered = (name: string): string => `IF(ISNUMBER(${column('Total')}),${column(name)},0)`;
  const volume = `$${spilledColumn(ID, 'Volume')}$${HEADER_ROW}`;

  const columns = widthOf(ID);
  const end = letter(columns - 1);
  const dry = spilledColumn(ID, 'Time to target');
  const total = spilledColumn(ID, 'Total');
  const shown = (at: string): string => `Results!$${at}$${FIRST_ROW}:$${at}$${HEADER_ROW + SHOWN}`;
  const chartFrom = letter(columns + 1);
  const chartTo = letter(columns + 11);
  return {
    name: 'Results',
    widths: [46, 12, 33, 13, 13, 18, 26, 14, 88, 12, 12, 20, 9, 14, 12, 18],
    heights: { [HEADER_ROW]: 32 },
    frozenRows: HEADER_ROW,
    frozenColumns: 1,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Results: evacuation of the whole project', look: 'title' },
      A2: {
        value:
          'The table is one formula in its top left cell and grows with Units. Total counts: dry, at the target, and the far end of a line, too. Totals read the columns by ordinary functions.',
        look: 'note',
        wrap: false,
      },
      A3: { formula: `=${table.told(withoutRows(unanswered, 'see Verdict'))}`, look: 'formula' },
      A4: { value: 'Units in all', look: 'label' },
      B4: { formula: ofTable(`SUMIF(${column('Total')},">=0",${column('Count')})`), look: 'figure', format: '#,##0' },
      A5: { value: 'Pump hours, one unit after another', look: 'label' },
      B5: {
        formula: ofTable(`SUMPRODUCT(${column('Count')},${answered('Total')})/60`),
        look: 'figure',
        format: '#,##0.0',
      },
      A6: { value: 'Longest single pull, until dry (min)', look: 'label' },
      B6: { formula: ofTable(`MAX(${answered('Total')})`), look: 'figure', format: '#,##0' },
      A7: { value: 'Mean pull (min a unit)', look: 'label' },
      B7: { formula: '=IF(ISTEXT(B4),B4,IF(B4>0,60*B5/B4,0))', look: 'figure', format: '#,##0.0' },
      A8: { value: 'Inside volume of all units (L)', look: 'label' },
      B8: {
        formula: ofTable(litresOf(`SUMPRODUCT(${column('Count')},${answered('Volume')})`, volume)),
        look: 'figure',
        format: '#,##0',
      },
      A9: { value: 'Pump hours for water and long lines', look: 'label' },
      B9: {
        formula: ofTable(`B5-SUMPRODUCT(${column('Count')},${answered('Time to target')})/60`),
        look: 'figure',
        format: '#,##0.0',
      },
      [`A${HEADER_ROW}`]: {
        formula,
        spills: `A${HEADER_ROW}:${end}${FILLED_ROW}`,
        look: 'header',
      },
    },
    blocks: [
      { at: `B${HEADER_ROW}`, rows: [Array.from({ length: columns - 1 }, () => null)], look: 'header' },
      {
        at: `A${FIRST_ROW}`,
        rows: Array.from({ length: LAST_ROW - HEADER_ROW }, () => Array.from({ length: columns }, () => null)),
        look: 'formula',
        format: '#,##0.0',
        columns: Array.from({ length: columns }, (_, at) =>
          letter(at) === spilledColumn(ID, 'Count')
            ? { look: 'formula', format: '0' }
            : { look: 'formula', format: '#,##0.0' },
        ),
      },
    ],
    charts: [
      {
        kind: 'bar',
        title: `Minutes for one unit of each row: dry system, and with its water and line (first ${SHOWN} rows)`,
        from: `${chartFrom}${HEADER_ROW}`,
        to: `${chartTo}${HEADER_ROW + 32}`,
        categories: shown('A'),
        series: [
          { name: 'Dry system', values: shown(dry) },
          { name: 'Total, with water and line', values: shown(total) },
        ],
        yTitle: 'min',
        altText:
          'Two bars for each row of the table: minutes of the dry system to the target, and minutes until one unit is dry and its far end at the target.',
      },
    ],
    print: printed({ headerRow: HEADER_ROW, area: `A:${end}`, columnsBefore: [spilledColumn(ID, 'Verdict')] }),
  };
}
