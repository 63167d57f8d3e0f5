import { describe, expect, it } from 'vitest';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';

const NONE = { error: '#N/A' };
const HEADER = ['Unit', 'Count', 'Volume (L)', 'Rig', 'Water (g)', 'Heat (W/K)', 'Target (micron)'];
/** Pa */
const MICRON = 13595.1 * 9.80665e-6;
const project = (rows: CellRange, ...more: (CellRange | null)[]) =>
  tableFrom('EVAC.PROJECT', [HEADER, ...rows], PARTS, ...more).slice(1);

describe('a row of EVAC.PROJECT', () => {
  it('of a dry unit has the figures of the single functions, its whole time, and blanks for water and line', () => {
    const [row = []] = project([['shop', 3, 20, 'fitted', '', '', '']]);
    const profile = tableFrom('RIG.PROFILE', PARTS, 'fitted', '500 micron');
    const shares = columnOf(profile, 'Share of loss');
    const most = Math.max(...shares.map(Number));
    const minutes = numberFrom('EVAC.TIME', 20, PARTS, 'fitted');
    expect(row).toEqual([
      'shop',
      3,
      'fitted',
      20,
      expect.closeTo(500 * MICRON, 3),
      expect.closeTo(minutes, 9),
      columnOf(profile, 'Part')[shares.indexOf(most)],
      expect.closeTo(most, 6),
      'reaches target',
      0,
      expect.closeTo(minutes, 9),
      '',
      '',
      '',
      '',
      '',
    ]);
  });

  it('names the pump where the rig is nothing else, without a share', () => {
    const bare: CellRange = [
      ['Rig', 'Part', 'Kind', 'Speed (L/s)', 'Ultimate (Pa)'],
      ['bare', 'my pump', 'pump', 2, 3],
    ];
    const [, row = []] = tableFrom('EVAC.PROJECT', [HEADER, ['shop', 1, 20, 'bare', '', '', '']], bare);
    expect(row.slice(6, 9)).toEqual(['my pump', '', 'reaches target']);
  });

  it('of a wet unit has the minutes until dry, the total, the coldest and whether it froze', () => {
    const [row = []] = project([['shop', 1, 20, 'wide', 5, 0.5, '']]);
    const wet: CellRange = [
      ['Water', '5 g'],
      ['Heat', '0.5 W/K'],
    ];
    expect(Number(row[10]) / numberFrom('DRY.TIME', 20, 5, PARTS, 'wide', wet)).toBeCloseTo(1, 2);
    expect(Number(row[9])).toBeLessThanOrEqual(Number(row[10]));
    expect(row[8]).toMatch(/dry after .*; water froze, down to -\d+ °C: warm it or break with nitrogen$/);
    expect(Number(row[11])).toBeLessThan(0);
    expect(row.slice(12)).toEqual(['yes', '', '', '']);
    const [warm = []] = project([['shop', 1, 20, 'fitted', 5, 50, '']]);
    expect(warm[12]).toBe('no');
  });

  it.each([
    [
      'no Volume and no runs',
      ['shop', 1, '', 'wide', '', '', ''],
      null,
      'Volume is blank: fill it in, or give the pipe runs.',
      '',
    ],
    [
      'no Volume and no run of that unit',
      ['shop', 1, '', 'wide', '', '', ''],
      [
        ['Unit', 'Bore (mm)', 'Length (m)'],
        ['hall', 10, 5],
      ],
      'Volume is blank, and the runs have no unit "shop": fill it in, or add its runs.',
      '',
    ],
    [
      'runs that hold nothing',
      ['shop', 1, '', 'wide', '', '', ''],
      [
        ['Unit', 'Bore (mm)', 'Length (m)'],
        ['shop', 10, 0],
      ],
      'The runs of this unit add up to no volume: check their lengths and counts.',
      '',
    ],
    ['a rig that there is not', ['shop', 1, 20, 'narrow', '', '', ''], null, /no rig "narrow"/, 20],
    ['a target out of reach', ['shop', 1, 20, 'wide', '', '', 10], null, /out of reach/, 20],
  ] as const)('with %s has the reason in place of its figures', (_, unit, runs, words, volume) => {
    const [row = [], next = []] = project([[...unit], ['next', 1, 20, 'wide', '', '', '']], runs as CellRange | null);
    const target = unit[6] === 10 ? 10 : 500;
    const why = typeof words === 'string' ? words : expect.stringMatching(words);
    expect(row).toMatchObject([
      'shop',
      1,
      unit[3],
      volume,
      expect.closeTo(target * MICRON, 3),
      NONE,
      '',
      '',
      why,
      NONE,
      NONE,
      '',
      '',
      '',
      '',
      '',
    ] as Cell[]);
    // the others go on
    expect(next[8]).toBe('reaches target');
  });

  it('that cannot be read has no target either', () => {
    const [row = []] = project([['shop', 1, -20, 'wide', '', '', '']]);
    expect(row.slice(3, 5)).toEqual(['', '']);
    expect(row[8]).toMatch(/Volume/);
  });
});

describe('a row of PUMP.PICK', () => {
  const pick = (rows: CellRange, minutes: number, parts: CellRange = PARTS, conditions: CellRange = []) =>
    tableFrom('PUMP.PICK', [HEADER, ...rows], parts, minutes, conditions).slice(1);

  it('has the rig, its pump, the minutes of the single function, its cost and the speed that helps', () => {
    const minutes = numberFrom('EVAC.TIME', 20, PARTS, 'bare');
    const [row = []] = pick([['shop', 2, 20, '', '', '', '']], minutes + 1);
    expect(row.slice(0, 5)).toEqual(['shop', 2, 20, 'bare', expect.closeTo(((5 * 0.3048 ** 3) / 60) * 1000, 9)]);
    expect(row[5]).toBeCloseTo(minutes, 6);
    expect(row.slice(6, 8)).toEqual(['meets the time', 320]);
    expect(Number(row[8])).toBeGreaterThan(0);
  });

  it('says that a wet unit is dry, and that the pump takes in more vapour than it may', () => {
    const [row = []] = pick([['shop', 1, 20, '', 5, 5, '']], 600);
    expect(row[6]).toBe('meets the time, dry');
    const limited = PARTS.map((cells, i) => [...cells, i === 0 ? 'Water limit (mbar)' : cells[2] === 'pump' ? 1 : '']);
    expect(pick([['shop', 1, 20, '', 5, 5, '']], 600, limited)[0]?.[6]).toBe(
      'meets the time, dry; pump’s water limit passed: open its gas ballast',
    );
  });

  it('passes over the Port of a unit, and takes the fastest of those that are too slow into its words', () => {
    const units: CellRange = [
      ['Unit', 'Volume (L)', 'Port'],
      ['shop', 20, 'roof'],
    ];
    const [, row = []] = tableFrom('PUMP.PICK', units, PARTS, 600);
    expect(row[3]).not.toBe('none');
    const fastest = Math.min(...['fitted', 'bare', 'wide'].map((rig) => numberFrom('EVAC.TIME', 20, PARTS, rig)));
    const [short = []] = pick([['shop', 1, 20, '', '', '', '']], fastest / 2);
    expect(short).toMatchObject([
      'shop',
      1,
      20,
      'none',
      '',
      NONE,
      `none: fastest takes ${Number(fastest.toPrecision(3))} min (wide)`,
      '',
      '',
    ]);
  });

  it('says why no rig does: out of reach, water without heat, no volume', () => {
    const why = (unit: readonly Cell[]): readonly Cell[] => pick([unit], 600)[0] ?? [];
    expect(why(['shop', 1, 20, '', '', '', 10])[6]).toMatch(/^none: no rig reaches 1\.33322 Pa$/);
    expect(why(['shop', 1, 20, '', 5, 0, ''])[6]).toMatch(/^none: .*never dries.*Give Heat/);
    const blank = 'Volume is blank: fill it in, for example with RUN.VOLUME(runs, unit).';
    expect(why(['shop', 1, '', '', '', '', ''])).toMatchObject(['shop', 1, '', '', '', NONE, blank, '', '']);
  });

  it('goes by speed where a cost is missing, then by cost, and by cost first where all are known', () => {
    const of = (costs: readonly Cell[]): string => {
      const parts: CellRange = [
        ['Rig', 'Part', 'Kind', 'Speed (cfm)', 'Ultimate (micron)', 'Cost'],
        ['a', 'pump', 'pump', 8, 20, costs[0] ?? ''],
        ['b', 'pump', 'pump', 5, 20, costs[1] ?? ''],
        ['c', 'pump', 'pump', 5, 20, costs[2] ?? ''],
      ];
      return String(pick([['shop', 1, 20, '', '', '', '']], 600, parts)[0]?.[3]);
    };
    expect(of([100, 300, 200])).toBe('a');
    expect(of([300, 300, 300])).toBe('b');
    expect(of([400, 300, 200])).toBe('c');
    expect(of(['', 300, 200])).toBe('c');
    expect(of([100, '', 200])).toBe('c');
    expect(of(['', '', ''])).toBe('b');
  });
});
