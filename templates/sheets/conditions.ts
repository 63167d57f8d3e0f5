import type { ModelSheet } from '../../src/workbook/model.ts';
import type { TableSpot } from '../layout.ts';
import { printed } from '../layout.ts';
import { choice } from './lists.ts';

const HEADER_ROW = 4;
/** More than are usual in an estimate, so that Risk can draw them as a curve. */
export const PERCENTILES = [5, 10, 25, 50, 75, 80, 90, 95] as const;

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
  ['Set-up', 20, 'min', 'Attended time to bring and connect the rig at one unit.'],
  ['Pack-up', 15, 'min', 'Attended time to take the rig off one unit.'],
  ['Hold', 30, 'min', 'Time that one unit stands shut after the pull.'],
  ['Hold readings', 2, null, 'Readings of the hold test: one at its start, the others at its end.'],
  ['Reading time', 2, 'min', 'Attended time for one reading.'],
  ['Check interval', 60, 'min', 'Pump time from one look at the pump to the next; 0 for none.'],
  ['Check time', 5, 'min', 'Attended time for one look.'],
  ['Breaks', 0, null, 'Nitrogen breaks in one pull.'],
  ['Break time', 10, 'min', 'Attended time for one nitrogen break.'],
  ['Charging', 0, 'min', 'Attended time to charge one unit; 0 where it comes charged.'],
  ['Access', 1, null, 'Factor on all attended time at a unit: ladders, ceilings, roofs.'],
  ['Travel between areas', 10, 'min', 'Attended time from one area to another.'],
  ['Technicians', 3, null, 'Side by side, each at a unit of its own: for the days of Labour. Crew has its own.'],
  ['Percentiles', PERCENTILES.join(', '), null, 'Percentiles that Risk gives, with commas.'],
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
  widths: [26, 28, 12, 84],
  frozenRows: HEADER_ROW,
  tabColour: '4F6D7A',
  cells: {
    A1: { value: 'Conditions', look: 'title' },
    A2: {
      value:
        'What holds for the whole workbook. A blank value takes the default. From Set-up on: the work on one unit where Units says nothing; minutes that are common practice without a source, so put in your own.',
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
    {
      range: `B${rowOf('Set-up')}:B${rowOf('Travel between areas')}`,
      least: 0,
      title: 'Work on one unit',
      message: '0 or more. Common practice without a source: put in your own.',
    },
    { range: `B${rowOf('Technicians')}`, least: 1, title: 'Technicians', message: 'A whole number from 1 on.' },
    { range: `B${rowOf('Water')}:B${rowOf('Heat')}`, least: 0, title: 'Water and heat', message: '0 or more.' },
    { range: `B${rowOf('Leak')}:B${rowOf('Outgassing')}`, least: 0, title: 'Gas load', message: '0 or more.' },
  ],
  print: printed({ landscape: false, headerRow: HEADER_ROW, area: 'A:D' }),
};
