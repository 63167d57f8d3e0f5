import type { ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed, spareRows } from '../layout.ts';
import { templateRigs } from '../rigs.ts';
import { spilledColumn, widthOf } from '../spilled.ts';

const SHEET = 'Gear';
const ID = 'GEAR.PARETO';
const HEADER_ROW = 4;
const FIRST_ROW = HEADER_ROW + 1;
const FILLED_ROW = HEADER_ROW + templateRigs.length;
/** eight rigs more; the chart draws as many */
const SHOWN = templateRigs.length + 8;
const LAST_ROW = HEADER_ROW + SHOWN;

const column = (name: string): string => spilledColumn(ID, name);
const cells = (name: string): string => `${SHEET}!$${column(name)}$${FIRST_ROW}:$${column(name)}$${LAST_ROW}`;
const FORMATS: Readonly<Record<string, string>> = {
  'Gear cost': '#,##0',
  'Its cost an hour saved': '#,##0',
};

/** Every rig for the whole project: pump hours against price. */
export function gearSheet(): ModelSheet {
  const columns = widthOf(ID);
  const formats = Array.from({ length: columns }, (_, at) => {
    const named = Object.entries(FORMATS).find(([name]) => column(name) === letter(at));
    return { look: 'formula' as const, format: named?.[1] ?? '#,##0.0' };
  });
  return {
    name: SHEET,
    widths: [33, 15, 12, 12, 12, 33, 12, 15, 16, 80],
    heights: { [HEADER_ROW]: 48 },
    frozenRows: HEADER_ROW,
    frozenColumns: 1,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Gear: every rig for the whole project', look: 'title' },
      A2: {
        value:
          'Pump hours of all units one after another with that rig alone, against the price of one set. On the front: no other rig is as cheap and as quick. Prices stand on Parts and are examples.',
        look: 'note',
        wrap: false,
      },
      [`A${HEADER_ROW}`]: {
        formula: '=NARROWS.GEAR.PARETO(Units,Parts,Runs,Conditions)',
        spills: `A${HEADER_ROW}:${letter(columns - 1)}${FILLED_ROW}`,
        look: 'header',
      },
    },
    blocks: [
      { at: `B${HEADER_ROW}`, rows: spareRows(columns - 1, 1), look: 'header' },
      { at: `A${FIRST_ROW}`, rows: spareRows(columns, LAST_ROW - HEADER_ROW), columns: formats },
    ],
    charts: [
      {
        kind: 'scatter',
        title: `Pump hours of the whole project against the price of the rig (first ${SHOWN} rigs)`,
        from: `${letter(columns + 1)}${HEADER_ROW}`,
        to: `${letter(columns + 11)}${HEADER_ROW + 24}`,
        categories: cells('Gear cost'),
        series: [{ name: 'one rig', values: cells('Pump time'), points: true }],
        xTitle: 'price of the rig',
        yTitle: 'pump hours',
        altText: 'One point for each rig: pump hours of the whole project with that rig alone, against its price.',
      },
    ],
    print: printed({ headerRow: HEADER_ROW, area: `A:${letter(columns - 1)}` }),
  };
}
