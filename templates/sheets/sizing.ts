import type { ModelCell, ModelSheet } from '../../src/workbook/model.ts';
import { letter, printed, spareRows } from '../layout.ts';
import { widthOf } from '../spilled.ts';

const ID = 'RIG.SWAPS';
const HEADER_ROW = 12;
const MOST_CHANGES = 24;

/** One system: the minutes of a rig, the pump that a wanted time needs, and what to change first. */
export function sizingSheet(rig: string, volume: number): ModelSheet {
  const columns = widthOf(ID);
  const end = letter(columns - 1);
  // #N/A where volume, rig and minutes are sound: no pump can do it; every other fault is shown as it is
  const needed = 'NARROWS.CONVERT(NARROWS.PUMP.NEEDED(B4,Parts,B5,B6),"L/s","cfm")';
  // beside their names, so that a narrow window shows them too
  const figure = (formula: string, format: string): ModelCell => ({ formula, look: 'figure', format, align: 'left' });
  return {
    name: 'Sizing',
    widths: [50, 30, 18, 14, 14, 14],
    frozenRows: 2,
    tabColour: '2E7D5B',
    cells: {
      A1: { value: 'Sizing: one system, one rig', look: 'title' },
      A2: {
        value: 'Set the volume, the rig and the minutes that you have; the rest follows.',
        look: 'note',
        wrap: false,
      },
      A4: { value: 'Inside volume of the system (L)', look: 'label' },
      B4: { value: volume, look: 'input', format: '#,##0.0', align: 'left' },
      A5: { value: 'Rig', look: 'label' },
      B5: { value: rig, look: 'input' },
      A6: { value: 'Minutes that you have', look: 'label' },
      B6: { value: 10, look: 'input', format: '0', align: 'left' },
      A8: { value: 'Minutes to 500 micron with this rig', look: 'label' },
      B8: figure('=NARROWS.EVAC.TIME(B4,Parts,B5)', '#,##0.0'),
      A9: { value: 'Pump that the minutes need on it (cfm)', look: 'label' },
      B9: figure(
        `=IF(B6="","give the minutes",IF(ISERROR(B8),B8,IF(ISNA(${needed}),"no pump: change a part",${needed})))`,
        '#,##0.0',
      ),
      [`A${HEADER_ROW - 1}`]: { value: 'Single changes, the best first', look: 'heading' },
      [`A${HEADER_ROW}`]: {
        formula: '=NARROWS.RIG.SWAPS(Parts,B5,B4)',
        spills: 'unknown',
        look: 'header',
      },
    },
    blocks: [
      { at: `B${HEADER_ROW}`, rows: spareRows(columns - 1, 1), look: 'header' },
      { at: `A${HEADER_ROW + 1}`, rows: spareRows(columns, MOST_CHANGES), look: 'formula', format: '#,##0.00' },
    ],
    validations: [{ range: 'B5', list: '=RigNames', title: 'Rig', message: 'Pick a rig of the Parts sheet.' }],
    numberRules: [
      { range: 'B4', least: 0, title: 'Volume', message: 'Litres, above 0.' },
      { range: 'B6', least: 0, title: 'Minutes', message: 'Above 0.' },
    ],
    print: printed({ headerRow: HEADER_ROW, area: `A:${end}` }),
  };
}
