import { describe, expect, it } from 'vitest';
import type { CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';

const UNITS: CellRange = [
  ['Unit', 'Count', 'Volume (L)', 'Rig'],
  ['split', 12, 6, 'fitted'],
  ['cold room', 2, 35, 'bare'],
];
const minutes = (volume: number, rig: string, parts: CellRange = PARTS): number =>
  numberFrom('EVAC.TIME', volume, parts, rig);
const rowOf = (table: readonly (readonly unknown[])[], name: string) => table.find(([first]) => first === name) ?? [];

describe('GEAR.PARETO', () => {
  it('sums minutes and cost by hand: fitted and bare cost 320, wide 380', () => {
    const table = tableFrom('GEAR.PARETO', UNITS, PARTS);
    for (const [rig, cost] of [
      ['fitted', 320],
      ['bare', 320],
      ['wide', 380],
    ] as const) {
      const row = rowOf(table, rig);
      expect(row[2]).toBe(cost);
      expect(row[3]).toBeCloseTo((12 * minutes(6, rig) + 2 * minutes(35, rig)) / 60, 9);
    }
  });

  it('marks as the front what no other rig beats in both, and prices the step from one to the next', () => {
    const table = tableFrom('GEAR.PARETO', UNITS, PARTS);
    // at one price the rig with the core is the slower one
    expect(['fitted', 'bare', 'wide'].map((rig) => rowOf(table, rig)[4])).toEqual(['no', 'yes', 'yes']);
    const [bare, wide] = [rowOf(table, 'bare'), rowOf(table, 'wide')];
    expect(bare[5]).toBe('wide');
    const saved = Number(bare[3]) - Number(wide[3]);
    expect(bare[6]).toBeCloseTo(saved, 9);
    expect(bare[7]).toBeCloseTo(60 / saved, 6);
    expect(wide[5]).toBe('');
  });

  it('keeps both of two rigs that cost and take the same', () => {
    const twin = [
      ...PARTS,
      ['twin', 'pump', 'pump', '', '', 5, 20, 300],
      ['twin', 'wide hose', 'hose', 12.7, 1.5, '', '', 80],
    ];
    const table = tableFrom('GEAR.PARETO', UNITS, twin);
    expect([rowOf(table, 'wide')[4], rowOf(table, 'twin')[4]]).toEqual(['yes', 'yes']);
  });

  it('counts water, and leaves a rig off the front that no cost is known of or that reaches no target', () => {
    const wet: CellRange = [
      ['Unit', 'Volume (L)', 'Water (g)', 'Heat (W/K)'],
      ['open pipes', 6, 20, 2],
    ];
    const parts = [...PARTS, ['free', 'pump', 'pump', '', '', 5, 20, ''], ['weak', 'pump', 'pump', '', '', 5, 600, 10]];
    const table = tableFrom('GEAR.PARETO', wet, parts);
    const [, project] = tableFrom(
      'EVAC.PROJECT',
      wet.map((row, i) => [...row, i === 0 ? 'Rig' : 'bare']),
      parts,
    );
    expect(rowOf(table, 'bare')[3]).toBeCloseTo(Number(project?.[10]) / 60, 9);
    expect(rowOf(table, 'free').slice(4, 5)).toEqual(['no']);
    expect(rowOf(table, 'free')[9]).toMatch(/no Cost/u);
    expect(rowOf(table, 'weak')[4]).toBe('no');
    expect(rowOf(table, 'weak')[9]).toMatch(/open pipes/u);
  });

  it('leaves out rows without a volume, says so, and refuses a table of nothing else', () => {
    const table = tableFrom('GEAR.PARETO', [...UNITS, ['blank', 1, '', 'bare']], PARTS);
    expect(rowOf(table, 'Left out')[9]).toMatch(/1 row.*row 4.*Volume is blank/u);
    expect(rowOf(table, 'bare')[3]).toBe(rowOf(tableFrom('GEAR.PARETO', UNITS, PARTS), 'bare')[3]);
    expectFault(
      '#N/A',
      /Volume is blank/u,
      'GEAR.PARETO',
      [
        ['Unit', 'Volume'],
        ['blank', ''],
      ],
      PARTS,
    );
  });
});

describe('GEAR.SWAPS', () => {
  it('saves over the project what RIG.SWAPS saves for one unit, times their number', () => {
    const table = tableFrom('GEAR.SWAPS', UNITS, PARTS);
    const one = tableFrom('RIG.SWAPS', PARTS, 'fitted', 6).slice(2);
    for (const [change, , saved] of one) {
      const row = table.find(([rig, words]) => rig === 'fitted' && words === change);
      expect(row?.[2]).toBe(12);
      expect(row?.[5]).toBeCloseTo((12 * Number(saved)) / 60, 9);
    }
    const before = (12 * minutes(6, 'fitted') + 2 * minutes(35, 'bare')) / 60;
    expect(table[1]?.slice(0, 4)).toEqual(['all', 'as it is', 14, expect.closeTo(before, 9)]);
  });

  it('ranks the changes of all rigs in use, and of no other', () => {
    const table = tableFrom('GEAR.SWAPS', UNITS, PARTS);
    const saved = columnOf(table, 'Saved (h)').slice(1).map(Number);
    expect(saved).toEqual([...saved].sort((a, b) => b - a));
    expect(new Set(columnOf(table, 'Rig').slice(1))).toEqual(new Set(['fitted', 'bare']));
  });

  it('leaves out units whose rig is unknown', () => {
    const table = tableFrom('GEAR.SWAPS', [...UNITS, ['lost', 1, 5, 'nobody']], PARTS);
    expect(rowOf(table, 'Left out')[7]).toMatch(/row 4.*nobody/u);
    expectFault(
      '#N/A',
      /nobody/u,
      'GEAR.SWAPS',
      [
        ['Unit', 'Volume', 'Rig'],
        ['lost', 5, 'nobody'],
      ],
      PARTS,
    );
  });
});

describe('where a bigger pump stops helping', () => {
  it('behind an opening in molecular flow is nine times its conductance', () => {
    // C = A sqrt(R T / (2 pi M)) of an opening of 10 mm for air at 20 C (kinetic theory), in L/s
    const conductance = 1e3 * (Math.PI / 4) * 0.01 ** 2 * Math.sqrt((8.314462618 * 293.15) / (2 * Math.PI * 28.965e-3));
    const parts: CellRange = [
      ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Speed (L/s)'],
      ['hole', 'pump', 'pump', '', 3],
      ['hole', 'hole', 'port', 10, ''],
    ];
    const thin = [
      ['Start pressure', 1e-3, 'Pa'],
      ['Target pressure', 1e-4, 'Pa'],
    ];
    const row = tableFrom(
      'GEAR.PARETO',
      [
        ['Unit', 'Volume (L)'],
        ['one', 5],
      ],
      parts,
      null,
      thin,
    )[1];
    expect(Number(row?.[8]) / (9 * conductance)).toBeCloseTo(1, 1.5);
  });

  it('is the speed from which on twice the pump saves less than 5 % of the time', () => {
    const speed = Number(rowOf(tableFrom('GEAR.PARETO', UNITS, PARTS), 'wide')[8]);
    const withPump = (litres: number): CellRange => [
      ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (L/s)', 'Ultimate (micron)'],
      ['wide', 'pump', 'pump', '', '', litres, 20],
      ['wide', 'wide hose', 'hose', 12.7, 1.5, '', ''],
    ];
    const saves = (from: number): number =>
      1 - minutes(10, 'wide', withPump(2 * from)) / minutes(10, 'wide', withPump(from));
    expect(saves(0.97 * speed)).toBeGreaterThan(0.05);
    expect(saves(1.03 * speed)).toBeLessThan(0.05);
  });

  it('is nowhere for a bare pump, and sooner behind narrower parts', () => {
    const table = tableFrom('GEAR.PARETO', UNITS, [...PARTS, ['open', 'pump', 'pump', '', '', 5, 20, 1]]);
    expect(rowOf(table, 'open')[8]).toBe('');
    const speeds = ['fitted', 'bare', 'wide'].map((rig) => Number(rowOf(table, rig)[8]));
    expect(speeds).toEqual([...speeds].sort((a, b) => a - b));
  });
});

describe('PUMP.PICK', () => {
  it('takes the cheapest rig that meets the time, though its pump is the faster one, and tells what it costs', () => {
    const parts: CellRange = [
      ['Rig', 'Part', 'Kind', 'Speed (cfm)', 'Ultimate (micron)', 'Cost'],
      ['slow', 'pump', 'pump', 5, 20, 500],
      ['quick', 'pump', 'pump', 8, 20, 400],
      ['tiny', 'pump', 'pump', 0.5, 20, 90],
    ];
    const units: CellRange = [
      ['Unit', 'Volume (L)'],
      ['big', 30],
    ];
    const time = minutes(30, 'slow', parts);
    const table = tableFrom('PUMP.PICK', units, parts, time);
    expect([columnOf(table, 'Rig')[0], columnOf(table, 'Gear cost')[0]]).toEqual(['quick', 400]);
    const unpriced = parts.map((row, i) => (i === 3 ? [...row.slice(0, 5), ''] : row));
    expect(columnOf(tableFrom('PUMP.PICK', units, unpriced, time), 'Rig')[0]).toBe('slow');
  });

  it('never gives a dearer rig for more time', () => {
    const costs = [5, 10, 20, 60, 240].map((time) => {
      const cost = columnOf(tableFrom('PUMP.PICK', UNITS, PARTS, time), 'Gear cost')[0];
      return cost === '' ? Number.POSITIVE_INFINITY : Number(cost);
    });
    expect(costs).toEqual([...costs].sort((a, b) => b - a));
  });
});
