import type { ModelSheet } from '../../src/workbook/model.ts';
import { SCENARIO } from '../scenario.ts';
import { crewFigures } from './crew.ts';
import { labourFigures } from './labour.ts';
import { resultFigures } from './results.ts';

const STEPS = [
  'Conditions: set gas, temperature and the pressure to reach.',
  'Parts: describe your rigs from the pump to the system, one row a part.',
  'Pipe runs: enter tube sizes, lengths and the volumes of components.',
  'Units: one row a group of equal units, with its rig, the water left in it and the port of a long line.',
  'The other sheets follow by themselves; read Cautions before the work.',
];

const FIGURES = [
  ['Attended hours of the whole project', labourFigures.attended, '#,##0.0', 'h', null],
  [
    'Working days by the plan of the crews',
    crewFigures.days,
    '#,##0',
    'days',
    `="units connected over a night: "&${crewFigures.overnight}`,
  ],
  [
    'Better gear saves',
    labourFigures.savesHours,
    '#,##0.0',
    'h',
    `="and "&TEXT(${labourFigures.savesMoney},"#,##0")&" of the cost of labour; rigs cost "&TEXT(${labourFigures.otherGear},"#,##0")&", now "&TEXT(${labourFigures.gear},"#,##0")`,
  ],
  ['Beside that: pump hours, all units one after another', resultFigures.hours, '#,##0.0', 'h', null],
] as const;

/** Sheets beside the way from Conditions to Results, with what they show. */
const OTHERS: readonly (readonly [string, string])[] = [
  ['Curves', 'two rigs on one system, dry and wet: pressure, water and its temperature over time.'],
  [
    'Long line',
    'minutes at every node of a long pipe run, one port against two, and what the gauge at the port hides.',
  ],
  ['Breaks', 'a plan of pulls and nitrogen breaks, step by step, against one deep pull.'],
  ['Hold test', 'paste the readings of a hold test and read off leak, moisture or tight, and how sure that is.'],
];

export const startSheet: ModelSheet = {
  name: 'Start',
  widths: [6, 62, 16, 8, 58],
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
    A23: { value: 'The other sheets', look: 'heading' },
    A29: { value: 'If cells show a name error', look: 'heading' },
    A30: {
      value:
        'Then this program lacks the NARROWS functions. Single figures keep their stored values until they are worked out again.',
      look: 'text',
      wrap: false,
    },
    A31: {
      value:
        'Open the book with the add-in or the embedded sheet (in the pane: enter formulas again), or make a copy in values: narrows fill BOOK.xlsx --values -o COPY.xlsx',
      look: 'text',
      wrap: false,
    },
  },
  blocks: [
    { at: 'A5', rows: STEPS.map((step, index) => [index + 1, step]), columns: [{ look: 'label' }, { look: 'text' }] },
    {
      at: 'B24',
      rows: OTHERS.map(([sheet, shows]) => [{ value: `${sheet}: ${shows}`, look: 'text' as const, wrap: false }]),
    },
    {
      at: 'A12',
      rows: FIGURES.map(([label, cell, format, unit, more]) => [
        null,
        { value: label, look: 'label' as const },
        { formula: `=${cell}`, look: 'figure' as const, format },
        { value: unit, look: 'text' as const },
        more === null ? null : { formula: more, look: 'formula' as const },
      ]),
    },
  ],
  merges: ['A17:E17'],
  print: { paper: 'a4', landscape: true, fitWidth: true },
};
