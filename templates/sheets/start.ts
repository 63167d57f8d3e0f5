import type { ModelSheet } from '../../src/workbook/model.ts';
import { SCENARIO } from '../scenario.ts';
import { resultFigures } from './results.ts';

const STEPS = [
  'Conditions: set gas, temperature and the pressure to reach.',
  'Parts: describe your rigs from the pump to the system, one row a part.',
  'Pipe runs: enter tube sizes, lengths and the volumes of components.',
  'Units: one row a group of equal units, with its rig, the water left in it and the port of a long line.',
  'Results, Compare and One rig follow by themselves; read Cautions before the work.',
];

const FIGURES = [
  ['Units in all', resultFigures.units, '#,##0', ''],
  ['Pump hours, all units one after another', resultFigures.hours, '#,##0.0', 'h'],
  ['Longest single pull, until dry', resultFigures.longest, '#,##0', 'min'],
] as const;

export const startSheet: ModelSheet = {
  name: 'Start',
  widths: [6, 62, 16, 8, 40],
  gridLines: false,
  tabColour: '2E7D5B',
  cells: {
    A1: { value: 'Evacuation times for a whole project', look: 'title' },
    A2: { value: `Example: ${SCENARIO}. Place, people and figures are invented.`, look: 'note', wrap: false },
    A4: { value: 'What to do', look: 'heading' },
    A11: { value: 'The answer in three figures', look: 'heading' },
    A16: { value: 'Before you begin', look: 'heading' },
    A17: {
      value: 'Results are estimates. Local codes, the maker of the equipment and a licensed technician come first.',
      look: 'caution',
      wrap: false,
    },
    A19: { value: 'How to read the sheets', look: 'heading' },
    A20: { value: 'in', look: 'input', align: 'center' },
    B20: { value: 'Cells that look like this are yours to fill.', look: 'text' },
    A21: { value: 'out', look: 'formula', align: 'center' },
    B21: { value: 'Cells that look like this are worked out: leave them alone.', look: 'text' },
    A23: { value: 'If cells show a name error', look: 'heading' },
    A24: {
      value:
        'Then this program lacks the NARROWS functions. Single figures keep their stored values until they are worked out again.',
      look: 'text',
      wrap: false,
    },
    A25: {
      value:
        'Open the book with the add-in or the embedded sheet (in the pane: enter formulas again), or make a copy in values: narrows fill BOOK.xlsx --values -o COPY.xlsx',
      look: 'text',
      wrap: false,
    },
  },
  blocks: [
    { at: 'A5', rows: STEPS.map((step, index) => [index + 1, step]), columns: [{ look: 'label' }, { look: 'text' }] },
    {
      at: 'A12',
      rows: FIGURES.map(([label, cell, format, unit]) => [
        null,
        { value: label, look: 'label' as const },
        { formula: `=${cell}`, look: 'figure' as const, format },
        { value: unit, look: 'text' as const },
      ]),
    },
  ],
  merges: ['A17:E17'],
  print: { paper: 'a4', landscape: true, fitWidth: true },
};
