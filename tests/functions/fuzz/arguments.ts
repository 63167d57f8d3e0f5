import type { CellFunction, Parameter, RawArgument } from '../../../src/functions/define.ts';
import { functions } from '../../../src/functions/index.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { CONDITION_KEYS, CONDITIONS, type Condition } from '../../../src/tables/condition-list.ts';
import { CREWS_COLUMNS } from '../../../src/tables/crews.ts';
import { FACTORS_COLUMNS } from '../../../src/tables/factors.ts';
import { LOG_COLUMNS } from '../../../src/tables/log.ts';
import { PARTS_COLUMNS } from '../../../src/tables/parts-columns.ts';
import { PLAN_COLUMNS } from '../../../src/tables/plan.ts';
import { PORTS_COLUMNS } from '../../../src/tables/ports.ts';
import { RATES_COLUMNS } from '../../../src/tables/rates.ts';
import { RUNS_COLUMNS } from '../../../src/tables/runs.ts';
import type { Columns } from '../../../src/tables/table.ts';
import { UNITS_COLUMNS } from '../../../src/tables/units.ts';
import { isQuantity, knownUnits, quantities } from '../../../src/units/quantity.ts';
import { sound, TABLES } from '../sound.ts';
import type { Random } from './random.ts';

/** What hosts may hand over, by kind of parameter: from sound to spoilt to hostile. */

const COLUMNS: ReadonlyMap<string, Columns> = new Map<string, Columns>([
  ['parts', PARTS_COLUMNS],
  ['runs', RUNS_COLUMNS],
  ['ports', PORTS_COLUMNS],
  ['plan', PLAN_COLUMNS],
  ['units', UNITS_COLUMNS],
  ['rates', RATES_COLUMNS],
  ['crews', CREWS_COLUMNS],
  ['factors', FACTORS_COLUMNS],
  ['log', LOG_COLUMNS],
]);

const HOSTILE_NUMBERS: readonly number[] = [
  ...[0, -0, 1, -1, 0.5, 100, 1e-300, 5e-324, 1e300, 1.7976931348623157e308, -1e300, 1e-9, 1e9, 1e15, 2 ** 53, 2 ** 31],
  ...[-273.15, -273.16, 101325, 100, 45658, 45658.75, Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY],
];

const HOSTILE_TEXTS: readonly string[] = [
  ...['NaN', 'Infinity', '-Infinity', '1e999', '0x1F', '1e', '.', '-', '+', '--5', '1,5', '1.234,5', "1'000", '٣', '½'],
  ...['1/0 in', '1/3/5', '3/8', '1 1/8', '5 furlong', '1e999 mm', '-5 bar', '0 K', '-1 K', '0 in', '50 %', '-20 %'],
  ...['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'prototype', 'valueOf', '__defineGetter__'],
  ...['=1+1', '@A1', '<script>', 'javascript:alert(1)', '\u0000', '\uFEFF5', '\uD800', '5\u00A0mm', '  7  '],
  ...['2024-05-01', '1993-11-15', '01/05/2024', '15 Nov 1993', '12:30', '24:00', '2024-13-45', 'true', 'yes', 'no'],
  ...['A', 'one', 'air', 'helium', 'R-32', 'R-744', 'R-410A', 'hose', 'pump', 'near', 'far', 'x'.repeat(3000)],
];

const REFRIGERANTS = ['R-22', 'R-32', 'R-134a', 'R-410A', 'R-454B', 'R-744', 'R-290', 'r32', 'R-1234yf', 'R-9999'];
const GASES = ['air', 'nitrogen', 'helium', 'water vapour', 'R-32', 'argon', 'no gas'];
const SIZES = ['1/4 in', '3/8 in', '1/2', '5/8 in', '3/4', '1 1/8 in', '22 mm', '28', '6', '3/8', '9/7 in'];
const SPEED_TABLES = [
  ...['1 bar 4 m3/h; 1 mbar 3.6 m3/h; 0.02 mbar 0', '1 atm 5 cfm\n20 micron 0 cfm', '10 bar 2 L/s; 1e-9 Pa 2 L/s'],
  ...[
    '1 Pa 0; 1.00001 Pa 1e6 L/s',
    '1 bar 1 L/s; 0.9 bar 1.05 L/s',
    '1000 4; 1 2',
    '1 bar 4 m3/h',
    ';;',
    '1 Pa 0; 2 Pa 0',
  ],
];
const ANY_UNITS: readonly string[] = quantities.flatMap((quantity) => knownUnits(quantity));
const ERRORS: readonly Cell[] = ['#REF!', '#N/A', '#VALUE!', '#DIV/0!', '#NAME?', '#NUM!', '#CALC!', ''].map(
  (error) => ({ error }),
);

function hostileNumber(random: Random): number {
  if (random.chance(0.6)) return random.pick(HOSTILE_NUMBERS);
  return (random.chance(0.3) ? -1 : 1) * random.log(1e-320, 1e308);
}

export function hostileCell(random: Random): Cell {
  switch (random.below(10)) {
    case 0:
      return random.pick([null, undefined, '', '   ']);
    case 1:
      return random.chance(0.5);
    case 2:
      return random.pick(ERRORS);
    case 3:
    case 4:
    case 5:
      return random.pick(HOSTILE_TEXTS);
    case 6:
      return `${hostileNumber(random)} ${random.pick(ANY_UNITS)}`;
    default:
      return hostileNumber(random);
  }
}

/** A number as it might stand in a sheet: most near one, some far off. */
function plainNumber(random: Random): number {
  const value = random.chance(0.8) ? random.log(0.05, 50) : random.log(1e-6, 1e6);
  return random.chance(0.3) ? Math.max(1, Math.round(value)) : Number(value.toPrecision(4));
}

function amount(random: Random, quantity: string | undefined, sane = false): Cell {
  const value = plainNumber(random);
  if (quantity === undefined || !isQuantity(quantity) || random.chance(0.6)) return value;
  const unit = sane || random.chance(0.9) ? random.pick(knownUnits(quantity)) : random.pick(ANY_UNITS);
  return random.chance(0.8) ? `${value} ${unit}` : `${value}${unit}`;
}

function wordFor(random: Random, key: string): Cell {
  const name = key.toLowerCase();
  if (name.includes('refrigerant')) return random.pick(REFRIGERANTS);
  if (name.includes('gas')) return random.pick(GASES);
  if (name.includes('size')) return random.pick(SIZES);
  if (name === 'from' || name === 'to') return random.pick(ANY_UNITS);
  if (name === 'function') return random.pick(functions).id;
  if (name.includes('speed table')) return random.pick(SPEED_TABLES);
  if (name.includes('rig')) return random.pick(['A', 'A', 'B', 'a ']);
  if (name.includes('date')) return random.pick(['before', 'after', '1993-11-14', 2015, 34288.5, '3/4/95']);
  if (name.includes('appliance')) return random.pick([...REFRIGERANTS, 'high pressure', 'small appliance', 'chiller']);
  return random.pick(HOSTILE_TEXTS);
}

/** Cells of an existing column by the header it has. */
function cellOf(random: Random, columns: Columns, header: Cell): Cell {
  const name = typeof header === 'string' ? header.replace(/\s*\(.*$/u, '').toLowerCase() : '';
  const found = Object.values(columns).find((column) => column.header.toLowerCase() === name);
  if (found?.quantity !== undefined) return amount(random, found.quantity);
  return wordFor(random, name);
}

function spoiltHeader(random: Random, columns: Columns): Cell {
  const known = random.pick(Object.values(columns));
  switch (random.below(5)) {
    case 0:
      return random.pick(['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'valueOf', '__proto__ (mm)']);
    case 1:
      return hostileCell(random);
    case 2:
      return `${known.header} (${random.pick(ANY_UNITS)})`;
    case 3:
      return random.pick(known.synonyms ?? [known.header]);
    default:
      return known.header;
  }
}

/** A recovery machine in place of the pump. */
const MACHINES: CellRange = [
  ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (m3/h)', 'Ultimate (kPa)', 'Efficiency', 'Liquid rate'],
  ['A', 'machine', 'machine', null, null, 3, 20, 0.8, null],
  ['A', 'hose', 'hose', 4.8, 1.5, null, null, null, null],
];

/** A sound table with rows and columns added, dropped, shuffled and cells changed; `wild` times as spoilt. */
export function tableFor(random: Random, kind: string, wild: number): CellRange {
  const columns = COLUMNS.get(kind) ?? PARTS_COLUMNS;
  const base = kind === 'machines' ? MACHINES : (TABLES.get(kind) ?? [['Rig']]);
  const rows: Cell[][] = base.map((row) => [...row]);
  const some = (part: number): boolean => random.chance(Math.min(1, part * wild));
  if (some(0.3)) {
    const known = random.pick(Object.values(columns));
    rows.forEach((row, r) => {
      row.push(r === 0 ? known.header : cellOf(random, columns, known.header));
    });
  }
  if (some(0.1)) rows.push([...(rows[random.below(rows.length)] ?? [])]);
  if (some(0.06) && rows.length > 1) rows.splice(random.below(rows.length), 1);
  if (some(0.05)) rows.push(Array.from({ length: rows[0]?.length ?? 1 }, () => random.pick([null, '', undefined])));
  const [header = []] = rows;
  rows.forEach((row, r) => {
    row.forEach((cell, c) => {
      if (r === 0) {
        if (some(0.02)) row[c] = spoiltHeader(random, columns);
        return;
      }
      if (some(0.02)) row[c] = hostileCell(random);
      else if (cell !== null && some(0.12)) row[c] = cellOf(random, columns, header[c]);
    });
  });
  if (some(0.05)) {
    const column = random.below(header.length);
    for (const row of rows) row.splice(column, 1);
  }
  if (some(0.05)) rows[random.below(rows.length)]?.pop();
  if (some(0.05)) for (const row of rows) row.reverse();
  return rows;
}

function standardRow(random: Random, sane: boolean): Cell[] {
  const condition: Condition = CONDITIONS[random.pick(CONDITION_KEYS)];
  const name = random.chance(0.8) ? condition.name : random.pick(condition.synonyms ?? [condition.name]);
  if (condition.quantity === undefined) {
    const word = sane || random.chance(0.5) ? (condition.standard ?? null) : wordFor(random, condition.name);
    return [name, word, null];
  }
  const near = typeof condition.standard === 'number' && (sane || random.chance(0.8));
  const value = near ? Number(condition.standard) * random.log(0.5, 2) : amount(random, condition.quantity, sane);
  const unit =
    isQuantity(condition.quantity) && random.chance(0.2) ? random.pick(knownUnits(condition.quantity)) : null;
  return [name, value, typeof value === 'number' ? unit : null];
}

export function conditionsFor(random: Random, wild: number): CellRange {
  const rows = Array.from({ length: 1 + random.below(4) }, () => standardRow(random, wild === 0));
  rows.unshift(['Target pressure', 500, 'micron'], ['Heat', random.log(0.5, 50), 'W/K'], ['Volume', 8, 'L']);
  if (wild < 1) {
    const names = new Set<Cell>();
    for (let i = rows.length - 1; i >= 0; i--) {
      const name = rows[i]?.[0];
      if (names.has(name)) rows.splice(i, 1);
      names.add(name);
    }
  }
  for (const row of rows)
    row.forEach((_, c) => {
      if (random.chance(0.03 * wild)) row[c] = hostileCell(random);
    });
  if (random.chance(0.03 * wild)) rows.push([random.pick(['__proto__', 'constructor', 'No such condition']), 1]);
  return rows;
}

function hostileRange(random: Random): CellRange {
  switch (random.below(5)) {
    case 0:
      return random.pick<CellRange>([[], [[]], [[null]], [[null, null]], [['']], [[], [1]], [[undefined], ['']]]);
    case 1:
      return Array.from({ length: random.below(4) }, () =>
        Array.from({ length: random.below(4) }, () => hostileCell(random)),
      );
    case 2:
      return tableFor(random, random.pick([...COLUMNS.keys()]), 4);
    case 3:
      return conditionsFor(random, 5);
    default:
      return [[hostileCell(random)], [hostileCell(random)]];
  }
}

function kindOf({ table = 'parts' }: Parameter<unknown>, id: string): string {
  return table === 'parts' && id.startsWith('RECOVER') ? 'machines' : table;
}

/** What a person would give for the parameter, more or less. */
export function fairArgument(
  random: Random,
  key: string,
  parameter: Parameter<unknown>,
  wild: number,
  id = '',
): RawArgument {
  if (parameter.optional && parameter.kind !== 'conditions' && random.chance(0.5))
    return random.pick([null, undefined, '']);
  switch (parameter.kind) {
    case 'table':
      return tableFor(random, kindOf(parameter, id), wild);
    case 'conditions':
      if (random.chance(id.startsWith('DRY') || id.startsWith('RECOVER') ? 0.05 : 0.3)) return null;
      return conditionsFor(random, wild);
    case 'any':
      return random.chance(0.7) ? tableFor(random, random.pick([...COLUMNS.keys()]), wild) : amount(random, undefined);
    case 'choice':
      return random.pick(parameter.choices ?? ['']);
    case 'text': {
      const given = sound(key, parameter);
      return given !== null && (wild === 0 || random.chance(0.75)) ? given : wordFor(random, key);
    }
    case 'list':
      return random.chance(0.5)
        ? amount(random, parameter.quantity)
        : [Array.from({ length: 1 + random.below(4) }, () => amount(random, parameter.quantity))];
    default: {
      const given = sound(key, parameter);
      return random.chance(0.3) ? given : amount(random, parameter.quantity, wild === 0);
    }
  }
}

function hostileArgument(random: Random): RawArgument {
  return random.chance(0.6) ? hostileCell(random) : hostileRange(random);
}

/** All arguments of one call; now and then too few or too many. */
export function argumentsFor(random: Random, fn: CellFunction): RawArgument[] {
  const entries = Object.entries(fn.parameters);
  const wild = random.pick([0, 0, 0.3, 1, 4]);
  const spoilt = wild === 0 ? random.pick([0, 0, 0, 0.1]) : random.pick([0, 0.05, 0.2, 0.8]);
  const args = entries.map(([key, parameter]) =>
    random.chance(spoilt) ? hostileArgument(random) : fairArgument(random, key, parameter, wild, fn.id),
  );
  const [key = '', last] = entries.at(-1) ?? [];
  if (last?.repeating === true) while (random.chance(0.4)) args.push(fairArgument(random, key, last, wild));
  if (random.chance(0.02)) args.push(hostileArgument(random));
  if (random.chance(0.03)) args.length = random.below(args.length + 1);
  return args;
}

/** An argument that takes one cell, as a range of several. */
export function manyOf(random: Random, key: string, parameter: Parameter<unknown>, shape: 'row' | 'column'): CellRange {
  const cells = Array.from({ length: 3 }, (): Cell => {
    const raw = random.chance(0.15) ? hostileCell(random) : fairArgument(random, key, parameter, 0);
    return Array.isArray(raw) ? null : (raw as Cell);
  });
  return shape === 'row' ? [cells] : cells.map((cell) => [cell]);
}
