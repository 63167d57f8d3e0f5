import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { findRefrigerant, refrigerantByName, refrigerantNames } from '../../../src/engine/refrigerant/by-name.ts';
import { TABLES } from '../../../src/engine/refrigerant/data/index.ts';
import type { Refrigerant } from '../../../src/engine/refrigerant/refrigerant.ts';
import { Fault, type Issue } from '../../../src/faults/issue.ts';

const R = 8.314462618;
const fluids = refrigerantNames.map((name) => refrigerantByName(name));
const anyFluid = fc.constantFrom(...fluids);
/** of a range, even all along: doubles from 0 to 1 would be next to 0 nearly always */
const share = fc.integer({ min: 0, max: 1_000_000 }).map((part) => part / 1_000_000);
const between = (fluid: Refrigerant, part: number): number => fluid.lowest + part * (fluid.highest - fluid.lowest);

function issueOf(run: () => unknown): Issue {
  try {
    run();
  } catch (error) {
    if (error instanceof Fault) return error.issue;
    throw error;
  }
  throw new Error('no fault');
}

describe('a refrigerant', () => {
  it('boils at a higher pressure, with lighter liquid and heavier vapour, the warmer it is', () => {
    fc.assert(
      fc.property(anyFluid, share, share, (fluid, a, b) => {
        fc.pre(Math.abs(a - b) > 1e-4);
        const [cold, warm] = [between(fluid, Math.min(a, b)), between(fluid, Math.max(a, b))];
        expect(fluid.bubblePressure(warm)).toBeGreaterThan(fluid.bubblePressure(cold));
        expect(fluid.dewPressure(warm)).toBeGreaterThan(fluid.dewPressure(cold));
        expect(fluid.liquidDensity(warm)).toBeLessThan(fluid.liquidDensity(cold));
        expect(fluid.saturatedVapourDensity(warm)).toBeGreaterThan(fluid.saturatedVapourDensity(cold));
        expect(fluid.latentHeat(warm)).toBeLessThan(fluid.latentHeat(cold));
        expect(fluid.liquidViscosity(warm)).toBeLessThan(fluid.liquidViscosity(cold));
        expect(fluid.vapourViscosity(warm)).toBeGreaterThan(fluid.vapourViscosity(cold));
        expect(fluid.liquidEnthalpy(warm)).toBeGreaterThan(fluid.liquidEnthalpy(cold));
      }),
    );
  });

  it('has its bubble line at or above its dew line, and liquid heavier than vapour', () => {
    fc.assert(
      fc.property(anyFluid, share, (fluid, part) => {
        const t = between(fluid, part);
        // 1e-4 is what the two series of a nearly azeotropic blend are good for
        expect(fluid.bubblePressure(t)).toBeGreaterThanOrEqual(fluid.dewPressure(t) * (1 - 1e-4));
        expect(fluid.liquidDensity(t)).toBeGreaterThan(fluid.saturatedVapourDensity(t));
        expect(fluid.latentHeat(t)).toBeGreaterThan(0);
        expect(fluid.heatCapacityRatio(t)).toBeGreaterThan(1);
      }),
    );
  });

  it('gives back the temperature of a pressure on either line', () => {
    fc.assert(
      fc.property(anyFluid, share, (fluid, part) => {
        const t = between(fluid, part);
        expect(Math.abs(fluid.bubbleTemperature(fluid.bubblePressure(t)) - t)).toBeLessThan(1e-8);
        expect(Math.abs(fluid.dewTemperature(fluid.dewPressure(t)) - t)).toBeLessThan(1e-8);
      }),
    );
  });

  it('as vapour is denser than an ideal gas, denser with pressure, and meets the dew line', () => {
    fc.assert(
      fc.property(anyFluid, share, share, (fluid, part, of) => {
        const t = between(fluid, part);
        const most = fluid.dewPressure(t);
        const density = fluid.vapourDensity(t, of * most);
        const ideal = (of * most * fluid.molarMass) / (R * t);
        expect(density).toBeGreaterThanOrEqual(ideal * (1 - 1e-9));
        expect(fluid.vapourDensity(t, most)).toBeCloseTo(fluid.saturatedVapourDensity(t), 6);
        expect(fluid.vapourDensity(t, of * most * 0.99)).toBeLessThanOrEqual(density);
        expect(fluid.vapourDensity(t, 0)).toBe(0);
      }),
    );
  });

  it('as dilute vapour is an ideal gas', () => {
    for (const fluid of fluids) {
      const ideal = (10 * fluid.molarMass) / (R * 293.15);
      expect(Math.abs(fluid.vapourDensity(293.15, 10) / ideal - 1)).toBeLessThan(1e-4);
    }
  });

  it('goes on without a step above the last temperature of saturation', () => {
    for (const fluid of fluids.filter(({ highest, warmest }) => highest < warmest)) {
      for (const of of [0.1, 0.5, 0.95]) {
        const pressure = of * fluid.dewPressure(fluid.highest);
        const below = fluid.vapourDensity(fluid.highest, pressure);
        const above = fluid.vapourDensity(fluid.highest + 1e-3, pressure);
        expect(Math.abs(above / below - 1), fluid.name).toBeLessThan(0.002);
      }
    }
  });

  it('obeys Clapeyron where it is pure: latent heat = T (v" - v\') dp/dT', () => {
    // thermodynamics, not the tables: pressure, densities and enthalpies are fitted apart from each other
    for (const fluid of fluids.filter(({ composition }) => composition === '')) {
      for (const part of [0.3, 0.5, 0.7, 0.9]) {
        const t = between(fluid, part);
        const slope = (fluid.dewPressure(t + 0.05) - fluid.dewPressure(t - 0.05)) / 0.1;
        const volume = 1 / fluid.saturatedVapourDensity(t) - 1 / fluid.liquidDensity(t);
        expect(Math.abs((t * volume * slope) / fluid.latentHeat(t) - 1), fluid.name).toBeLessThan(0.005);
      }
    }
  });
});

describe('the name of a refrigerant', () => {
  it('is understood however it is spelt', () => {
    const same: Readonly<Record<string, readonly string[]>> = {
      'R-410A': ['R410A', 'r-410a', '410a', ' R 410 A ', 'HFC-410A'],
      'R-1234ze(E)': ['R1234ze', 'R-1234ze', 'HFO-1234ze(E)', '1234ZE(E)'],
      'R-744': ['CO2', 'carbon dioxide', 'R744'],
      'R-717': ['ammonia', 'NH3'],
      'R-290': ['propane', 'HC-290'],
      'R-600a': ['isobutane', 'R600A'],
    };
    for (const [name, spellings] of Object.entries(same)) {
      for (const spelling of spellings) expect(refrigerantByName(spelling).name, spelling).toBe(name);
    }
  });

  it('that is not known is a fault which lists the known', () => {
    for (const name of ['R-999', '', 'constructor', '__proto__', 'R']) {
      expect(findRefrigerant(name)).toBeUndefined();
      expect(issueOf(() => refrigerantByName(name))).toMatchObject({ kind: 'unknown', known: refrigerantNames });
    }
  });

  it('stands for the nineteen of the catalogue, each made once', () => {
    expect(TABLES).toHaveLength(19);
    expect(refrigerantByName('R-32')).toBe(refrigerantByName('r32'));
  });
});

describe('outside its table', () => {
  const fluid = refrigerantByName('R-410A');
  it('a temperature, a pressure, a vapour above its dew line are faults with the range', () => {
    expect(issueOf(() => fluid.bubblePressure(fluid.criticalTemperature))).toMatchObject({
      kind: 'model-range',
      argument: 'temperature',
      unit: 'C',
    });
    expect(issueOf(() => fluid.liquidDensity(Number.NaN))).toMatchObject({ kind: 'model-range' });
    expect(issueOf(() => fluid.dewTemperature(1))).toMatchObject({ kind: 'model-range', argument: 'pressure' });
    expect(issueOf(() => fluid.vapourDensity(293.15, 1.01 * fluid.dewPressure(293.15)))).toMatchObject({
      kind: 'model-range',
      argument: 'pressure',
    });
    expect(issueOf(() => fluid.vapourDensity(293.15, -1))).toMatchObject({ kind: 'model-range' });
    expect(issueOf(() => fluid.vapourViscosity(600))).toMatchObject({ kind: 'model-range' });
  });
  it('carbon dioxide above its critical point is still a vapour that flows', () => {
    const gas = refrigerantByName('R-744');
    expect(issueOf(() => gas.liquidDensity(313.15))).toMatchObject({ kind: 'model-range' });
    expect(gas.vapourDensity(313.15, 1e5)).toBeCloseTo((1e5 * 0.04401) / (R * 313.15), 1);
  });
});
