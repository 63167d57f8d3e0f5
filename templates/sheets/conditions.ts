import type { ModelSheet } from '../../src/workbook/model.ts';
import type { TableSpot } from '../layout.ts';
import { choice } from './lists.ts';

const HEADER_ROW = 4;

const ROWS = [
  ['Gas', 'air', null, 'What is pumped. Evacuation begins with air, or with nitrogen after a pressure test.'],
  ['Temperature', 20, 'C', 'Of the gas in rig and system.'],
  ['Start pressure', 101.325, 'kPa', 'When the pump is started, absolute.'],
  ['Target pressure', 500, 'micron', 'Where Units gives no target of its own.'],
  ['Ambient', 20, 'C', 'Around the building services.'],
  ['Ambient pressure', 101.325, 'kPa', 'At which a free-air meter reads; lower at height.'],
  ['Water', 0, 'g', 'Left in one unit, where Units says nothing.'],
  ['Heat', 2, 'W/K', 'From the surroundings to the water, where Units says nothing. Some 10 W/K a m2 of wetted pipe.'],
  ['Leak', 0, 'Pa m3/s', 'Air that gets in. 0 for a tight system.'],
  ['Outgassing', 0, 'Pa m3/s', 'Given off by walls and oil after an hour of pumping.'],
  ['Report units', 'metric', null, 'metric or inch: the units of the tables that spill.'],
] as const;

export const conditionsSpot: TableSpot = {
  sheet: 'Conditions',
  headerRow: HEADER_ROW,
  columns: 3,
  lastRow: HEADER_ROW + ROWS.length + 3,
};

const firstRow = HEADER_ROW + 1;
const rowOf = (name: (typeof ROWS)[number][0]): number => firstRow + ROWS.findIndex(([known]) => known === name);
const lastRow = HEADER_ROW + ROWS.length;

export const conditionsSheet: ModelSheet = {
  name: 'Conditions',
  widths: [20, 14, 12, 84],
  frozenRows: HEADER_ROW,
  tabColour: '4F6D7A',
  cells: {
    A1: { value: 'Conditions', look: 'title' },
    A2: {
      value:
        'What holds for the whole workbook. A blank value takes the default. Every function on the other sheets reads this range.',
      look: 'note',
      wrap: false,
    },
  },
  blocks: [
    { at: `A${HEADER_ROW}`, rows: [['Name', 'Value', 'Unit', 'What it does']], look: 'header' },
    {
      at: `A${firstRow}`,
      rows: ROWS.map((row) => [...row]),
      columns: [{ look: 'label' }, { look: 'input' }, { look: 'input' }, { look: 'note' }],
    },
    {
      at: `A${lastRow + 1}`,
      rows: [
        [null, null, null],
        [null, null, null],
        [null, null, null],
      ],
      look: 'input',
    },
  ],
  validations: [
    {
      range: `B${rowOf('Gas')}`,
      list: choice('gases'),
      title: 'Gas',
      message: 'Pick a gas from the list.',
      strict: true,
    },
    {
      range: `B${rowOf('Report units')}`,
      list: ['metric', 'inch'],
      title: 'Report units',
      message: 'metric or inch.',
      strict: true,
    },
  ],
  numberRules: [
    {
      range: `B${rowOf('Start pressure')}`,
      least: 0,
      title: 'Start pressure',
      message: 'An absolute pressure above 0.',
    },
    { range: `B${rowOf('Water')}:B${rowOf('Heat')}`, least: 0, title: 'Water and heat', message: '0 or more.' },
    { range: `B${rowOf('Leak')}:B${rowOf('Outgassing')}`, least: 0, title: 'Gas load', message: '0 or more.' },
  ],
  print: { paper: 'a4', fitWidth: true, landscape: false, repeatRows: `${HEADER_ROW}:${HEADER_ROW}` },
};
