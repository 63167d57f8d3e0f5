import { describe, expect, it } from 'vitest';
import { dryOut } from '../../../src/engine/dry/dry-out.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { saturationPressure } from '../../../src/engine/gas/water.ts';
import { expectWithin } from '../../references/assert.ts';
import { hose, pumpOf, rigOf } from '../rig/fakes.ts';
import { bruteForce } from './brute-force.ts';
import { surfaceAt, WET, WIDE, wetCases, ZERO } from './cases.ts';

describe('a dry-out by the shared surface', () => {
  for (const [name, rig, celsius, change] of wetCases) {
    it(`takes as long within 1 % as small explicit steps without it: ${name}`, () => {
      const system = { ...WET, ...change };
      const surface = surfaceAt(rig, celsius);
      const ours = dryOut(surface, system);
      const T = celsius + ZERO;
      const theirs = bruteForce(rig, gasState('air', T), gasState('water vapour', T), system);
      expectWithin(ours.dry, theirs.dry, 0.01, 'time until dry');
      expectWithin(ours.dry + ours.toTarget, theirs.dry + theirs.toTarget, 0.01, 'time until dry and at target');
      expect(Math.abs(ours.coldest - theirs.coldest)).toBeLessThan(0.3);
      expect(ours.froze).toBe(theirs.froze);
    });
  }

  it('closes the balance of water to 1e-6 and that of energy to 1e-4', () => {
    for (const [, rig, celsius, change] of wetCases) {
      for (const metal of [0, 400]) {
        const { misses } = dryOut(surfaceAt(rig, celsius), { ...WET, ...change, metal, balances: true });
        expect(Math.abs(misses?.mass ?? 1)).toBeLessThan(1e-6);
        expect(Math.abs(misses?.energy ?? 1)).toBeLessThan(1e-4);
      }
    }
  });

  it('by looser steps is within 0.1 % of that by fine ones', () => {
    for (const [, rig, celsius, change] of wetCases) {
      const surface = surfaceAt(rig, celsius);
      const fine = dryOut(surface, { ...WET, ...change });
      const quick = dryOut(surface, { ...WET, ...change, quick: true });
      expectWithin(quick.dry, fine.dry, 1e-3, 'dry');
      expectWithin(quick.dry + quick.toTarget, fine.dry + fine.toTarget, 1e-3, 'dry and at target');
      expect(Math.abs(quick.coldest - fine.coldest)).toBeLessThan(0.3);
      expect(quick.froze).toBe(fine.froze);
    }
  });

  it('ends each stage cleanly where steps are long: much ice, little heat, a very cold day', () => {
    // once the air is gone, the steps last for days and what is interpolated within them is worth nothing
    const surface = surfaceAt(rigOf(pumpOf(5e-3, 1), [hose(9e-3, 2)]), -25);
    const system = { volume: 4e-3, water: 0.2, heat: 1.7, start: 9000, target: 72, balances: true };
    const result = dryOut(surface, system);
    // the last of the ice goes at the temperature at which heat and sublimation balance; never under 150 K
    expect(result.coldest).toBeGreaterThan(150);
    expect(result.pressureWhenDry).toBeGreaterThan(1);
    expect(result.pressureWhenDry).toBeLessThan(saturationPressure(-25 + ZERO));
    expect(Math.abs(result.misses?.mass ?? 1)).toBeLessThan(1e-6);
    expect(Math.abs(result.misses?.energy ?? 1)).toBeLessThan(1e-4);
  });

  it('is the same with and without the balances kept', () => {
    const surface = surfaceAt(WIDE, 20);
    const kept = dryOut(surface, { ...WET, balances: true });
    expect(dryOut(surface, WET).dry / kept.dry).toBeCloseTo(1, 5);
  });
});

describe('water that boils off at a constant temperature', () => {
  it('stands where heat and evaporation balance, once the air is gone', () => {
    // UA (T - Tp) = L y S p/(R_v T) with y = 1: solved here by halving, for a bare pump
    const speed = 2e-3;
    const heat = 4;
    const T = 293.15;
    let low = 250;
    let high = T;
    for (let i = 0; i < 60; i++) {
      const Tp = 0.5 * (low + high);
      const off = (speed * saturationPressure(Tp)) / (461.523 * T);
      if (heat * (T - Tp) > 2.47e6 * off) low = Tp;
      else high = Tp;
    }
    const { coldest } = dryOut(surfaceAt(rigOf(pumpOf(speed)), 20), { ...WET, water: 0.2, heat });
    expect(coldest).toBeGreaterThan(273.16);
    expect(Math.abs(coldest - low)).toBeLessThan(0.1);
  });
});
