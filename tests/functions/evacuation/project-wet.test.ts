import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { work } from '../../../src/functions/rig/curves.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, numberFrom, PARTS, tableFrom } from '../rig/tables.ts';

const HEADER = ['Unit', 'Volume (L)', 'Rig', 'Water (g)', 'Heat (W/K)', 'Ambient (C)', 'Target (micron)'] as const;
const NOT_AVAILABLE = { error: '#N/A' };

function project(rows: readonly Cell[][], conditions: CellRange = [], parts: CellRange = PARTS) {
  const table = tableFrom('EVAC.PROJECT', [HEADER, ...rows], parts, '', conditions);
  return (header: string): readonly Cell[] => columnOf(table, header);
}

const relative = (a: Cell, b: number): number => Math.abs(Number(a) / b - 1);

describe('EVAC.PROJECT with water', () => {
  const CASES = [
    // litres, rig, grams, W/K, C, micron
    [20, 'wide', 5, 0.5, 20, 500],
    [20, 'fitted', 5, 1, 20, 500],
    [6, 'bare', 12, 4, 30, 300],
    [350, 'wide', 150, 20, 12, 500],
    [20, 'wide', 3, 1, -5, 500],
    [20, 'wide', 0.05, 5, 20, 500],
  ] as const;

  it('takes as long as DRY.TIME takes for each row alone, within 0.2 %', () => {
    const column = project(
      CASES.map(([litres, rig, grams, heat, celsius, micron]) => ['one', litres, rig, grams, heat, celsius, micron]),
    );
    CASES.forEach(([litres, rig, grams, heat, celsius, micron], i) => {
      const conditions: CellRange = [
        ['Heat', heat],
        ['Ambient', celsius],
        ['Target', micron, 'micron'],
      ];
      const alone = numberFrom('DRY.TIME', litres, grams, PARTS, rig, conditions);
      expect(relative(column('Total')[i], alone), `row ${i}`).toBeLessThan(2e-3);
      // of the way there, DRY.CURVE tells the coldest that one of its points meets
      const curve = tableFrom('DRY.CURVE', litres, grams, PARTS, rig, 400, conditions);
      const met = columnOf(curve, 'Water temperature').filter((cell) => cell !== '');
      expect(Number(column('Lowest water temperature')[i]) - Math.min(...met.map(Number))).toBeLessThan(0.1);
      expect(column('Froze')[i]).toBe(
        columnOf(curve, 'State').some((s) => s === 'ice' || s === 'freezing') ? 'yes' : 'no',
      );
    });
  });

  it('agrees with the same row without water where there is none, and nearly so for a trace', () => {
    const conditions: CellRange = [
      ['Temperature', '35 C'],
      ['Ambient', '10 C'],
    ];
    const column = project(
      [
        ['states none', 20, 'fitted', 0, '', '', ''],
        ['is cold', 20, 'fitted', '', '', 10, ''],
        ['a trace', 20, 'fitted', 1e-6, 10, '', ''],
        ['says nothing', 20, 'fitted', '', '', '', ''],
      ],
      conditions,
    );
    const dry = numberFrom('DRY.TIME', 20, 0, PARTS, 'fitted', conditions);
    expect(column('Time to target')[0]).toBeCloseTo(dry, 9);
    expect(column('Total').slice(0, 2)).toEqual(column('Time to target').slice(0, 2));
    expect(column('Total')[1]).toBeCloseTo(dry, 9);
    // saturated vapour at 10 C is 1.2 % of what is pumped, and thinner than air
    expect(relative(column('Total')[2], dry)).toBeLessThan(0.02);
    expect(column('Total')[3]).toBeCloseTo(numberFrom('EVAC.TIME', 20, PARTS, 'fitted', conditions), 9);
    expect(column('Dry-out').slice(0, 2)).toEqual([0, 0]);
    for (const header of ['Lowest', 'Froze', 'Water limit'])
      expect(column(header).slice(0, 2), header).toEqual(['', '']);
  });

  it('is never sooner dry with more water, never later when warmer or better heated', () => {
    const grams = fc.double({ min: 0.5, max: 60, noNaN: true });
    const heat = fc.double({ min: 0.3, max: 20, noNaN: true });
    const litres = fc.double({ min: 2, max: 80, noNaN: true });
    fc.assert(
      fc.property(grams, heat, litres, fc.integer({ min: 2, max: 30 }), (g, w, v, celsius) => {
        const column = project([
          ['base', v, 'wide', g, w, celsius, ''],
          ['wetter', v, 'wide', 1.3 * g, w, celsius, ''],
          ['warmer', v, 'wide', g, w, celsius + 6, ''],
          ['heated', v, 'wide', g, 1.5 * w, celsius, ''],
        ]);
        const [base, wetter, warmer, heated] = column('Dry-out').map(Number);
        expect(wetter).toBeGreaterThan(base ?? 0);
        expect(warmer).toBeLessThan((base ?? 0) * (1 + 1e-3));
        expect(heated).toBeLessThan((base ?? 0) * (1 + 1e-3));
      }),
      { numRuns: 25, seed: 7 },
    );
  });

  it('is never later dry through a wider hose', () => {
    const bores = [4, 5, 6.5, 8, 10, 13, 19];
    const parts: CellRange = [
      ['Rig', 'Part', 'Kind', 'Bore (mm)', 'Length (m)', 'Speed (cfm)', 'Ultimate (micron)'],
      ...bores.flatMap((bore): Cell[][] => [
        [`${bore}`, 'pump', 'pump', '', '', 6, 20],
        [`${bore}`, 'hose', 'hose', bore, 1.5, '', ''],
      ]),
    ];
    for (const heat of [0.5, 5]) {
      const column = project(
        bores.map((bore) => ['one', 15, `${bore}`, 8, heat, '', '']),
        [],
        parts,
      );
      for (const header of ['Dry-out', 'Total']) {
        const times = column(header).map(Number);
        times.slice(1).forEach((time, i) => {
          expect(time).toBeLessThan((times[i] ?? 0) * (1 + 1e-3));
        });
      }
    }
  });

  it('says in words what decides: the water, the frost, the pump’s limit', () => {
    const limited = PARTS.map((row, i) => [...row, i === 0 ? 'Water limit (mbar)' : row[2] === 'pump' ? 2 : '']);
    const rows = [
      ['cold', 20, 'wide', 5, 0.5, '', ''],
      ['gentle', 20, 'fitted', 5, 1, '', ''],
    ];
    const column = project(rows, [], limited);
    expect(column('Verdict')[0]).toMatch(/dry after [\d.]+ min.*water froze, down to -\d+ °C: warm it or break/);
    expect(column('Verdict')[0]).toMatch(/pump’s water limit passed: open its gas ballast/);
    expect(column('Water limit passed')[0]).toBe('yes');
    expect(project(rows)('Water limit passed')).toEqual(['', '']);
    const inch = project(rows, [['Report units', 'inch']], limited);
    expect(inch('Verdict')[0]).toMatch(/°F: warm it/);
    const lowest = Number(column('Lowest')[0]);
    expect(inch('Lowest')[0]).toBeCloseTo(lowest * 1.8 + 32, 6);
  });

  it('gives #N/A and the reason for a row at fault, and goes on with the others', () => {
    const column = project(
      [
        ['too much', 20, 'wide', 30000, 1, '', ''],
        ['no heat', 20, 'wide', 5, 0, '', ''],
        ['too deep', 20, 'wide', 5, 1, '', 10],
        ['beyond the model', 20, 'wide', 5, 1, -60, ''],
        ['minus', 20, 'wide', -5, 1, '', ''],
        ['words', 20, 'wide', 'a cupful', 1, '', ''],
        ['negative', -20, 'wide', 5, 1, '', ''],
        ['', 20, 'wide', 5, 1, '', ''],
        ['no rig', 20, '', 5, 1, '', ''],
        ['colder than cold', 20, 'wide', 5, 1, -300, ''],
        ['sound', 20, 'wide', 5, 1, '', ''],
      ],
      [['Heat', 3]],
    );
    const words = column('Verdict').map(String);
    [
      /below 19964 g/,
      /never dries.*Give Heat/,
      /out of reach/,
      /holds from 230 K/,
      /row 6 of the range, column Water \(g\): Water is -5 g/,
      /row 7 of the range, column Water.*a cupful/,
      /row 8 of the range, column Volume/,
      /Unit is blank/,
      /Rig is blank/,
      /row 11 of the range, column Ambient/,
    ].forEach((expected, i) => {
      expect(words[i]).toMatch(expected);
      expect(column('Total')[i]).toMatchObject(NOT_AVAILABLE);
    });
    expect(column('Total').at(-1)).toBeGreaterThan(1);
    expect(column('Unit')).toHaveLength(11);
  });

  it('works each rig out once for each ambient, however many wet units there are', () => {
    const rigs = ['fitted', 'wide'];
    const rows = Array.from({ length: 600 }, (_, i): Cell[] => [
      `unit ${i}`,
      2 + (i % 37),
      rigs[i % 2] ?? '',
      1 + (i % 11),
      3,
      [11.125, 23.375][(i >> 1) % 2] ?? '',
      '',
    ]);
    const before = work.curvesBuilt;
    project(rows);
    // five compositions of each rig at each ambient
    const built = work.curvesBuilt - before;
    expect(built).toBeLessThanOrEqual(2 * 2 * 5);
    project(rows);
    expect(work.curvesBuilt - before).toBe(built);
  });
});
