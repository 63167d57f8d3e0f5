import type { ModelSheet } from '../../src/workbook/model.ts';
import { betterRig, kindLabour, unitAccess } from '../labour.ts';
import { letter, printed, rowsBelow, spareRows, type TableSpot } from '../layout.ts';
import { type TemplateRig, templateRigs } from '../rigs.ts';
import { type ScenarioUnit, scenarioKinds, scenarioUnits } from '../scenario.ts';
import { choice } from './lists.ts';

const HEADER_ROW = 4;
const SPARE = 12;
const HEADER = [
  'Unit',
  'Kind',
  'Where',
  'Count',
  'Volume (L)',
  'Rig',
  'Target (micron)',
  'Refrigerant',
  'Water (g)',
  'Heat (W/K)',
  'Ambient (C)',
  'Port',
  'Set-up (min)',
  'Pack-up (min)',
  'Hold (min)',
  'Charging (min)',
  'Breaks',
  'Access',
  'Area',
  'Other rig',
] as const;
/** Position of Count in the table. */
export const UNITS_COUNT = 3;

const kinds = new Map(scenarioKinds.map((kind) => [kind.kind, kind]));

/** "Level 1, study rooms" is on level 1: within an area there is no way to pay for. */
const areaOf = (where: string): string => where.split(',')[0] ?? where;
const columnLetter = (name: (typeof HEADER)[number]): string => letter(HEADER.indexOf(name));

/** The table of units and where it stands; `rigs` are those of the book, so that no row names another one. */
export function unitsTable(
  units: readonly ScenarioUnit[],
  rigs: readonly TemplateRig[],
): { readonly sheet: ModelSheet; readonly spot: TableSpot } {
  const known = new Set(rigs.map(({ name }) => name));
  const rows = units.map(({ unit, kind, where, count, volume, rig, water, heat, ambient, port }) => {
    const usual = kinds.get(kind);
    const labour = kindLabour[kind] ?? {};
    const held = rig ?? usual?.rig ?? '';
    const other = betterRig[held] ?? '';
    return [
      unit,
      kind,
      where,
      count,
      volume ?? null,
      rig ?? usual?.rig ?? null,
      usual?.target ?? null,
      usual?.refrigerant ?? null,
      water ?? null,
      heat ?? null,
      ambient ?? null,
      port ?? null,
      labour.setUp ?? null,
      labour.packUp ?? null,
      labour.hold ?? null,
      labour.charging ?? null,
      labour.breaks ?? null,
      unitAccess[unit] ?? labour.access ?? null,
      areaOf(where),
      known.has(other) ? other : null,
    ];
  });

  const unitsSpot: TableSpot = {
    sheet: 'Units',
    headerRow: HEADER_ROW,
    columns: HEADER.length,
    lastRow: HEADER_ROW + rows.length + SPARE,
  };

  const firstRow = HEADER_ROW + 1;

  const sheet: ModelSheet = {
    name: 'Units',
    widths: [12, 38, 48, 9, 12, 31, 16, 15, 11, 12, 13, 18, 10, 11, 10, 13, 9, 9, 15, 31],
    heights: { [HEADER_ROW]: 32 },
    frozenRows: HEADER_ROW,
    frozenColumns: 1,
    tabColour: '4F6D7A',
    cells: {
      A1: { value: 'Units', look: 'title' },
      A2: {
        value:
          'One row a group of equal units. A blank volume is taken from Pipe runs; a blank target, water, heat or ambient from Conditions. Port: the node of Pipe runs at which the rig is connected, for a long line. From Set-up on: work on one unit for Labour and Crew, blank as on Conditions; Access multiplies attended time; Other rig is held beside the first on Labour.',
        look: 'note',
        wrap: false,
      },
      A3: rowsBelow('Units', unitsSpot),
    },
    blocks: [
      { at: `A${HEADER_ROW}`, rows: [[...HEADER]], look: 'header' },
      {
        at: `A${firstRow}`,
        rows: [...rows, ...spareRows(HEADER.length, SPARE)],
        look: 'input',
        columns: [
          { look: 'input' },
          { look: 'input' },
          { look: 'input' },
          { look: 'input', format: '0' },
          { look: 'input', format: '0.0' },
          { look: 'input' },
          { look: 'input', format: '0' },
          { look: 'input' },
          { look: 'input', format: '0.0' },
          { look: 'input', format: '0.0' },
          { look: 'input', format: '0' },
          { look: 'input' },
          ...Array.from({ length: 5 }, () => ({ look: 'input' as const, format: '0' })),
          { look: 'input', format: '0.0#' },
          { look: 'input' },
          { look: 'input' },
        ],
      },
    ],
    validations: [
      {
        range: `F${firstRow}:F${unitsSpot.lastRow}`,
        list: '=RigNames',
        title: 'Rig',
        message:
          'Pick a rig of the Parts sheet. To have a new one here, describe it there and add its name under Rigs for the lists.',
      },
      {
        range: `${columnLetter('Other rig')}${firstRow}:${columnLetter('Other rig')}${unitsSpot.lastRow}`,
        list: '=RigNames',
        title: 'Other rig',
        message: 'The rig to hold beside the first: Labour shows what it saves. Blank: the row keeps its own.',
      },
      {
        range: `H${firstRow}:H${unitsSpot.lastRow}`,
        list: choice('refrigerants'),
        title: 'Refrigerant',
        message: 'Used for the cautions.',
      },
    ],
    numberRules: [
      {
        range: `${columnLetter('Set-up (min)')}${firstRow}:${columnLetter('Breaks')}${unitsSpot.lastRow}`,
        least: 0,
        title: 'Work on one unit',
        message: 'Minutes, or how many breaks. Blank takes that of Conditions.',
      },
      {
        range: `${columnLetter('Access')}${firstRow}:${columnLetter('Access')}${unitsSpot.lastRow}`,
        least: 0,
        title: 'Access',
        message: 'Factor on attended time, above 0: 1 at hand, more for ladders, ceilings and roofs.',
      },
      { range: `D${firstRow}:D${unitsSpot.lastRow}`, least: 0, title: 'Count', message: 'A whole number, 0 or more.' },
      { range: `G${firstRow}:G${unitsSpot.lastRow}`, least: 0, title: 'Target', message: 'Micron, above 0.' },
      {
        range: `I${firstRow}:I${unitsSpot.lastRow}`,
        least: 0,
        title: 'Water',
        message: 'Grams in one unit, 0 or more.',
      },
      {
        range: `J${firstRow}:J${unitsSpot.lastRow}`,
        least: 0,
        title: 'Heat',
        message: 'W/K from the surroundings to the water. As a start 10 W/K for each square metre of wetted pipe.',
      },
    ],
    print: printed({
      headerRow: HEADER_ROW,
      area: `A:${letter(HEADER.length - 1)}`,
      columnsBefore: [columnLetter('Water (g)')],
    }),
  };
  return { sheet, spot: unitsSpot };
}

export const { sheet: unitsSheet, spot: unitsSpot } = unitsTable(scenarioUnits, templateRigs);
