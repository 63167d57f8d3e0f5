import { describe, expect, it } from 'vitest';
import type { Cell } from '../../src/tables/cells.ts';
import { libraryParts } from '../../src/tables/library/parts.ts';
import { readParts } from '../../src/tables/rigs.ts';
import { allFaults, faultOf } from './faults.ts';

const HEADER = ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (L/s)', 'Ultimate (Pa)'];
const pump = (rig: string): Cell[] => [rig, 'pump', 'pump', '', '', 2, 3];
const parts = (...rows: Cell[][]) => readParts([HEADER, ...rows]);

/** A table with further columns: one part behind a pump. */
function onePart(kind: string, cells: Record<string, Cell>, part: Cell = 'it') {
  const keys = Object.keys(cells);
  const rows: Cell[][] = [
    ['Rig', 'Part', 'Kind', 'Speed', ...keys],
    ['A', 'pump', 'pump', 2, ...keys.map(() => null)],
    ['A', part, kind, null, ...Object.values(cells)],
  ];
  return readParts(rows).rig('A').parts[0];
}

describe('a parts table', () => {
  it('gives each rig its pump and its parts in order from the pump', () => {
    const table = parts(pump('A'), ['', 'hose', 'hose', 4.8, 1.5], ['', 'port', 'port', 4], pump('B'), [
      'B',
      'h',
      'hose',
      8,
      3,
    ]);
    expect([...table.rigs.keys()]).toEqual(['A', 'B']);
    const rig = table.rig(' a ');
    expect(rig.pump).toEqual({ name: 'pump', speed: 0.002, ultimate: 3 });
    expect(rig.parts.map(({ name }) => name)).toEqual(['hose', 'port']);
    expect(rig.parts[0]?.passage).toEqual({ kind: 'tube', bore: 0.0048, length: 1.5, loss: 1.5, roughness: 1.5e-6 });
    expect(rig.parts[1]?.passage).toEqual({ kind: 'opening', bore: 0.004, dischargeCoefficient: 0.8 });
    expect(rig.parts[0]?.count).toBe(1);
  });

  it('works the water limit of a pump out from its gas ballast, unless the limit is given', () => {
    const limit = (cells: Record<string, Cell>, kind: Cell = 'pump'): number | undefined => {
      const keys = Object.keys(cells);
      const rows: Cell[][] = [
        ['Rig', 'Part', 'Kind', 'Speed (L/s)', ...keys],
        ['A', kind === 'pump' ? 'it' : 'pump 5 cfm', kind, kind === 'pump' ? 2 : '', ...Object.values(cells)],
      ];
      return readParts(rows).rig('A').pump.waterLimit;
    };
    // p_s(70 C) = 31201 Pa (steam tables): 0.1 x 101325 x 31201/(101325 - 31201) = 4508 Pa, by hand
    expect((limit({ 'Gas ballast (L/s)': 0.2 }) ?? 0) / 4508).toBeCloseTo(1, 3);
    // p_s(50 C) = 12352 Pa (steam tables): 0.1 x 101325 x 12352/(101325 - 12352) = 1407 Pa
    expect((limit({ 'Gas ballast': '12 L/min', 'Pump temperature (C)': 50 }) ?? 0) / 1407).toBeCloseTo(1, 3);
    expect(limit({ 'Gas ballast': 0.2, Count: 2 })).toBe(limit({ 'Gas ballast': 0.2 }));
    expect(limit({ 'Gas ballast': 0 })).toBe(0);
    expect(limit({ 'Gas ballast': 0.2, 'Outlet temperature': 105 })).toBe(Number.POSITIVE_INFINITY);
    expect(limit({ 'Gas ballast': 0.2, 'Water limit (mbar)': 15 })).toBeCloseTo(1500, 9);
    expect(limit({ 'Gas ballast': '' })).toBeUndefined();
    expect(limit({ 'Gas ballast': '' }, '')).toBe(1500);
    expect(limit({ 'Gas ballast': 0.2 }, '')).not.toBe(1500);
    expect(faultOf(() => limit({ 'Gas ballast': -1 }))?.issue.kind).toBe('limit');
    expect(faultOf(() => limit({ 'Gas ballast': 0.2, 'Pump temperature': 'warm' }))?.issue.kind).toBe('not-a-number');
  });

  it('reads a blank rig cell as the rig of the row above', () => {
    expect(parts(pump('A'), ['', 'h', 'hose', 5, 1]).rig('A').parts).toHaveLength(1);
    expect(faultOf(() => parts(['', 'pump', 'pump', '', '', 2, 3]))?.issue).toEqual({
      kind: 'missing',
      argument: 'Rig',
    });
  });

  it('takes the values of the library for a part that it knows, and cells of the row before them', () => {
    const hose = libraryParts.find(({ kind }) => kind === 'hose');
    if (hose === undefined) throw new Error('the library has no hose');
    const table = parts(pump('A'), ['', hose.name, '', '', '', '', ''], ['', hose.name, '', 7, '', '', '']);
    const [shipped, changed] = table.rig('A').parts;
    expect(shipped).toMatchObject({ kind: 'hose', passage: { bore: hose.bore, length: hose.length } });
    expect(changed).toMatchObject({ kind: 'hose', passage: { bore: 0.007, length: hose.length } });
  });

  it('takes a pump of the library', () => {
    const known = libraryParts.find(({ kind }) => kind === 'pump');
    if (known === undefined) throw new Error('the library has no pump');
    expect(parts(['A', known.name, '', '', '', '', '']).rig('A').pump).toMatchObject({ speed: known.speed });
  });

  it('lists the library for a part without a kind that it does not know', () => {
    expect(faultOf(() => parts(pump('A'), ['', 'garden hose', '', 5, 1]))).toMatchObject({
      issue: { kind: 'unknown', what: 'library part', value: 'garden hose' },
      place: { table: 'parts', row: 3, column: 'Part' },
    });
  });

  it('lists the kinds for one that it does not know', () => {
    const fault = faultOf(() => parts(pump('A'), ['', 'x', 'sponge', 5, 1]));
    expect(fault).toMatchObject({ issue: { kind: 'unknown', value: 'sponge' }, place: { row: 3, column: 'Kind' } });
    expect(fault?.issue.kind === 'unknown' && fault.issue.known).toContain('depressor');
  });

  it('lists the rigs for one that it does not know', () => {
    expect(faultOf(() => parts(pump('A')).rig('C'))?.issue).toEqual({
      kind: 'unknown',
      what: 'rig',
      value: 'C',
      known: ['A'],
    });
    for (const name of ['constructor', '__proto__'])
      expect(faultOf(() => parts(pump('A')).rig(name))?.issue.kind).toBe('unknown');
  });

  it.each([
    ['no pump', [['A', 'h', 'hose', 5, 1]]],
    ['a pump that is not first', [['A', 'h', 'hose', 5, 1], pump('A')]],
    ['two pumps', [pump('A'), pump('A')]],
  ] as const)('refuses a rig with %s', (_, rows) => {
    expect(faultOf(() => parts(...rows.map((row) => [...row])))?.issue).toEqual({ kind: 'no-pump', rig: 'A' });
  });

  it('says that a column is not there, and not that its cells are blank', () => {
    const rows = [
      ['Rig', 'Kind', 'Speed m3/h', 'Bore of it'],
      ['A', 'pump', 36, ''],
      ['A', 'hose', '', 5],
    ];
    const fault = faultOf(() => readParts(rows));
    expect(fault?.issue).toMatchObject({ kind: 'missing-header', header: 'Bore', found: rows[0] });
    expect(readParts(rows.slice(0, 2)).rig('A').pump.speed).toBeCloseTo(0.01, 15);
  });

  it('points at the second pump of a rig', () => {
    expect(faultOf(() => parts(pump('A'), ['A', 'h', 'hose', 5, 1], pump('A')))?.place).toMatchObject({ row: 4 });
  });

  it('needs a speed of a pump, a bore of every part, and a length of a hose', () => {
    expect(faultOf(() => parts(['A', 'pump', 'pump', '', '', '', '']))?.issue).toEqual({
      kind: 'missing',
      argument: 'Speed',
    });
    expect(faultOf(() => parts(pump('A'), ['', 'h', 'hose', '', 1]))?.issue).toEqual({
      kind: 'missing',
      argument: 'Bore',
    });
    expect(faultOf(() => parts(pump('A'), ['', 'h', 'hose', 5, '']))?.issue).toEqual({
      kind: 'missing',
      argument: 'Length',
    });
    expect(faultOf(() => parts(pump('A'), ['', 'v', 'valve', '', '']))?.issue.kind).toBe('missing');
  });
});

describe('passages', () => {
  it('of a core, a depressor and a manifold are tubes by length and openings without', () => {
    for (const kind of ['core', 'depressor', 'manifold', 'filter']) {
      expect(onePart(kind, { Bore: 2, Length: 0.01 })?.passage).toMatchObject({ kind: 'tube', loss: 1.5 });
      expect(onePart(kind, { Bore: 2 })?.passage).toMatchObject({ kind: 'opening', bore: 0.002 });
    }
  });

  it('of a port are openings with their own discharge coefficient', () => {
    expect(onePart('port', { Bore: 4, Length: 0.02, Coefficient: 0.7 })?.passage).toEqual({
      kind: 'opening',
      bore: 0.004,
      dischargeCoefficient: 0.7,
    });
  });

  it('of a valve follow what its maker states', () => {
    expect(onePart('valve', { Kv: 2 })?.passage).toEqual({ kind: 'valve', kv: 2, pressureDropRatio: 0.7 });
    // xT = 1 - b, so that air chokes at the same ratio of pressures (IEC 60534-2-1, ISO 6358-1)
    expect(onePart('valve', { Kv: 2, 'Critical ratio': 0.6 })?.passage).toMatchObject({ pressureDropRatio: 0.4 });
    expect(onePart('valve', { Cv: 2, b: 0.25 })?.passage).toMatchObject({ pressureDropRatio: 0.75 });
    // 0.865 is the usual Kv per Cv, IEC 60534-1
    expect(onePart('valve', { Cv: 2 })?.passage).toMatchObject({ kind: 'valve', kv: 1.73 });
    expect(onePart('valve', { 'Sonic conductance': '5 dm3/(s bar)' })?.passage).toMatchObject({
      kind: 'sonic',
      sonicConductance: 5e-8,
      criticalRatio: 0.3,
    });
    expect(onePart('valve', { Bore: 5 })?.passage).toMatchObject({ kind: 'opening' });
    expect(onePart('valve', { Bore: 5, Length: 0.05 })?.passage).toMatchObject({ kind: 'tube' });
    expect(faultOf(() => onePart('valve', { Kv: 2, Cv: 2 }))?.issue.kind).toBe('wrong');
  });

  it('that stand in parallel share a branch, in series a leg', () => {
    const both = onePart('branch', { Bore: 5, Length: 1 }, 'twin hose');
    expect(both).toMatchObject({ kind: 'branch', branch: 'twin hose', passage: { kind: 'tube' } });
    expect(onePart('hose', { Bore: 5, Length: 1, Branch: 'b', Leg: 'l' })).toMatchObject({ branch: 'b', leg: 'l' });
    expect(onePart('hose', { Bore: 5, Length: 1, Count: 2 })).toMatchObject({ count: 2 });
  });

  it('of pumps in parallel is what they pump together', () => {
    const table = readParts([
      ['Rig', 'Kind', 'Count', 'Speed (L/s)', 'Ultimate (Pa)'],
      ['A', 'pump', 2, 1.5, 3],
    ]);
    expect(table.rig('A').pump).toMatchObject({ speed: 0.003, ultimate: 3 });
  });

  it('have one coefficient, and no leg without its branch', () => {
    const both = { Kv: 0.3, C: '4 dm3/(s bar)' };
    expect(faultOf(() => onePart('valve', both))?.issue).toMatchObject({
      argument: 'Sonic conductance',
      found: 'given beside Kv or Cv',
    });
    const leg = faultOf(() => onePart('hose', { Bore: 5, Length: 1, Leg: 'left' }));
    expect(leg?.issue).toMatchObject({ argument: 'Leg', found: '"left" without a Branch' });
    expect(leg?.place).toMatchObject({ row: 3, column: 'Leg' });
  });

  it('keep loss, roughness and swap group of the row', () => {
    const part = onePart('hose', { Bore: 5, Length: 1, Loss: 0, 'Roughness (mm)': 0.1, 'Swap group': 'hoses' });
    expect(part).toMatchObject({ swapGroup: 'hoses', passage: { loss: 0, roughness: 1e-4 } });
  });

  it('add up their cost', () => {
    const table = readParts([
      ['Rig', 'Kind', 'Speed', 'Bore', 'Length', 'Cost'],
      ['A', 'pump', 2, '', '', 100],
      ['', 'hose', '', 5, 1, 20],
      ['B', 'pump', 2, '', '', ''],
    ]);
    expect([table.rig('A').cost, table.rig('B').cost]).toEqual([120, undefined]);
  });
});

describe('a parts table with many faults', () => {
  it('tells all of them', () => {
    const faults = allFaults((sink) =>
      readParts(
        [HEADER, ['A', 'h', 'hose', 0, 'long'], ['', 'x', 'sponge', 1, 1], ['B', 'pump', 'pump', '', '', -1, 3]],
        sink,
      ),
    );
    const found = faults.map(({ issue, place }) => `${place?.row} ${place?.column ?? ''} ${issue.kind}`);
    expect(found).toEqual(
      expect.arrayContaining([
        '2 Bore (mm) limit',
        '2 Length (m) not-a-number',
        '3 Kind unknown',
        '4 Speed (L/s) limit',
        '2 Kind no-pump',
      ]),
    );
  });
});
