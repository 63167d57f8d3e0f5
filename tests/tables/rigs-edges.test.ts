import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { libraryParts } from '../../src/tables/library/parts.ts';
import { readParts } from '../../src/tables/rigs.ts';
import { KV_PER_CV } from '../../src/units/table.ts';
import { allFaults, faultOf } from './faults.ts';

const COLUMNS = ['Rig', 'Part', 'Kind', 'Speed', 'Bore (mm)', 'Length (m)', 'Kv', 'Cv', 'Sonic conductance', 'Loss'];
const ALL = [...COLUMNS, 'Branch', 'Leg', 'Swap group', 'Cost', 'Count'];
const row = (cells: Record<string, Cell>): Cell[] => ALL.map((column) => cells[column] ?? '');
const PUMP = { Rig: 'A', Part: 'pump', Kind: 'pump', Speed: 2 };
const read = (...rows: Record<string, Cell>[]) => readParts([ALL, ...rows.map(row)]);
const partOf = (cells: Record<string, Cell>) => read(PUMP, cells).rig('A').parts[0];
const passageOf = (cells: Record<string, Cell>) => partOf({ Part: 'x', ...cells })?.passage;

const hoseOf = libraryParts.find(({ kind }) => kind === 'hose');

describe('a rig', () => {
  it('has no more than is said', () => {
    const { rigs } = read(PUMP, { Part: 'x', Kind: 'port', 'Bore (mm)': 4 });
    const [rig] = rigs.values();
    expect(Object.keys(rig ?? {}).sort()).toEqual(['name', 'parts', 'pump']);
    expect(rig?.parts).toStrictEqual([
      {
        name: 'x',
        kind: 'port',
        passage: { kind: 'opening', bore: 0.004, dischargeCoefficient: 0.8 },
        count: 1,
      },
    ]);
  });

  it('has the cost of all its rows, and its name whatever the case', () => {
    const table = read(
      { ...PUMP, Cost: 100 },
      { Part: 'x', Kind: 'port', 'Bore (mm)': 4, Cost: 20 },
      { ...PUMP, Rig: 'b' },
    );
    expect(table.rig(' a').cost).toBe(120);
    expect(table.rig('B').cost).toBeUndefined();
    expect(read(PUMP, { Rig: 'a ', Part: 'x', Kind: 'port', 'Bore (mm)': 4 }).rig('A').parts).toHaveLength(1);
  });

  it.each([
    ['no pump', 2, [{ Rig: 'A', Part: 'x', Kind: 'hose', 'Bore (mm)': 5, 'Length (m)': 1 }]],
    ['a part before its pump', 2, [{ Rig: 'A', Part: 'x', Kind: 'port', 'Bore (mm)': 5 }, PUMP]],
    ['a second pump', 3, [PUMP, PUMP]],
  ])('with %s is told at row %d', (_, told, rows) => {
    expect(faultOf(() => read(...rows))).toEqual({
      issue: { kind: 'no-pump', rig: 'A' },
      place: { table: 'parts', row: told, column: 'Kind' },
    });
  });

  it('that is not sound is left out, and the others stay', () => {
    let names: string[] = [];
    const rows = [ALL, row(PUMP), row(PUMP), row({ ...PUMP, Rig: 'B' })];
    const faults = allFaults((sink) => {
      names = [...readParts(rows, sink).rigs.keys()];
    });
    expect(faults).toHaveLength(1);
    expect(names).toEqual(['B']);
  });
});

describe('a part', () => {
  it('has its branch, leg, swap group and count', () => {
    const said = { Kind: 'port', 'Bore (mm)': 4, Branch: 'tee', Leg: 'left', 'Swap group': 'end', Count: 3 };
    expect(partOf({ Part: 'x', ...said })).toMatchObject({ branch: 'tee', leg: 'left', swapGroup: 'end', count: 3 });
    // a part of the kind branch is a branch of its own name
    expect(partOf({ Part: 'tee', Kind: 'branch', 'Bore (mm)': 4, 'Length (m)': 1, Leg: 'left' })).toMatchObject({
      branch: 'tee',
      leg: 'left',
    });
    // a part without a name is called by its kind
    expect(partOf({ Kind: 'port', 'Bore (mm)': 4 })?.name).toBe('port');
  });

  it('is a valve by its Kv, Cv or sonic conductance where its kind has one, else a bore', () => {
    for (const Kind of ['valve', 'filter', 'manifold']) {
      expect(passageOf({ Kind, Kv: 0.5 })).toMatchObject({ kind: 'valve', kv: 0.5 });
      expect(passageOf({ Kind, Cv: 2 })).toMatchObject({ kind: 'valve', kv: 2 * KV_PER_CV });
      const sonic = passageOf({ Kind, 'Sonic conductance': '5 dm3/(s bar)' });
      expect(sonic).toMatchObject({ kind: 'sonic', sonicConductance: expect.closeTo(5e-8, 15) });
      expect(Object.keys(sonic ?? {})).not.toContain('bore');
      expect(passageOf({ Kind, 'Sonic conductance': '5 dm3/(s bar)', 'Bore (mm)': 4 })).toMatchObject({
        kind: 'sonic',
        bore: 0.004,
      });
    }
    expect(passageOf({ Kind: 'hose', 'Bore (mm)': 4, 'Length (m)': 1, Kv: 0.5 })?.kind).toBe('tube');
    expect(passageOf({ Kind: 'port', 'Bore (mm)': 4, Kv: 0.5 })?.kind).toBe('opening');
  });

  it('is a tube where it has a length, else an opening, and hoses, tubes and branches need one', () => {
    for (const Kind of ['valve', 'filter', 'manifold', 'depressor']) {
      expect(passageOf({ Kind, 'Bore (mm)': 4 })?.kind).toBe('opening');
      expect(passageOf({ Kind, 'Bore (mm)': 4, 'Length (m)': 1 })?.kind).toBe('tube');
    }
    expect(passageOf({ Kind: 'port', 'Bore (mm)': 4, 'Length (m)': 1 })?.kind).toBe('opening');
    expect(passageOf({ Kind: 'hose', 'Bore (mm)': 4, 'Length (m)': 1, Loss: 0.7 })).toMatchObject({ loss: 0.7 });
  });

  it('takes a coefficient of its own, or another kind, in place of the size that the library has', () => {
    if (hoseOf === undefined) throw new Error('the library has no hose');
    // of another kind than the library's it is a part of its own
    const other = { Part: hoseOf.name, Kind: 'port', 'Bore (mm)': 4 };
    expect(partOf(other)).toMatchObject({ name: hoseOf.name, kind: 'port', passage: { bore: 0.004 } });
    expect(faultOf(() => partOf({ Part: hoseOf.name, Kind: 'valve' }))?.issue.kind).toBe('missing');
    for (const cells of [{ Kv: 9 }, { 'Sonic conductance': 1e-8 }])
      expect(faultOf(() => partOf({ Part: hoseOf.name, ...cells }))?.issue.kind).toBe('missing');
  });

  it('is known by other words for its kind', () => {
    for (const Kind of ['pipe', 'Line', 'TUBE'])
      expect(partOf({ Part: 'x', Kind, 'Bore (mm)': 4, 'Length (m)': 1 })?.kind).toBe('tube');
    for (const Kind of ['orifice', 'Opening', 'port'])
      expect(partOf({ Part: 'x', Kind, 'Bore (mm)': 4 })?.kind).toBe('port');
  });

  it.each<[string, Record<string, Cell>, object, string]>([
    ['neither part nor kind', { 'Bore (mm)': 4 }, { kind: 'missing', argument: 'Kind' }, 'Kind'],
    ['an unknown kind', { Kind: 'sponge' }, { kind: 'unknown', what: 'kind of part', value: 'sponge' }, 'Kind'],
    [
      'an unknown part',
      { Part: 'garden hose' },
      { kind: 'unknown', what: 'library part', known: libraryParts.map(({ name }) => name) },
      'Part',
    ],
    [
      'a leg without a branch',
      { Kind: 'port', 'Bore (mm)': 4, Leg: 'left' },
      {
        kind: 'wrong',
        argument: 'Leg',
        found: '"left" without a Branch',
        allowed: 'a leg of a branch',
        todo: 'Fill in Branch, or clear Leg.',
      },
      'Leg',
    ],
    [
      'Kv and Cv',
      { Kind: 'valve', Kv: 1, Cv: 1 },
      {
        kind: 'wrong',
        argument: 'Cv',
        found: 'given beside Kv',
        allowed: 'one of them',
        todo: 'Clear one of the two cells.',
      },
      'Cv',
    ],
    [
      'Kv and a sonic conductance',
      { Kind: 'valve', Kv: 1, 'Sonic conductance': 1e-8 },
      { kind: 'wrong', argument: 'Sonic conductance', found: 'given beside Kv or Cv' },
      'Sonic conductance',
    ],
    [
      'a valve without a size',
      { Kind: 'valve' },
      { kind: 'missing', argument: 'Kv, Cv, Sonic conductance or Bore' },
      'Bore (mm)',
    ],
    ['a filter without a size', { Kind: 'filter' }, { kind: 'missing', argument: 'Bore' }, 'Bore (mm)'],
    ['a bore of nothing', { Kind: 'port', 'Bore (mm)': 0 }, { kind: 'limit', argument: 'Bore' }, 'Bore (mm)'],
    ...['hose', 'tube', 'branch'].map((Kind): [string, Record<string, Cell>, object, string] => [
      `a ${Kind} without a length`,
      { Kind, 'Bore (mm)': 4 },
      { kind: 'missing', argument: 'Length' },
      'Length (m)',
    ]),
    [
      'a bad length',
      { Kind: 'hose', 'Bore (mm)': 4, 'Length (m)': 'x' },
      { kind: 'not-a-number', argument: 'Length' },
      'Length (m)',
    ],
  ])('with %s is told once, with its place', (_, cells, issue, column) => {
    const faults = allFaults((sink) => readParts([ALL, row(PUMP), row(cells)], sink));
    expect(faults.map(({ issue: told, place }) => [told, place])).toEqual([
      [expect.objectContaining(issue), { table: 'parts', row: 3, column }],
    ]);
  });
});
