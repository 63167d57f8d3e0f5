import type { ModelCell, ModelSheet, ModelValue } from '../../src/workbook/model.ts';
import { withoutRows } from '../growing.ts';
import { letter, printed, spareRows, type TableSpot } from '../layout.ts';
import { scenarioKinds, scenarioUnits } from '../scenario.ts';
import { choice } from './lists.ts';

/** Charge and inside volume of one unit, heat that reaches it, and what stands ready to charge it. Invented figures. */
const FIGURES: Readonly<Record<string, readonly [charge: number, litres: number, heat: number, cylinder: number]>> = {
  'Wall split 2.5 kW': [0.9, 2.7, 10, 9],
  'Wall split 3.5 kW': [1.1, 3.5, 12, 9],
  'Cassette 5 kW': [1.6, 5, 15, 9],
  'Ducted split 10 kW': [3.4, 11, 30, 10],
  'Multi-split 14 kW, four rooms': [4.8, 13, 40, 10],
  'Archive close-control 18 kW': [9, 32, 60, 12],
  'Café cold room': [3.5, 10, 25, 10],
  'Freezer for water-damaged books': [8, 24, 40, 10],
  'Plant-room chiller 180 kW': [110, 360, 600, 160],
};

const CORE_IN = 'core in';
const CORE_OUT = 'core out';
const HOSE = 'hose 3/8 in x 5 ft';
/** One machine and one hose, so that the core alone differs; from the machine, or the cylinder, to the system. */
const GEAR: readonly (readonly ModelValue[])[] = [
  [CORE_IN, 'machine', 'machine', 4, 20, 0.8],
  [CORE_IN, HOSE, null, null, null, null],
  [CORE_IN, 'depressor 1/4 in', null, null, null, null],
  [CORE_IN, 'core fitted', null, null, null, null],
  [CORE_OUT, 'machine', 'machine', 4, 20, 0.8],
  [CORE_OUT, HOSE, null, null, null, null],
  [CORE_OUT, 'core-removal valve 1/4 in', null, null, null, null],
  [CORE_OUT, 'core removed', null, null, null, null],
];
const GEAR_HEADER = ['Rig', 'Part', 'Kind', 'Speed (m3/h)', 'Ultimate (kPa)', 'Efficiency'];

/** Name of the condition, as the functions know it, and the cell that holds it. */
const SETTINGS = {
  ambient: { name: 'Ambient', cell: '$B$4', label: 'Ambient (C)', value: 20 },
  recoverTo: { name: 'Recover to', cell: '$B$5', label: 'Recover to, absolute', value: '101.325 kPa' },
  recoverAs: { name: 'Recover as', cell: '$B$6', label: 'Recover as', value: 'vapour' },
  chargeAs: { name: 'Charge as', cell: '$B$7', label: 'Charge as', value: 'liquid' },
  cylinderTemperature: {
    name: 'Cylinder temperature',
    cell: '$B$8',
    label: 'Charging cylinder at first (C)',
    value: 35,
  },
  bath: { name: 'Bath temperature', cell: '$B$9', label: 'Warm water around it (C)', value: 40 },
  cylinderHeat: { name: 'Cylinder heat', cell: '$B$10', label: 'Heat from the water to it (W/K)', value: 20 },
} as const;
const WATER_CAPACITY = '$B$11';

const RIG_ROW = 16;
const HEADER_ROW = 17;
const FIRST_ROW = HEADER_ROW + 1;
const SPARE = 5;
const FILLED_ROW = HEADER_ROW + scenarioKinds.length;
const LAST_ROW = FILLED_ROW + SPARE;
export const recoverySpot: TableSpot = { sheet: 'Recovery', headerRow: HEADER_ROW, columns: 7, lastRow: LAST_ROW };
const GEAR_ROW = LAST_ROW + 4;
const GEAR_SPARE = 8;
const GEAR_LAST = GEAR_ROW + GEAR.length + GEAR_SPARE;
const gear = `$A$${GEAR_ROW}:$F$${GEAR_LAST}`;

const HEADER = [
  'Kind of unit',
  'Refrigerant',
  'Count',
  'Charge (kg)',
  'Volume (L)',
  'Heat (W/K)',
  'Charging cylinder (kg)',
  'Recovery, core in (min)',
  'Recovery, core out (min)',
  'Charging, core in (min)',
  'Charging, core out (min)',
  'Recovery cylinders',
] as const;

/** `CHOOSE({1,2;3,4},"Ambient",$B$4,"Heat",F18)`: a table of conditions of its own for each row. */
function conditionsOf(pairs: readonly (readonly [name: string, cell: string])[]): string {
  const places = pairs.map((_, i) => `${2 * i + 1},${2 * i + 2}`).join(';');
  return `CHOOSE({${places}},${pairs.map(([name, cell]) => `"${name}",${cell}`).join(',')})`;
}

const setting = (key: keyof typeof SETTINGS): readonly [string, string] => [SETTINGS[key].name, SETTINGS[key].cell];

function formulasOf(row: number): ModelCell[] {
  const unlessBlank = (formula: string, format: string): ModelCell => ({
    formula: `=IF($A${row}="","",${formula})`,
    look: 'formula',
    format,
  });
  const recovery = conditionsOf([setting('ambient'), ['Heat', `$F${row}`], setting('recoverTo'), setting('recoverAs')]);
  const charging = conditionsOf([
    ['Volume', `$E${row}`],
    setting('ambient'),
    ['Heat', `$F${row}`],
    setting('chargeAs'),
    ['Cylinder charge', `$G${row}`],
    setting('cylinderTemperature'),
    setting('bath'),
    setting('cylinderHeat'),
  ]);
  const recover = (column: string): string =>
    `NARROWS.RECOVER.TIME($B${row},$D${row},$E${row},${gear},${column}$${RIG_ROW},${recovery})`;
  const charge = (column: string): string =>
    `NARROWS.CHARGE.TIME($B${row},$D${row},${gear},${column}$${RIG_ROW},${charging})`;
  return [
    unlessBlank(recover('H'), '#,##0.0'),
    unlessBlank(recover('I'), '#,##0.0'),
    unlessBlank(charge('J'), '#,##0.00'),
    unlessBlank(charge('K'), '#,##0.00'),
    unlessBlank(`ROUNDUP($D${row}/NARROWS.CYLINDER.FILL($B${row},${WATER_CAPACITY}),0)`, '0'),
  ];
}

const rows: (ModelCell | ModelValue)[][] = scenarioKinds.map(({ kind, refrigerant }, index) => {
  const [charge = null, litres = null, heat = null, cylinder = null] = FIGURES[kind] ?? [];
  const count = scenarioUnits.reduce((sum, unit) => sum + (unit.kind === kind ? unit.count : 0), 0);
  return [kind, refrigerant, count, charge, litres, heat, cylinder, ...formulasOf(FIRST_ROW + index)];
});
const spare: (ModelCell | ModelValue)[][] = Array.from({ length: SPARE }, (_, index) => [
  ...Array.from({ length: 7 }, () => null),
  ...formulasOf(FILLED_ROW + 1 + index),
]);

const column = (name: string, last = LAST_ROW): string => `$${name}$${FIRST_ROW}:$${name}$${last}`;
const MINUTES = ['H', 'I', 'J', 'K'] as const;
const fails = MINUTES.map((name) => `ISERROR(${column(name)})`).join('+');
/** Hours of the kinds that have all their minutes, so that cores in and cores out are of the same units. */
function hours(recover: string, charge: string): string {
  const ofKind = (name: string): string => `SUMPRODUCT(${column('C')},IF(${fails},0,${column(name)}))`;
  return `=(${ofKind(recover)}+${ofKind(charge)})/60`;
}

const settings = Object.values(SETTINGS);
const chartColumn = (name: string): string => `Recovery!${column(name, FILLED_ROW)}`;

export const recoverySheet: ModelSheet = {
  name: 'Recovery',
  widths: [47, 24, 11, 13, 14, 12, 14, 14, 14, 14, 14, 12],
  heights: { [HEADER_ROW]: 47, [GEAR_ROW]: 32 },
  frozenColumns: 1,
  tabColour: '2E7D5B',
  cells: {
    A1: { value: 'Recovery and charging, before and after removing the cores', look: 'title' },
    A2: {
      value:
        'One row a kind of unit, minutes for one. The two rigs at the foot differ by the core alone. Fill in every setting: a blank one counts as 0 here. WHY tells what an error means.',
      look: 'note',
      wrap: false,
    },
    A3: { formula: `=${withoutRows(`SUMPRODUCT((${fails}>0)*1)`, 'see the errors of its cells')}`, look: 'formula' },
    A11: { value: 'Recovery cylinder, water (L)', look: 'label' },
    B11: { value: 26, look: 'input', format: '0.0' },
    A13: { value: 'Recovery and charging, cores in (h)', look: 'label' },
    B13: { formula: hours('H', 'J'), look: 'figure', format: '#,##0.0' },
    A14: { value: 'The same, cores out (h)', look: 'label' },
    B14: { formula: hours('I', 'K'), look: 'figure', format: '#,##0.0' },
    [`A${GEAR_ROW - 1}`]: { value: 'Rigs of this sheet', look: 'heading' },
    [`B${GEAR_ROW - 1}`]: {
      value:
        'From the machine to the system. When charging, the cylinder stands where the machine does, and the machine is left out.',
      look: 'note',
      wrap: false,
    },
    [`G${RIG_ROW}`]: { value: 'Rig', look: 'label' },
  },
  blocks: [
    {
      at: 'A4',
      rows: settings.map(({ label, value }) => [label, value]),
      columns: [{ look: 'label' }, { look: 'input' }],
    },
    { at: `H${RIG_ROW}`, rows: [[CORE_IN, CORE_OUT, CORE_IN, CORE_OUT]], look: 'input' },
    { at: `A${HEADER_ROW}`, rows: [[...HEADER]], look: 'header' },
    {
      at: `A${FIRST_ROW}`,
      rows: [...rows, ...spare],
      columns: [
        { look: 'input' },
        { look: 'input' },
        { look: 'input', format: '0' },
        { look: 'input', format: '0.0' },
        { look: 'input', format: '0.0' },
        { look: 'input', format: '0' },
        { look: 'input', format: '0.0' },
      ],
    },
    { at: `A${GEAR_ROW}`, rows: [GEAR_HEADER], look: 'header' },
    {
      at: `A${GEAR_ROW + 1}`,
      rows: [...GEAR, ...spareRows(GEAR_HEADER.length, GEAR_SPARE)],
      look: 'input',
    },
  ],
  validations: [
    { range: 'B6', list: ['vapour', 'liquid', 'push-pull'], title: 'Recover as', strict: true },
    { range: 'B7', list: ['liquid', 'vapour'], title: 'Charge as', strict: true },
    {
      range: `B${FIRST_ROW}:B${LAST_ROW}`,
      list: choice('refrigerants'),
      title: 'Refrigerant',
      message: 'Pick one whose properties are known.',
    },
    {
      range: `C${GEAR_ROW + 1}:C${GEAR_LAST}`,
      list: ['machine', ...['port', 'hose', 'tube', 'core', 'depressor', 'manifold', 'valve', 'filter']],
      title: 'Kind of part',
      message: 'Blank for a part of the parts library. The first part of every rig is its machine.',
    },
  ],
  numberRules: [
    { range: `C${FIRST_ROW}:F${LAST_ROW}`, least: 0, title: 'Figures of the unit', message: '0 or more.' },
    { range: 'B11', least: 0, title: 'Water capacity', message: 'Litres, above 0.' },
  ],
  charts: [
    {
      kind: 'bar',
      title: 'Minutes of recovery, one unit of each kind',
      from: `${letter(13)}${HEADER_ROW}`,
      to: `${letter(23)}${HEADER_ROW + 24}`,
      categories: chartColumn('A'),
      series: [
        { name: 'core in', values: chartColumn('H') },
        { name: 'core out', values: chartColumn('I') },
      ],
      yTitle: 'min',
      yLog: true,
      altText: 'Pairs of bars for each kind of unit: minutes of recovery with the core in and with the core removed.',
    },
    {
      kind: 'bar',
      title: 'Minutes of charging, one unit of each kind',
      from: `${letter(13)}${HEADER_ROW + 26}`,
      to: `${letter(23)}${HEADER_ROW + 50}`,
      categories: chartColumn('A'),
      series: [
        { name: 'core in', values: chartColumn('J') },
        { name: 'core out', values: chartColumn('K') },
      ],
      yTitle: 'min',
      yLog: true,
      altText: 'Pairs of bars for each kind of unit: minutes of charging with the core in and with the core removed.',
    },
  ],
  // the rigs on a page of their own: their table is another than the one above
  print: printed({ breaksBefore: [GEAR_ROW - 1], area: `A1:L${GEAR_LAST}` }),
};
