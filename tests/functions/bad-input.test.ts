import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { callFunction } from '../../src/functions/adapter.ts';
import type { RawArgument } from '../../src/functions/define.ts';
import { functions } from '../../src/functions/index.ts';
import type { Outcome } from '../../src/functions/outcome.ts';
import type { Cell, CellRange } from '../../src/tables/cells.ts';
import { soundArguments, TABLES } from './sound.ts';

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

describe('a range whose rows are not of one length', () => {
  it('is worked out over its longest row, and a missing cell is told there', () => {
    const fn = functions.find(({ id }) => id === 'TUBE.BORE');
    if (fn === undefined) throw new Error('no TUBE.BORE');
    const outcome = callFunction(fn, [[[], ['3/8 in', '1/2 in']]]);
    expect(outcome).toMatchObject({ ok: true, firstFault: { message: expect.stringMatching(/fewer cells/u) } });
    const value = outcome.ok && Array.isArray(outcome.value) ? (outcome.value as CellRange) : [];
    expect(value.map((row) => row.length)).toEqual([2, 2]);
    expect(value[1]?.map((cell) => typeof cell)).toEqual(['number', 'number']);
  });

  it('leaves an error in a machine date an error, in words', () => {
    const fn = functions.find(({ id }) => id === 'RECOVER.TARGET');
    if (fn === undefined) throw new Error('no RECOVER.TARGET');
    const outcome = callFunction(fn, ['R-22', 5, { error: '#NAME?' }]);
    expect(outcome.ok ? '' : outcome.message).toMatch(/#NAME\?/u);
  });
});
