import { describe, expect, it } from 'vitest';
import {
  latentEvaporation,
  latentSublimation,
  overIce,
  overLiquid,
  saturationPressure,
  saturationTemperature,
  VAPOUR_GAS_CONSTANT,
} from '../../src/engine/gas/water.ts';
import { expectWithin, runAccount } from './assert.ts';
import { water, ZERO } from './water.ts';

runAccount(water);

describe('water', () => {
  it('has latent heats that agree with the slope of its vapour pressure (Clapeyron, ideal vapour)', () => {
    for (const t of [-60, -40, -20, -1]) {
      const T = t + ZERO;
      expectWithin(VAPOUR_GAS_CONSTANT * T * T * overIce(T).slope, latentSublimation(T), 1.5e-3, `ice ${t}`);
    }
    for (const t of [1, 10, 20, 30]) {
      const T = t + ZERO;
      expectWithin(VAPOUR_GAS_CONSTANT * T * T * overLiquid(T).slope, latentEvaporation(T), 2.5e-3, `liquid ${t}`);
    }
  });

  it('has slopes of the vapour pressure that are those of the formula', () => {
    for (const [over, T] of [
      [overIce, 250],
      [overLiquid, 300],
    ] as const)
      expectWithin(over(T).slope, Math.log(over(T + 1e-3).pressure / over(T - 1e-3).pressure) / 2e-3, 1e-6, `${T}`);
  });

  it('boils at the temperature whose vapour pressure is given', () => {
    for (const T of [200, 240, 273, 274, 300, 370])
      expect(saturationTemperature(saturationPressure(T))).toBeCloseTo(T, 8);
  });
});
