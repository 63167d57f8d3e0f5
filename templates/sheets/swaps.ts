import type { ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed, spareRows } from '../layout.ts';
import { widthOf } from '../spilled.ts';

const ID = 'GEAR.SWAPS';
const HEADER_ROW = 4;
const MOST_CHANGES = 40;
/** units and per cent; all else is hours */
const FORMATS: Readonly<Record<string, string>> = { C: '#,##0', G: '#,##0.0' };

/** Which one change of the rigs saves the whole job the most pump hours. */
export function swapsSheet(formula: string): ModelSheet {
  const columns = widthOf(ID);
  const end = letter(columns - 1);
  return {
    name: 'Swaps',
    widths: [27, 46, 7, 13, 11, 10, 10, 60],
    heights: { [HEADER_ROW]: 48 },
    frozenRows: HEADER_ROW,
    frozenColumns: 1,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Swaps: one change for the whole job', look: 'title' },
      A2: {
        value:
          'Pump hours of all units, lines and water included, with one part changed and all else as it is. The best first.',
        look: 'note',
        wrap: false,
      },
      [`A${HEADER_ROW}`]: { formula, spills: 'unknown', look: 'header' },
    },
    blocks: [
      { at: `B${HEADER_ROW}`, rows: spareRows(columns - 1, 1), look: 'header' },
      {
        at: `A${HEADER_ROW + 1}`,
        rows: spareRows(columns, MOST_CHANGES),
        columns: Array.from({ length: columns }, (_, at) => ({
          look: 'formula' as const,
          format: FORMATS[letter(at)] ?? '#,##0.000',
        })),
      },
    ],
    print: printed({ headerRow: HEADER_ROW, area: `A:${end}` }),
  };
}
