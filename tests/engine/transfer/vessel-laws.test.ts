import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import {
  energyInTwoPhases,
  fillPressure,
  liquidEnergy,
  quality,
  vapourEnergy,
  vesselState,
} from '../../../src/engine/transfer/charge-vessel.ts';

const R = 8.314462618;
const FLUIDS = ['R-134a', 'R-407C', 'R-744'].map(refrigerantByName);
const VOLUME = 0.02;

describe('energy in a vessel', () => {
  it('is that of its phases, u = h - p v, by the share of each', () => {
    for (const r of FLUIDS) {
      for (const t of [240, 270, 295]) {
        const [vl, vv] = [1 / r.liquidDensity(t), 1 / r.saturatedVapourDensity(t)];
        const [ul, uv] = [r.liquidEnthalpy(t) - r.bubblePressure(t) * vl, r.vapourEnthalpy(t) - r.dewPressure(t) * vv];
        expect(liquidEnergy(r, t)).toBeCloseTo(ul, 6);
        expect(vapourEnergy(r, t)).toBeCloseTo(uv, 6);
        for (const x of [0, 0.25, 0.9, 1]) {
          const density = 1 / ((1 - x) * vl + x * vv);
          expect(quality(r, t, density)).toBeCloseTo(x, 12);
          expect(energyInTwoPhases(r, t, density)).toBeCloseTo((1 - x) * ul + x * uv, 5);
        }
      }
    }
  });
});

describe('the state of a vessel', () => {
  it('in two phases gives back temperature, liquid and pressure from mass and energy', () => {
    for (const r of FLUIDS) {
      for (const t of [r.lowest + 1, 240, 270, 295]) {
        for (const x of [0.02, 0.3, 0.95]) {
          const density = 1 / ((1 - x) / r.liquidDensity(t) + x / r.saturatedVapourDensity(t));
          const mass = density * VOLUME;
          const energy = mass * ((1 - x) * liquidEnergy(r, t) + x * vapourEnergy(r, t));
          const found = vesselState(r, mass, energy, VOLUME);
          expect(found.state).toBe('two phases');
          expect(found.temperature).toBeCloseTo(t, 6);
          expect(found.liquid / mass).toBeCloseTo(1 - x, 6);
          const [bubble, dew] = [r.bubblePressure(t), r.dewPressure(t)];
          expect(found.pressure / (bubble + x * (dew - bubble))).toBeCloseTo(1, 6);
        }
      }
    }
  });

  it('as vapour warms from its dew point with R_s/(gamma - 1), and its pressure is that of its density', () => {
    for (const r of FLUIDS) {
      const dew = 260;
      const density = r.saturatedVapourDensity(dew);
      const mass = density * VOLUME;
      for (const rise of [1e-3, 5, 25]) {
        const heat = (rise * R) / r.molarMass / (r.heatCapacityRatio(dew) - 1);
        const found = vesselState(r, mass, mass * (vapourEnergy(r, dew) + heat), VOLUME);
        expect(found).toMatchObject({ state: 'vapour', liquid: 0 });
        expect(found.temperature).toBeCloseTo(dew + rise, 5);
        expect(r.vapourDensity(dew + rise, found.pressure) / density).toBeCloseTo(1, 7);
        expect(found.pressure).toBeGreaterThan(r.dewPressure(dew));
      }
      // hotter than the table the temperature goes on, the pressure stays with the last of the table
      const hot = vesselState(r, mass, mass * (vapourEnergy(r, dew) + 4e5), VOLUME);
      expect(hot.temperature).toBeGreaterThan(r.highest);
      expect(r.vapourDensity(r.highest, hot.pressure) / density).toBeCloseTo(1, 7);
    }
  });

  it('changes from two phases to vapour without a step', () => {
    for (const r of FLUIDS) {
      const density = r.saturatedVapourDensity(265);
      const mass = density * VOLUME;
      const at = mass * vapourEnergy(r, 265);
      const [wet, dry] = [vesselState(r, mass, at * (1 - 1e-7), VOLUME), vesselState(r, mass, at * (1 + 1e-7), VOLUME)];
      expect([wet.state, dry.state]).toEqual(['two phases', 'vapour']);
      expect(wet.temperature).toBeCloseTo(265, 2);
      expect(dry.temperature).toBeCloseTo(265, 2);
      expect(wet.pressure / dry.pressure).toBeCloseTo(1, 3);
      expect(wet.liquid / mass).toBeLessThan(1e-5);
    }
  });

  it('without mass is empty at the cold end of the table', () => {
    for (const r of FLUIDS)
      for (const none of [0, -1, Number.NaN])
        expect(vesselState(r, none, 1e5, VOLUME)).toEqual({
          temperature: r.lowest,
          pressure: 0,
          liquid: 0,
          state: 'empty',
        });
  });

  it('full of liquid has no end to its pressure', () => {
    for (const r of FLUIDS) {
      // liquid of 260 K warmed to 290 K in the volume that it filled
      const mass = r.liquidDensity(260) * VOLUME;
      const warm = vesselState(r, mass, mass * liquidEnergy(r, 290), VOLUME);
      expect(warm).toMatchObject({ pressure: Number.POSITIVE_INFINITY, liquid: mass, state: 'full of liquid' });
      // and far above what the table knows
      const hot = vesselState(r, mass, mass * 1e6, VOLUME);
      expect(hot).toEqual({
        temperature: r.highest,
        pressure: Number.POSITIVE_INFINITY,
        liquid: mass,
        state: 'full of liquid',
      });
      // as much colder it has room
      const cold = vesselState(r, mass, mass * liquidEnergy(r, 250), VOLUME);
      expect(cold.state).toBe('two phases');
      expect(cold.temperature).toBeCloseTo(250, 0);
    }
  });

  it('colder than the table stays at its end, and the pressure falls with the density alone', () => {
    for (const r of FLUIDS) {
      const thick = r.saturatedVapourDensity(r.lowest);
      const wet = { mass: 4 * thick * VOLUME, energy: liquidEnergy(r, r.lowest) - 1e4 };
      const found = vesselState(r, wet.mass, wet.mass * wet.energy, VOLUME);
      expect(found).toMatchObject({ state: 'below table', temperature: r.lowest, pressure: r.dewPressure(r.lowest) });
      // the vapour that fills what the liquid leaves free
      const ratio = thick / r.liquidDensity(r.lowest);
      expect(found.liquid / wet.mass).toBeCloseTo((1 - 1 / 4) / (1 - ratio), 3);
      const thin = vesselState(r, 0.5 * thick * VOLUME, -1e6, VOLUME);
      expect(thin).toMatchObject({ state: 'below table', temperature: r.lowest, liquid: 0 });
      expect(thin.pressure / r.dewPressure(r.lowest)).toBeCloseTo(0.5, 12);
      // thin vapour just warmer than the end of the table is vapour
      const mass = 0.5 * thick * VOLUME;
      const warm = vesselState(r, mass, mass * (vapourEnergy(r, r.lowest) + 1), VOLUME);
      expect(warm.state).toBe('vapour');
      expect(warm.temperature).toBeCloseTo(r.lowest, 1);
      expect(r.vapourDensity(r.lowest, warm.pressure) / thick).toBeCloseTo(0.5, 3);
    }
  });
});

describe('the pressure of vapour that fills a volume', () => {
  it('is where its density is met, and the dew pressure at the most', () => {
    for (const r of FLUIDS) {
      const dew = r.dewPressure(280);
      for (const part of [1e-6, 0.01, 0.5, 0.999]) {
        expect(fillPressure(r, 280, r.vapourDensity(280, part * dew)) / (part * dew)).toBeCloseTo(1, 8);
      }
      expect(fillPressure(r, 280, r.saturatedVapourDensity(280))).toBe(dew);
      expect(fillPressure(r, 280, 500)).toBe(dew);
      for (const none of [0, -1]) expect(fillPressure(r, 280, none)).toBe(0);
    }
  });
});
