import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, PARTS, tableFrom } from '../rig/tables.ts';

const RATES: CellRange = [
  ['Role', 'Rate', 'Attends', 'Waits', 'Day length (h)', 'Travel'],
  ['fitter', 40, 1, 0.5, 8, 16],
  ['helper', 25, 2, 0, 6, 0],
];
const UNITS: CellRange = [
  ['Unit', 'Count', 'Volume (L)', 'Rig', 'Set-up (min)', 'Hold (min)', 'Breaks', 'Access', 'Area', 'Other rig'],
  ['wall split', 12, 6, 'fitted', '', '', '', '', 'ground floor', 'wide'],
  ['cold room', 2, 80, 'fitted', 45, 60, 1, 1.5, 'roof', 'bare'],
  ['spare', 0, 80, 'fitted', 45, 60, 1, 1.5, 'cellar', ''],
  ['rack', 1, 20, 'wide', '', '', '', '', 'roof', ''],
];
const CONDITIONS: CellRange = [
  ['Pack-up', 10],
  ['Charging', '0.25 h'],
  ['Technicians', 2],
  ['Check interval', 20],
];

const table = (units: CellRange = UNITS, conditions: CellRange | null = CONDITIONS, rates = RATES) =>
  tableFrom('LABOUR.TABLE', units, PARTS, rates, null, conditions);
const numbers = (found: ReturnType<typeof table>, header: string): number[] => columnOf(found, header).map(Number);
const at = (found: ReturnType<typeof table>, row: string, header: string): Cell =>
  columnOf(found, header)[columnOf(found, 'Unit').indexOf(row)];

/** Minutes of the pull from EVAC.PROJECT, each row with the rig given. */
const pulls = (rigs: readonly string[]): number[] => {
  const units = UNITS.map((row, i) => (i === 0 ? row : row.map((cell, j) => (j === 3 ? (rigs[i - 1] ?? '') : cell))));
  return columnOf(tableFrom('EVAC.PROJECT', units, PARTS), 'Total').map(Number);
};

describe('LABOUR.TABLE', () => {
  const found = table();
  const own = pulls(['fitted', 'fitted', 'fitted', 'wide']);

  it('has the pull of EVAC.PROJECT in each row', () => {
    expect(numbers(found, 'Pull')).toEqual([...own, 0, 0, 0, 0, 0]);
    expect(columnOf(found, 'Unit')).toEqual([
      'wall split',
      'cold room',
      'spare',
      'rack',
      'Total',
      'Role: fitter',
      'Role: helper',
      'Gear',
      'Labour and gear',
    ]);
  });

  it('adds up the attended and waiting hours of one unit as a person would', () => {
    const [split = 0, cold = 0] = own;
    const splitLooks = 5 * Math.floor(split / 20);
    // 20 + 2 x 2 + 15 + 10 min
    expect(at(found, 'wall split', 'Attended each')).toBeCloseTo((49 + splitLooks) / 60, 9);
    expect(at(found, 'wall split', 'Waiting each')).toBeCloseTo((split + 30 - splitLooks) / 60, 9);
    // two pulls of half the minutes; (45 + 2 x 2 + 10 of the break + 15 + 10 + looks) x 1.5
    const coldLooks = 5 * 2 * Math.floor(cold / 2 / 20);
    expect(at(found, 'cold room', 'Attended each')).toBeCloseTo((1.5 * (84 + coldLooks)) / 60, 9);
    expect(at(found, 'cold room', 'Waiting each')).toBeCloseTo((cold + 60 - 1.5 * coldLooks) / 60, 9);
  });

  it('counts the units, and the way from area to area once', () => {
    const each = numbers(found, 'Attended each');
    const attended = numbers(found, 'Attended (');
    // the row without units is not visited, so the rack stands where the cold room stood
    [0, 10 / 60, 0, 0].forEach((way, i) => {
      expect(attended[i]).toBeCloseTo(Number(UNITS[i + 1]?.[1]) * (each[i] ?? 0) + way, 9);
    });
  });

  it('prices hours by role, with the way of each paid day, and counts days by the shortest day', () => {
    const attended = numbers(found, 'Attended (');
    const waiting = numbers(found, 'Waiting (');
    const cost = numbers(found, 'Cost');
    const days = numbers(found, 'Days');
    for (let i = 0; i < 5; i++) {
      // fitter 40 + 16/8 = 42 an hour, half paid while waiting; two helpers of 25
      expect(cost[i]).toBeCloseTo((42 + 50) * (attended[i] ?? 0) + 21 * (waiting[i] ?? 0), 6);
      expect(days[i]).toBeCloseTo((attended[i] ?? 0) / (2 * 6), 9);
    }
    const total = Number(at(found, 'Total', 'Attended ('));
    expect(at(found, 'Role: helper', 'Cost')).toBeCloseTo(50 * total, 6);
    expect(at(found, 'Role: helper', 'Attended (')).toBeCloseTo(2 * total, 9);
    expect(Number(at(found, 'Role: fitter', 'Cost')) + Number(at(found, 'Role: helper', 'Cost'))).toBeCloseTo(
      Number(at(found, 'Total', 'Cost')),
      6,
    );
  });

  it('has totals that are the sums of the rows', () => {
    for (const header of [
      'Count',
      'Attended (',
      'Waiting (',
      'Days',
      'Cost',
      'Other cost',
      'Saves attended',
      'Saves waiting',
      'Saves',
    ]) {
      const all = header === 'Saves' ? savesOf(found) : numbers(found, header);
      expect(all[4], header).toBeCloseTo(
        all.slice(0, 4).reduce((sum, value) => sum + value, 0),
        6,
      );
    }
  });

  it('holds the other rig beside the first, and gear once for each rig that is used', () => {
    const other = pulls(['wide', 'bare', 'fitted', 'wide']);
    expect(numbers(found, 'Other pull').slice(0, 4)).toEqual(other);
    expect(columnOf(found, 'Other rig').slice(0, 4)).toEqual(['wide', 'bare', 'fitted', 'wide']);
    // fitted 320 + wide 380, against wide 380 + bare 320: the spare row, which would go on as fitted, has no units
    expect(at(found, 'Gear', 'Cost')).toBe(700);
    expect(at(found, 'Gear', 'Other cost')).toBe(700);
    expect(at(found, 'Labour and gear', 'Cost')).toBeCloseTo(Number(at(found, 'Total', 'Cost')) + 700, 9);
    const saves = savesOf(found);
    expect(saves[8]).toBeCloseTo(saves[4] ?? 0, 6);
    // all on the wide rig: 380 in place of fitted 320 + wide 380
    const wide = table(UNITS.map((row, i) => row.map((cell, j) => (j === 9 && (i === 1 || i === 2) ? 'wide' : cell))));
    expect(at(wide, 'Gear', 'Other cost')).toBe(380);
    expect(savesOf(wide)[8]).toBeCloseTo((savesOf(wide)[4] ?? 0) + 320, 6);
  });

  it('leaves a row out of the totals that has no answer, and says so', () => {
    const units = UNITS.map((row) => [...row]);
    units.push(['ghost', 3, 6, 'nowhere', '', '', '', '', '', ''], ['empty', 1, '', 'wide', '', '', '', '', '', '']);
    const some = table(units);
    expect(at(some, 'Total', 'Cost')).toBeCloseTo(Number(at(found, 'Total', 'Cost')), 9);
    expect(at(some, 'Total', 'Verdict')).toBe('without 2 rows that could not be worked out');
    expect(at(some, 'ghost', 'Verdict')).toMatch(
      /^Units, row 6 of the range, column Rig: There is no rig "nowhere"\. Use one of: fitted/u,
    );
    expect(at(some, 'empty', 'Verdict')).toMatch(/^Units, row 7 of the range, column Volume: Volume is blank/u);
    expect(at(some, 'ghost', 'Cost')).toMatchObject({ error: '#N/A' });
  });

  it('keeps a row’s own rig in the totals where the other has no answer', () => {
    const units = UNITS.map((row, i) => (i === 1 ? [...row.slice(0, 9), 'nowhere'] : row));
    const some = table(units);
    expect(at(some, 'wall split', 'Verdict')).toMatch(/^other rig: Units, row 2 of the range, column Other rig/u);
    expect(at(some, 'Total', 'Verdict')).toBe('1 row keeps its own rig beside the other');
    expect(savesOf(some)[4]).toBeCloseTo(savesOf(some)[1] ?? Number.NaN, 6);
  });

  it('has no second rig where none is named', () => {
    const plain = table(UNITS.map((row) => row.slice(0, 9)));
    for (const header of ['Other rig', 'Other cost', 'Saves attended'])
      expect(new Set(columnOf(plain, header))).toEqual(new Set(['']));
  });

  it('tells that the gear has no price', () => {
    const parts = PARTS.map((row) => row.slice(0, 7));
    const some = tableFrom('LABOUR.TABLE', UNITS, parts, RATES);
    expect(at(some, 'Gear', 'Verdict')).toMatch(/no Cost of the rig "fitted"/u);
  });

  it('takes no more waiting with a wider hose, and never more attended hours', () => {
    const row = fc.record({
      volume: fc.double({ min: 1, max: 300, noNaN: true }),
      water: fc.double({ min: 0.1, max: 40, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 5 }), (rows) => {
        const units = [
          ['Unit', 'Volume (L)', 'Water (g)', 'Heat (W/K)', 'Rig', 'Other rig'],
          ...rows.map(({ volume, water }, i) => [`u${i}`, volume, Math.min(water, volume), 2, 'bare', 'wide']),
        ];
        for (const header of ['Saves waiting', 'Saves attended'])
          for (const saved of numbers(table(units, [['Check interval', 0]]), header))
            expect(saved).toBeGreaterThan(-1e-9);
      }),
      { numRuns: 20 },
    );
  });
});

/** Money saved: the header is the beginning of others. */
function savesOf(found: ReturnType<typeof table>): number[] {
  const index = found[0]?.indexOf('Saves') ?? -1;
  return found.slice(1).map((row) => Number(row[index]));
}

describe('LABOUR.TABLE in words', () => {
  it.each<[string, string, RegExp, CellRange, CellRange, CellRange | null]>([
    [
      'a negative rate',
      '#VALUE!',
      /^Rates, row 2 of the range, column Rate: Rate is -4/u,
      UNITS,
      [
        ['Role', 'Rate'],
        ['a', -4],
      ],
      null,
    ],
    [
      'a day without hours',
      '#VALUE!',
      /Day length is 0 h: it must be above 0/u,
      UNITS,
      [
        ['Role', 'Rate', 'Day length'],
        ['a', 4, 0],
      ],
      null,
    ],
    ['no rates', '#VALUE!', /rates table has no rows/iu, UNITS, [['Role', 'Rate']], null],
    [
      'nobody who attends',
      '#VALUE!',
      /Attends is 0 in every row/u,
      UNITS,
      [
        ['Role', 'Rate', 'Attends'],
        ['a', 4, 0],
      ],
      null,
    ],
    ['no technicians', '#VALUE!', /Technicians is 0: it must be at least 1/u, UNITS, RATES, [['Technicians', 0]]],
    [
      'half a technician',
      '#VALUE!',
      /Technicians is 1.5: allowed is a whole number/u,
      UNITS,
      RATES,
      [['Technicians', 1.5]],
    ],
    [
      'units without a rig column',
      '#VALUE!',
      /no column "Rig"/u,
      [
        ['Unit', 'Volume'],
        ['a', 4],
      ],
      RATES,
      null,
    ],
  ])('refuses %s', (_, code, words, units, rates, conditions) => {
    expectFault(code, words, 'LABOUR.TABLE', units, PARTS, rates, null, conditions);
  });

  it('tells a unit without a rig in its row', () => {
    const some = table([
      ['Unit', 'Volume', 'Rig'],
      ['a', 4, ''],
      ['b', 4, 'wide'],
    ]);
    expect(columnOf(some, 'Verdict')[0]).toMatch(/row 2 of the range, column Rig: Rig is blank/u);
    expect(columnOf(some, 'Verdict')[2]).toMatch(/without 1 row /u);
  });
});
