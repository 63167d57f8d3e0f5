import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { callFunction } from '../../src/functions/adapter.ts';
import type { CellFunction, Parameter, RawArgument } from '../../src/functions/define.ts';
import { functions } from '../../src/functions/index.ts';
import type { Outcome } from '../../src/functions/outcome.ts';
import type { Cell, CellRange } from '../../src/tables/cells.ts';

/** A sound argument for every kind of parameter, so that one can be spoilt at a time. */
const TABLES: ReadonlyMap<string, CellRange> = new Map<string, CellRange>([
  [
    'parts',
    [
      ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)', 'Ultimate (micron)'],
      ['A', 'pump', 'pump', null, null, 5, 20],
      ['A', 'hose', 'hose', 4.8, 1.5, null, null],
      ['A', 'core', 'core', 1.6, 0.006, null, null],
    ],
  ],
  [
    'runs',
    [
      ['Unit', 'Size', 'Length', 'From', 'To'],
      ['one', '3/8 in', 10, 'near', 'far'],
    ],
  ],
  [
    'ports',
    [
      ['Node', 'Rig'],
      ['near', 'A'],
    ],
  ],
  [
    'plan',
    [
      ['Pull to', 'Break to', 'Gas', 'Supply', 'Wait', 'Longest pull'],
      [500, '0.2 bar g', 'nitrogen', '2 bar g', 5, 60],
      [200, null, null, null, null, null],
    ],
  ],
  [
    'units',
    [
      ['Unit', 'Count', 'Volume', 'Rig', 'Other rig', 'Access', 'Area'],
      ['one', 2, 10, 'A', null, 1, 'roof'],
    ],
  ],
  [
    'rates',
    [
      ['Role', 'Rate', 'Attends', 'Waits', 'Day length', 'Travel'],
      ['fitter', 40, 1, 0.5, 8, 10],
    ],
  ],
  [
    'crews',
    [
      ['Crew', 'Technicians', 'Rigs', 'Pumps', 'Start day', 'Day start', 'Day end', 'Overnight'],
      ['north', 1, 2, 2, 1, '08:00', '16:00', 'yes'],
    ],
  ],
  [
    'factors',
    [
      ['Factor', 'On', 'Low', 'Likely', 'High', 'Spread', 'Shared'],
      ['wet pipes', 'water', 0.5, 1, 2, null, 'no'],
      ['roofs', 'access', null, 1, null, 0.2, 'yes'],
    ],
  ],
  [
    'log',
    [
      ['Minutes', 'Pressure'],
      [0, 101325],
      [5, 20000],
      [10, 4000],
      [15, 900],
    ],
  ],
]);

const TEXTS: ReadonlyMap<string, string> = new Map([
  ['rig', 'A'],
  ['part', 'hose'],
  ['gas', 'air'],
  ['size', '3/8 in'],
  ['step', 'evacuation'],
  ['coefficient', '0.6'],
  ['from', 'micron'],
  ['to', 'Pa'],
  ['function', 'TUBE.BORE'],
  ['unit', 'one'],
  ['standard', 'EN 12735-1'],
  ['refrigerant', 'R-32'],
]);

const NUMBERS: ReadonlyMap<string, number> = new Map([
  ['coefficient', 0.8],
  ['criticalRatio', 0.3],
  ['inlet', 1000],
  ['outlet', 100],
]);

function sound(key: string, parameter: Parameter<unknown>): RawArgument {
  switch (parameter.kind) {
    case 'table':
      return TABLES.get(parameter.table ?? '') ?? null;
    case 'conditions':
      return [['Target pressure', 500, 'micron']];
    case 'choice':
      return parameter.choices?.[0] ?? null;
    case 'text':
      return TEXTS.get(key) ?? null;
    case 'any':
      return TABLES.get('parts') ?? null;
    case 'list':
      return [[1, 2]];
    default:
      return NUMBERS.get(key) ?? 5;
  }
}

const HUGE: CellRange = Array.from({ length: 1_048_576 }, () => [null]);

const BAD_CELLS: readonly Cell[] = [
  0,
  -1,
  -273.16,
  1e-300,
  1e300,
  Number.NaN,
  Number.POSITIVE_INFINITY,
  '',
  '   ',
  null,
  undefined,
  true,
  'x',
  '5 furlong',
  '1e999 mm',
  '-5 bar',
  '1/0 in',
  '__proto__',
  'constructor',
  '=1+1',
  'y'.repeat(5000),
  { error: '#REF!' },
  { error: '#N/A' },
];

const BAD_RANGES: readonly CellRange[] = [
  [],
  [[]],
  [[null]],
  [
    [null, null],
    [null, null],
  ],
  [['Rig']],
  [
    ['Rig', 'Kind'],
    ['A', 'hose'],
  ],
  [
    ['Rig', 'Rig'],
    ['A', 'B'],
  ],
  [
    ['Rig', 'Kind', 'Bore (psi)', 'Speed'],
    ['A', 'pump', 1, 5],
  ],
  [
    ['Unit', 'Rig', 'Volume'],
    ['one', 'no such rig', -5],
  ],
  [['Target pressure', 'low']],
  [['Target pressure', 200000]],
  [['No such condition', 1]],
  [[{ error: '#REF!' }, { error: '#REF!' }]],
  [[1], [2], [3]],
  HUGE,
];

function cells(value: Cell | CellRange): readonly Cell[] {
  return Array.isArray(value) ? (value as CellRange).flat() : [value as Cell];
}

/** Fault in words, or values that a cell can hold: never NaN, infinity, a fault of our own or an empty table. */
function expectSane(outcome: Outcome, told: string): void {
  if (!outcome.ok) {
    expect(['#VALUE!', '#N/A', '#NUM!'], told).toContain(outcome.code);
    expect(outcome.message.length, told).toBeGreaterThan(10);
    expect(outcome.message, told).not.toMatch(/fault of its own|undefined|\[object|NaN is/u);
    return;
  }
  const all = cells(outcome.value);
  expect(all.length, told).toBeGreaterThan(0);
  for (const cell of all) {
    if (typeof cell === 'number' && !Number.isFinite(cell)) throw new Error(`${told} gave ${cell}`);
    if (typeof cell === 'string' && cell.includes('fault of its own')) throw new Error(`${told}: ${cell}`);
  }
}

function soundArguments(fn: CellFunction): RawArgument[] {
  return Object.entries(fn.parameters).map(([key, parameter]) => sound(key, parameter));
}

function withArgument(args: readonly RawArgument[], index: number, value: RawArgument): RawArgument[] {
  return args.map((known, at) => (at === index ? value : known));
}

function shown(value: RawArgument): string {
  if (value === HUGE) return 'a million rows';
  return JSON.stringify(value)?.slice(0, 80) ?? 'undefined';
}

const each = functions.map((fn) => [fn.id, fn] as const);

describe('bad input', () => {
  it.each(each)('leaves %s sane, whichever argument is spoilt', (id, fn) => {
    const base = soundArguments(fn);
    Object.keys(fn.parameters).forEach((key, index) => {
      for (const bad of [...BAD_CELLS, ...BAD_RANGES]) {
        const args = withArgument(base, index, bad);
        expectSane(callFunction(fn, args), `${id} with ${key} = ${shown(bad)}`);
      }
    });
  });

  it.each(each)('leaves %s sane, whatever comes in', (id, fn) => {
    const base = soundArguments(fn);
    const raw = fc.constantFrom<RawArgument>(...BAD_CELLS, ...BAD_RANGES.slice(0, -1));
    const number = fc.oneof(fc.double(), fc.double({ min: 1e-9, max: 1e9, noNaN: true }));
    const one = fc.oneof(raw, number, fc.string({ maxLength: 12 }));
    const all = fc.tuple(...base.map((value) => fc.oneof({ weight: 2, arbitrary: fc.constant(value) }, one)));
    fc.assert(
      fc.property(all, (args) => expectSane(callFunction(fn, args), `${id} with ${args.map(shown).join(', ')}`)),
      { numRuns: 30 },
    );
  });

  it.each(each)('in too great a number is refused by %s', (_, fn) => {
    if (Object.values(fn.parameters).at(-1)?.repeating === true) return;
    expect(callFunction(fn, [...soundArguments(fn), 1])).toMatchObject({ ok: false, code: '#VALUE!' });
  });
});

describe('a bad cell of a table', () => {
  const spoilt: readonly (readonly [string, string])[] = [
    ['EVAC.TIME', 'parts'],
    ['RIG.PROFILE', 'parts'],
    ['RUN.TABLE', 'runs'],
    ['EVAC.NETWORK', 'runs'],
    ['EVAC.NETWORK', 'ports'],
    ['EVAC.BREAKS', 'plan'],
    ['EVAC.PROJECT', 'units'],
    ['RIG.FIT', 'log'],
    ['LABOUR.TABLE', 'units'],
    ['LABOUR.TABLE', 'rates'],
    ['LABOUR.RISK', 'factors'],
    ['CREW.PLAN', 'crews'],
    ['CREW.PLAN', 'units'],
  ];
  it.each(spoilt)('leaves %s sane', (id, name) => {
    const fn = functions.find((known) => known.id === id);
    const table = TABLES.get(name);
    if (fn === undefined || table === undefined) throw new Error(`no ${id} or ${name}`);
    const keys = Object.keys(fn.parameters);
    const index = keys.indexOf(name === 'log' ? 'reading' : name);
    const base = soundArguments(fn);
    table.forEach((row, r) => {
      row.forEach((_, c) => {
        for (const bad of BAD_CELLS) {
          const changed = table.map((cells, i) => (i === r ? cells.map((cell, j) => (j === c ? bad : cell)) : cells));
          const outcome = callFunction(fn, withArgument(base, index, changed));
          expectSane(outcome, `${id} with ${shown(bad)} in row ${r + 1}, column ${c + 1}`);
        }
      });
    });
  });
});

describe('reversed pressures', () => {
  it.each(['TUBE.FLOW', 'PORT.FLOW', 'VALVE.FLOW'])('are refused by %s, with both values', (id) => {
    const fn = functions.find((known) => known.id === id);
    if (fn === undefined) throw new Error(`no ${id}`);
    const keys = Object.keys(fn.parameters);
    const args = withArgument(
      withArgument(soundArguments(fn), keys.indexOf('inlet'), 100),
      keys.indexOf('outlet'),
      1000,
    );
    const outcome = callFunction(fn, args);
    expect(outcome).toMatchObject({ ok: false, code: '#VALUE!' });
    expect(outcome.ok ? '' : outcome.message).toMatch(/100.*1000|1000.*100/u);
  });
});
