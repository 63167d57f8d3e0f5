import { describe, expect, it } from 'vitest';
import { findRefrigerant, refrigerantByName, refrigerantNames } from '../../../src/engine/refrigerant/by-name.ts';
import { chebyshev, chebyshevSlope, reduced, seriesAt } from '../../../src/engine/refrigerant/chebyshev.ts';
import { TABLES } from '../../../src/engine/refrigerant/data/index.ts';
import { r744 } from '../../../src/engine/refrigerant/data/r-744.ts';
import { refrigerantFrom } from '../../../src/engine/refrigerant/from-table.ts';
import type { RefrigerantTable } from '../../../src/engine/refrigerant/table.ts';
import { issueOf } from '../../issue-of.ts';
import { checkRows } from './checks.ts';

const R = 8.314462618;
/** made anew for each test */
const pairs = () => TABLES.map((table) => ({ table, fluid: refrigerantFrom(table) }));
const SHARES = Array.from({ length: 41 }, (_, i) => i / 40);

/** A series by the definition of its polynomials, T_k(x) = cos(k arccos x). */
const byCosines = (c: readonly number[], x: number): number =>
  c.reduce((sum, value, k) => sum + value * Math.cos(k * Math.acos(Math.min(1, Math.max(-1, x)))), 0);
const within = (low: number, high: number, at: number): number => (2 * at - low - high) / (high - low);

/** d of a surface at x along T, by cosines both ways: rows for T, columns for d from 0 to 1 */
const surface = (rows: readonly (readonly number[])[], x: number, d: number): number =>
  byCosines(
    rows.map((row) => byCosines(row, 2 * d - 1)),
    x,
  );

/** Root of a rising function by halves of the bracket: slow and sure. */
function byHalves(f: (x: number) => number, from: number, to: number): number {
  let [a, b] = [from, to];
  for (let i = 0; i < 100; i++) {
    const mid = (a + b) / 2;
    if (f(mid) < 0) a = mid;
    else b = mid;
  }
  return (a + b) / 2;
}

describe('a series', () => {
  it('is the sum of its polynomials, and its slope the difference of two near values', () => {
    for (const c of [[2], [1, -2], [0.5, 1, -0.25], [3, 0, 2, -1, 0.5, 0.125]]) {
      for (const x of [-1, -0.6, 0, 0.3, 0.99, 1]) {
        expect(chebyshev(c, x)).toBeCloseTo(byCosines(c, x), 13);
        const inner = Math.max(-1 + 1e-4, Math.min(1 - 1e-4, x));
        const difference = (byCosines(c, inner + 1e-5) - byCosines(c, inner - 1e-5)) / 2e-5;
        expect(chebyshev(chebyshevSlope(c), inner)).toBeCloseTo(difference, 6);
      }
    }
    expect(chebyshev([], 0.3)).toBe(0);
  });

  it('beyond its ends keeps the value of the end', () => {
    const series = { coefficients: [1, 2, 3], low: 10, high: 20 };
    expect(seriesAt(series, 9)).toBe(1 - 2 + 3);
    expect(seriesAt(series, 21)).toBe(1 + 2 + 3);
    expect([10, 12.5, 15, 20].map((at) => reduced(10, 20, at))).toEqual([-1, -0.5, 0, 1]);
  });
});

describe('a saturation line', () => {
  it('gives at each pressure, from end to end, the temperature that bisection finds on it', () => {
    for (const { table, fluid } of pairs()) {
      for (const share of SHARES) {
        const t = table.lowest + share * (table.highest - table.lowest);
        const logAt = (c: readonly number[], at: number): number =>
          byCosines(c, within(1 / table.lowest, 1 / table.highest, 1 / at));
        const bubble = byHalves((at) => logAt(table.bubblePressure, at) - Math.log(fluid.bubblePressure(t)), 100, 500);
        expect(fluid.bubblePressure(t) / Math.exp(logAt(table.bubblePressure, t))).toBeCloseTo(1, 11);
        expect(Math.abs(fluid.bubbleTemperature(fluid.bubblePressure(t)) - t), fluid.name).toBeLessThan(1e-9);
        expect(Math.abs(fluid.dewTemperature(fluid.dewPressure(t)) - t), fluid.name).toBeLessThan(1e-9);
        if (share > 0 && share < 1) expect(Math.abs(bubble - t)).toBeLessThan(1e-9);
      }
    }
  });

  it('takes a pressure at its end to the last bits, and one beyond is a fault with the range', () => {
    for (const { table, fluid } of pairs()) {
      const [min, max] = [fluid.dewPressure(table.lowest), fluid.dewPressure(table.highest)];
      expect(fluid.dewTemperature(min)).toBeCloseTo(table.lowest, 9);
      expect(fluid.dewTemperature(max)).toBeCloseTo(table.highest, 9);
      for (const value of [min * (1 - 1e-9), max * (1 + 1e-9), 0, -1, Number.NaN]) {
        expect(issueOf(() => fluid.dewTemperature(value))).toEqual({
          kind: 'model-range',
          model: `dew line of ${table.name}`,
          argument: 'pressure',
          value,
          min: expect.closeTo(min, 4),
          max: expect.closeTo(max, 4),
          unit: 'Pa',
        });
      }
      expect(issueOf(() => fluid.bubbleTemperature(2 * max))).toMatchObject({ model: `bubble line of ${table.name}` });
    }
  });
});

describe('a refrigerant made from its table', () => {
  it('has the values that the equations of state give (checks made with the tables)', () => {
    const rows = checkRows('saturation-checks').filter((_, i) => i % 7 === 0);
    for (const { table, fluid } of pairs()) {
      expect(fluid).toMatchObject({ name: table.name, composition: table.composition, source: table.source });
      for (const row of rows.filter(({ refrigerant }) => refrigerant === table.name)) {
        const t = row.number('t_K');
        for (const [header, ours] of [
          ['p_bubble_Pa', fluid.bubblePressure(t)],
          ['p_dew_Pa', fluid.dewPressure(t)],
          ['rho_liquid', fluid.liquidDensity(t)],
          ['rho_vapour', fluid.saturatedVapourDensity(t)],
          ['cp_liquid', fluid.liquidHeat(t)],
          ['mu_vapour_uPas', fluid.vapourViscosity(t) * 1e6],
          ['mu_liquid_uPas', fluid.liquidViscosity(t) * 1e6],
          ['gamma', fluid.heatCapacityRatio(t)],
        ] as const)
          expect(Math.abs(ours / row.number(header) - 1), `${table.name} ${header}`).toBeLessThan(0.005);
        expect(Math.abs(fluid.liquidEnthalpy(t) - row.number('h_liquid'))).toBeLessThan(50);
        expect(Math.abs(fluid.vapourEnthalpy(t) - row.number('h_vapour'))).toBeLessThan(50);
        const latent = row.number('h_vapour') - row.number('h_liquid');
        expect(Math.abs(fluid.latentHeat(t) - latent)).toBeLessThan(100);
      }
    }
  });
});

describe('the temperature range', () => {
  // CO2: the table from its triple point, vapour to 100 C
  it('of saturation is that of the table and of vapour ends at 100 C, said in C', () => {
    const fluid = refrigerantFrom(r744);
    const range = { kind: 'model-range', argument: 'temperature', unit: 'C' };
    const min = expect.closeTo(fluid.lowest - 273.15, 9);
    const max = expect.closeTo(fluid.highest - 273.15, 9);
    for (const t of [fluid.lowest - 1e-3, fluid.highest + 1e-3, 600, 0]) {
      const value = expect.closeTo(t - 273.15, 9);
      const expected = { ...range, model: 'saturation of R-744', value, min, max };
      expect(issueOf(() => fluid.liquidDensity(t))).toEqual(expected);
      expect(issueOf(() => fluid.bubblePressure(t))).toEqual(expected);
    }
    for (const t of [fluid.lowest - 1e-3, 373.151, 600, 0, Number.NaN]) {
      const value = Number.isNaN(t) ? Number.NaN : expect.closeTo(t - 273.15, 9);
      const expected = { ...range, model: 'vapour of R-744', value, min, max: expect.closeTo(100, 9) };
      expect(issueOf(() => fluid.vapourViscosity(t))).toEqual(expected);
      expect(issueOf(() => fluid.heatCapacityRatio(t))).toEqual(expected);
      expect(issueOf(() => fluid.vapourDensity(t, 1e5))).toEqual(expected);
    }
  });

  it('takes what arithmetic put a millionth of a kelvin outside as its end', () => {
    for (const { fluid: each } of pairs()) {
      expect(each.dewPressure(each.lowest - 0.9e-6)).toBe(each.dewPressure(each.lowest));
      expect(each.liquidDensity(each.highest + 0.9e-6)).toBe(each.liquidDensity(each.highest));
      expect(issueOf(() => each.dewPressure(each.lowest - 1.2e-6))).toBeDefined();
      expect(issueOf(() => each.dewPressure(each.highest + 1.2e-6))).toBeDefined();
      expect(each.warmest).toBe(Math.max(each.highest, 373.15));
      expect(each.vapourDensity(each.warmest, 1e4)).toBeGreaterThan(0);
    }
  });
});

/** p/(R_s T) of vapour at a share d of the density at d = 1, by the polynomial that table.ts describes */
function shapeOf(table: RefrigerantTable, t: number, dense: number, dew: number): (d: number) => number {
  const cube = (at: number): number => Math.cbrt(1 - at / table.criticalTemperature);
  if (t > table.highest) {
    const x = within(table.highest, Math.max(table.highest, 373.15), t);
    return (d) => d * (1 + d * surface(table.warmShape ?? [[0]], x, d));
  }
  const x = within(cube(table.lowest), cube(table.highest), cube(t));
  const atDew = dew / (((R * t) / table.molarMass) * dense) - 1;
  return (d) => d * (1 + d * atDew * (1 + (1 - d) * surface(table.vapourShape, x, d)));
}

describe('the density of vapour', () => {
  it('is the root that bisection finds on the polynomial, from a millionth of the dew pressure to all of it', () => {
    for (const { table, fluid } of pairs()) {
      for (const t of [table.lowest, 240, 280, 300, table.highest, table.highest + 2, fluid.warmest]) {
        if (t > fluid.warmest) continue;
        const at = Math.min(t, table.highest);
        const [dense, dew] = [fluid.saturatedVapourDensity(at), fluid.dewPressure(at)];
        const shape = shapeOf(table, t, dense, dew);
        for (const part of [1e-6, 1e-3, 0.03, 0.2, 0.5, 0.8, 0.97]) {
          const ideal = (part * dew * table.molarMass) / (R * t * dense);
          const root = dense * byHalves((d) => shape(d) - ideal, 0, 1);
          expect(Math.abs(fluid.vapourDensity(t, part * dew) / root - 1), `${table.name} ${t} ${part}`).toBeLessThan(
            2e-9,
          );
        }
      }
    }
  });

  it('takes a pressure a millionth above the dew line as on it; more is a fault with the dew pressure', () => {
    for (const { fluid } of pairs()) {
      const max = fluid.dewPressure(260);
      expect(fluid.vapourDensity(260, max * (1 + 0.9e-6))).toBe(fluid.vapourDensity(260, max));
      for (const value of [max * (1 + 1.1e-6), -1e-9, Number.NaN]) {
        expect(issueOf(() => fluid.vapourDensity(260, value))).toEqual({
          kind: 'model-range',
          model: `vapour of ${fluid.name}`,
          argument: 'pressure',
          value,
          min: 0,
          max,
          unit: 'Pa',
        });
      }
      expect(fluid.vapourDensity(260, 0)).toBe(0);
    }
  });
});

describe('the name of a refrigerant', () => {
  it('loses its prefix at the front alone: letters inside it are part of it', () => {
    for (const name of ['4R10A', '1R34a', '13hc4a', 'xR-22', 'R-R-22', 'R-4HFC10A'])
      expect(findRefrigerant(name)).toBeUndefined();
  });

  it('that is not known is said to be a refrigerant that is not', () => {
    expect(issueOf(() => refrigerantByName('R-99'))).toEqual({
      kind: 'unknown',
      what: 'refrigerant',
      value: 'R-99',
      known: refrigerantNames,
    });
  });
});
