import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalScore } from '../../../src/numerics/normal.ts';
import type { Cell, CellRange } from '../../../src/tables/cells.ts';
import { columnOf, expectFault, PARTS, tableFrom } from '../rig/tables.ts';

const RATES: CellRange = [
  ['Role', 'Rate', 'Waits', 'Day length (h)'],
  ['fitter', 40, 0.5, 8],
];
const UNITS: CellRange = [
  ['Unit', 'Count', 'Volume (L)', 'Rig', 'Water (g)', 'Heat (W/K)', 'Ambient', 'Breaks', 'Access', 'Area'],
  ['wall split', 12, 6, 'wide', 10, 2, 18, '', '', 'ground floor'],
  ['cold room', 2, 80, 'wide', 40, 1.5, 10, 1, 1.5, 'roof'],
  ['rack', 1, 20, 'bare', '', '', '', '', '', 'roof'],
];
const FACTORS: CellRange = [
  ['Factor', 'On', 'Low', 'Likely', 'High', 'Spread', 'Shared'],
  ['wet pipes', 'water', 0.4, 1, 2.5, '', ''],
  ['weather', 'ambient', '', '', '', 4, 'yes'],
  ['ladders', 'access', 0.9, 1, 1.5, '', ''],
  ['new crew', 'learning', 0.9, 1, 1.3, '', 'yes'],
  ['leak search', 'leaks', 0, 0, 20, '', ''],
];

const risk = (factors: CellRange = FACTORS, units: CellRange = UNITS, conditions: CellRange | null = null) =>
  tableFrom('LABOUR.RISK', units, PARTS, RATES, factors, null, conditions);
const labour = (units: CellRange = UNITS) => tableFrom('LABOUR.TABLE', units, PARTS, RATES);
type Table = ReturnType<typeof risk>;
const at = (found: Table, row: string, header: string): number =>
  Number(columnOf(found, header)[columnOf(found, 'Figure').indexOf(row)]);
const totalOf = (found: Table, header: string): number =>
  Number(columnOf(found, header)[columnOf(found, 'Unit').indexOf('Total')]);
/** The header row and one factor by its name. */
const only = (name: string): CellRange => FACTORS.filter(([first], i) => i === 0 || first === name);
/** Units with one cell of a column changed in every row that has it. */
const changed = (units: CellRange, header: string, change: (value: number) => number): CellRange => {
  const index = units[0]?.indexOf(header) ?? -1;
  return units.map((row, i) =>
    i === 0 ? row : row.map((cell, j): Cell => (j === index && typeof cell === 'number' ? change(cell) : cell)),
  );
};

describe('LABOUR.RISK', () => {
  it('gives the hours of LABOUR.TABLE where nothing spreads', () => {
    const still = FACTORS.map((row, i) =>
      i === 0 ? row : [row[0], row[1], '', row[1] === 'ambient' || row[1] === 'leaks' ? 0 : 1, '', 0, row[6]],
    ) as CellRange;
    const found = risk(still);
    const table = labour();
    for (const row of ['P10', 'P50', 'P80', 'P90', 'Mean']) {
      for (const header of ['Attended', 'Waiting', 'Cost', 'Days'])
        expect(
          at(found, row, header) /
            totalOf(table, header === 'Attended' || header === 'Waiting' ? `${header} (` : header),
        ).toBeCloseTo(1, 9);
      expect(at(found, row, 'Attended error')).toBeLessThan(1e-9);
    }
  });

  it('has the closed quantiles of one lognormal on all attended time but the way between areas', () => {
    const found = risk([
      ['On', 'Spread', 'Shared'],
      ['access', 0.3, 'yes'],
    ]);
    const median = totalOf(labour(), 'Attended (') - 10 / 60;
    for (const share of [10, 50, 80, 90]) {
      const closed = median * Math.exp(0.3 * normalScore(share / 100)) + 10 / 60;
      expect(at(found, `P${share}`, 'Attended (') / closed).toBeCloseTo(1, 2);
      expect(Math.abs(at(found, `P${share}`, 'Attended (') / closed - 1)).toBeLessThan(3e-3);
    }
    expect(at(found, 'Mean', 'Attended (')).toBeCloseTo(median * Math.exp(0.3 ** 2 / 2) + 10 / 60, 2);
    expect(at(found, 'P90', 'Waiting (')).toBeCloseTo(at(found, 'P10', 'Waiting ('), 9);
  });

  it.each([
    ['wet pipes', 'Water (g)', (g: number) => g * 2.5, (g: number) => g * 0.4],
    // colder air dries slower: the 10th percentile of the temperature is the 90th of the hours
    ['weather', 'Ambient', (t: number) => t - 4 * 1.2815515655446004, (t: number) => t + 4 * 1.2815515655446004],
  ] as const)(
    'has at P10 and P90 of %s alone, drawn once for all, the hours of the table with that much',
    (name, header, high, low) => {
      const shared = only(name).map((row, i) => (i === 0 ? row : [...row.slice(0, 6), 'yes']));
      const found = risk(shared);
      for (const [row, change] of [
        ['P10', low],
        ['P90', high],
      ] as const) {
        const table = labour(changed(UNITS, header, change));
        expect(Math.abs(at(found, row, 'Waiting (') / totalOf(table, 'Waiting (') - 1)).toBeLessThan(6e-3);
      }
      expect(at(found, 'P50', 'Waiting (') / totalOf(labour(), 'Waiting (')).toBeCloseTo(1, 2);
    },
  );

  it('has at P90 of access drawn once for all the hours of the table with that much', () => {
    const found = risk([
      ['On', 'Low', 'Likely', 'High', 'Shared'],
      ['access', 0.8, 1, 1.6, 'yes'],
    ]);
    const access = UNITS.map((row, i) =>
      i === 0 ? row : row.map((cell, j) => (j === 8 ? 1.6 * (Number(cell) || 1) : cell)),
    );
    const table = labour(access);
    expect(at(found, 'P90', 'Attended (') / totalOf(table, 'Attended (')).toBeCloseTo(1, 2);
    // the looks take longer, so that less is waited
    expect(at(found, 'P10', 'Waiting (') / totalOf(table, 'Waiting (')).toBeCloseTo(1, 3);
  });

  it('agrees with plain random draws, each worked out in full by LABOUR.TABLE', () => {
    let state = 2463534242;
    const uniform = (): number => {
      state ^= state << 13;
      state ^= state >>> 17;
      state ^= state << 5;
      return ((state >>> 0) + 0.5) / 2 ** 32;
    };
    const normal = (): number => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
    const two = (low: number, high: number): number => {
      const score = normal() / 1.2815515655446004;
      return score < 0 ? (1 / low) ** score : high ** score;
    };
    const COUNT = 3000;
    const header = [...(UNITS[0] ?? [])];
    const [, split = [], cold = []] = UNITS;
    const rows: Cell[][] = [];
    for (let i = 0; i < COUNT; i++) {
      // sixty kinds of weather alike in weight, one after another: each has its own curves of the rig
      const weather = 4 * normalScore((Math.floor(i / 50) + 0.5) / 60);
      for (const one of [split, cold]) {
        const access = two(0.9, 1.5);
        rows.push(
          one.map((cell, j): Cell => {
            if (j === 4) return Number(cell) * two(0.4, 2.5);
            if (j === 6) return Number(cell) + weather;
            if (j === 8) return (cell === '' ? 1 : Number(cell)) * access;
            return j === 9 ? '' : cell;
          }),
        );
      }
    }
    const table = labour([header, ...rows]);
    const sums = (name: string): number[] => {
      const column = columnOf(table, name).map(Number);
      return Array.from({ length: COUNT }, (_, i) => (column[2 * i] ?? 0) + (column[2 * i + 1] ?? 0)).sort(
        (a, b) => a - b,
      );
    };
    const factors = FACTORS.filter((_, i) => i < 4);
    const found = risk(factors, [header, ...[split, cold].map((row) => [...row.slice(0, 9), ''])]);
    for (const name of ['Attended (', 'Waiting (', 'Cost'])
      for (const share of [10, 50, 80, 90]) {
        const plain = sums(name)[Math.floor((share / 100) * COUNT)] ?? 0;
        // 3000 plain draws: a few percent in the tail
        expect(Math.abs(at(found, `P${share}`, name) / plain - 1), `${name} P${share}`).toBeLessThan(0.04);
      }
  });

  it('spreads more where rows are of one kind, and most where all share a draw', () => {
    const units = (kind: string): CellRange => [
      ['Unit', 'Volume (L)', 'Rig', 'Kind'],
      ...Array.from({ length: 20 }, (_, i) => [`u${i}`, 6, 'wide', kind === '' ? '' : `${kind}${i % 2}`]),
    ];
    const factor = (shared: string): CellRange => [
      ['On', 'Spread', 'Shared'],
      ['learning', 0.4, shared],
    ];
    const spread = (found: Table): number => at(found, 'P90', 'Attended (') - at(found, 'P10', 'Attended (');
    const each = spread(risk(factor('no'), units('')));
    const kinds = spread(risk(factor('no'), units('kind')));
    const all = spread(risk(factor('yes'), units('')));
    expect(kinds).toBeGreaterThan(2 * each);
    expect(all).toBeGreaterThan(1.2 * kinds);
  });

  it('names the factor that drives the spread', () => {
    const found = risk();
    const names = columnOf(found, 'Figure').slice(5);
    expect([...names].sort()).toEqual(['ladders', 'leak search', 'new crew', 'weather', 'wet pipes']);
    expect(columnOf(found, 'Rank').slice(5)).toEqual([1, 2, 3, 4, 5]);
    const shares = columnOf(found, 'Share of spread').slice(5).map(Number);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(100, 6);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    const wetter = risk(FACTORS.map((row) => (row[1] === 'water' ? ['wet pipes', 'water', '', 1, '', 1.2, ''] : row)));
    expect(columnOf(wetter, 'Figure')[5]).toBe('wet pipes');
  });

  it('gives the percentiles that are asked for, in days of the technicians there are', () => {
    const found = risk(FACTORS, UNITS, [
      ['Percentiles', 'P5, 95 %'],
      ['Technicians', 3],
    ]);
    expect(columnOf(found, 'Figure').slice(0, 3)).toEqual(['P5', 'P95', 'Mean']);
    expect(at(found, 'P95', 'Days')).toBeCloseTo(at(found, 'P95', 'Attended (') / (3 * 8), 9);
    expect(columnOf(risk(FACTORS, UNITS, [['Percentiles', 75]]), 'Figure')[0]).toBe('P75');
  });

  it('is the same each time', () => {
    expect(risk()).toEqual(risk());
  });

  it('never lowers P90 when a factor spreads more, nor raises P10', () => {
    const on = fc.constantFrom('water', 'access', 'learning', 'ambient', 'leaks');
    const width = fc.double({ min: 0, max: 0.8, noNaN: true });
    fc.assert(
      fc.property(on, width, width, (target, a, b) => {
        const scale = target === 'ambient' || target === 'leaks' ? 6 : 1;
        // minutes of a leak search that stay above 0
        const likely = target === 'leaks' ? 20 : target === 'ambient' ? 0 : 1;
        const of = (sigma: number): Table =>
          risk([
            ['On', 'Likely', 'Spread'],
            [target, likely, sigma * scale],
          ]);
        const [narrow, wide] = [of(Math.min(a, b)), of(Math.max(a, b))];
        const sum = (found: Table, row: string): number => at(found, row, 'Attended (') + at(found, row, 'Waiting (');
        expect(sum(wide, 'P90')).toBeGreaterThan(sum(narrow, 'P90') * (1 - 2e-3));
        expect(sum(wide, 'P10')).toBeLessThan(sum(narrow, 'P10') * (1 + 2e-3));
      }),
      { numRuns: 12 },
    );
  });

  it('works out a project of many wet rows nearly as finely as a small one', () => {
    const rows = (count: number): CellRange => [
      ['Unit', 'Count', 'Volume (L)', 'Rig', 'Water (g)', 'Heat (W/K)', 'Kind'],
      ...Array.from({ length: count }, (_, i) => [`u${i}`, 300 / count, 6 + (i % 30), 'wide', 5 + (i % 30), 2, 'one']),
    ];
    const factors = FACTORS.filter((_, i) => i < 3);
    const [few, many] = [risk(factors, rows(30)), risk(factors, rows(300))];
    for (const row of ['P10', 'P50', 'P80', 'P90', 'Mean'])
      expect(Math.abs(at(many, row, 'Waiting (') / at(few, row, 'Waiting (') - 1), row).toBeLessThan(0.015);
  });
});

describe('LABOUR.RISK in words', () => {
  const bad = (
    factors: CellRange,
    words: RegExp,
    units = UNITS,
    conditions: CellRange | null = null,
    code = '#VALUE!',
  ) => expectFault(code, words, 'LABOUR.RISK', units, PARTS, RATES, factors, null, conditions);

  it('refuses factors that cannot be', () => {
    bad(
      [
        ['On', 'Spread'],
        ['mood', 0.1],
      ],
      /no target of a factor "mood".*water, ambient, access/u,
      UNITS,
      null,
      '#N/A',
    );
    bad(
      [
        ['On', 'Low', 'Likely', 'High'],
        ['water', 2, 1, 3],
      ],
      /Factors, row 2 of the range, column Low: Low is 2: it must be at most 1/u,
    );
    bad(
      [
        ['On', 'Spread'],
        ['water', 0.1],
        ['water', 0.2],
      ],
      /row 3 of the range, column On: On is "water", on which "water" acts/u,
    );
  });

  it.each([
    ['0, 50', /Percentiles is 0: it must be above 0/u],
    ['50, 100', /Percentiles is 100: it must be below 100/u],
    ['median', /Percentiles is "median"/u],
  ])('refuses the percentiles %s', (text, words) => {
    bad(FACTORS, words, UNITS, [['Percentiles', text]]);
  });

  it('names the row that cannot be worked out', () => {
    bad(
      FACTORS,
      /^Units, row 5 of the range, column Rig: There is no rig "nowhere"/u,
      [...UNITS, ['x', 1, 6, 'nowhere', '', '', '', '', '', '']],
      null,
      '#N/A',
    );
    bad(FACTORS, /^Units, row 5 of the range, column Rig: Rig is blank/u, [
      ...UNITS,
      ['x', 1, 6, '', '', '', '', '', '', ''],
    ]);
    bad(
      FACTORS,
      /^Units, row 5 of the range: .*heat is missing/iu,
      [...UNITS, ['x', 1, 6, 'wide', 5, '', '', '', '', '']],
      null,
      '#N/A',
    );
  });

  it('tells when it is a factor that takes a row out of reach', () => {
    const cold = UNITS.map((row, i) => (i === 1 ? row.map((cell, j) => (j === 4 ? 4000 : cell)) : row));
    bad(FACTORS, /row 2 of the range: "wall split" has no answer with .* times its water/u, cold, null, '#N/A');
  });

  it('needs units', () => {
    bad(
      FACTORS,
      /every Count of the units is 0/iu,
      [
        ['Unit', 'Count', 'Volume', 'Rig'],
        ['a', 0, 6, 'wide'],
      ],
      null,
      '#N/A',
    );
  });
});
