import type { ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed } from '../layout.ts';
import { templateRigs } from '../rigs.ts';
import { spilledColumn, widthOf } from '../spilled.ts';

const ID = 'RIG.COMPARE';
const HEADER_ROW = 8;
const FIRST_ROW = HEADER_ROW + 1;

/** Every rig on one system; by default those of the template. */
export function compareSheet(
  rigs: number = templateRigs.length,
  formula = '=NARROWS.RIG.COMPARE(Parts,B4,B5:D5,Conditions)',
  about = 'Change one part at a time on Parts and read off what it does. Rigs A, F and I differ by the hose, the core and the pump.',
): ModelSheet {
  const FILLED_ROW = HEADER_ROW + rigs;
  /** rows that the chart draws */
  const SHOWN = rigs + 8;
  /** three pump sizes and eight rigs more */
  const LAST_ROW = HEADER_ROW + 3 * (rigs + 8);

  const columns = widthOf(ID);
  const end = letter(columns - 1);
  const minutes = spilledColumn(ID, 'Time to target');
  const shown = (column: string): string => `Compare!$${column}$${FIRST_ROW}:$${column}$${HEADER_ROW + SHOWN}`;
  return {
    name: 'Compare',
    widths: [39, 16, 18, 18, 20, 20, 34, 18, 20],
    frozenRows: HEADER_ROW,
    frozenColumns: 1,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Compare: every rig on one system', look: 'title' },
      A2: {
        value: about,
        look: 'note',
        wrap: false,
      },
      A4: { value: 'Inside volume of the system (L)', look: 'label' },
      B4: { value: 10, look: 'input', format: '0.0' },
      A5: { value: 'Pump speeds to try', look: 'label' },
      B5: { value: null, look: 'input' },
      C5: { value: null, look: 'input' },
      D5: { value: null, look: 'input' },
      E5: { value: 'such as 4 cfm; all blank: each rig behind its own pump', look: 'note', wrap: false },
      A6: {
        value: formula.includes('Conditions')
          ? 'Conditions are those of the Conditions sheet.'
          : 'Air at 20 C from an atmosphere to 500 micron.',
        look: 'note',
        wrap: false,
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
        columns: Array.from({ length: columns }, (_, at) => ({
          look: 'formula' as const,
          format: letter(at) === spilledColumn(ID, 'Speed at target') ? '0.000' : '0.00',
        })),
      },
    ],
    numberRules: [{ range: 'B4', least: 0, title: 'Volume', message: 'Litres, above 0.' }],
    charts: [
      {
        kind: 'bar',
        title: `Minutes to target, rig by rig (first ${SHOWN} rows)`,
        from: `${letter(columns + 1)}${HEADER_ROW}`,
        to: `${letter(columns + 11)}${HEADER_ROW + 22}`,
        categories: shown('A'),
        series: [{ name: 'Minutes', values: shown(minutes) }],
        yTitle: 'min',
        altText: 'Bars of the minutes to target for each rig on a system of the volume typed above.',
      },
    ],
    print: printed({ headerRow: HEADER_ROW, area: `A:${end}` }),
  };
}
