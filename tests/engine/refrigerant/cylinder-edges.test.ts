import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import { cylinderFill, liquidFullTemperature, RULE_WATER } from '../../../src/engine/refrigerant/cylinder.ts';
import type { Refrigerant } from '../../../src/engine/refrigerant/refrigerant.ts';
import { issueOf } from '../../issue-of.ts';

const celsius = (t: number): number => t + 273.15;
/** K, 131 F */
const HOT = (131 - 32) / 1.8 + 273.15;
/** m3 that 50 lb of water take at 60 F, 27.737 cubic inches each pound (from memory) */
const FIFTY_POUNDS = 50 * 27.737 * 0.0254 ** 3;

/** Liquid whose density falls straight: 1000 kg/m3 at 200 K, 2 less for each kelvin. */
function straight(more: Partial<Refrigerant> = {}): Refrigerant {
  const liquidDensity = (t: number): number => 1000 - 2 * (t - 200);
  return { ...refrigerantByName('R-134a'), name: 'straight', lowest: 200, highest: 350, liquidDensity, ...more };
}

describe('the fill of a cylinder', () => {
  it('is 80 % liquid at the temperature of the fill (AHRI Guideline K, CY-01: 957.6 lb of R-22 in 1000 lb of water)', () => {
    const { mass, by } = cylinderFill(refrigerantByName('R-22'), 1000 * 0.45359237 * 1e-3, celsius(25));
    expect(by).toBe('liquid share');
    expect(Math.abs(mass / 0.45359237 / 957.6 - 1)).toBeLessThan(0.01);
  });

  it('grows with the volume alone', () => {
    for (const t of [-60, 0, 40]) {
      const one = cylinderFill(refrigerantByName('R-410A'), 0.01, celsius(t));
      const three = cylinderFill(refrigerantByName('R-410A'), 0.03, celsius(t));
      expect(three.mass / one.mass).toBeCloseTo(3, 12);
      expect(three.by).toBe(one.by);
    }
  });

  it('reckoned cold is no more than what fills the cylinder with liquid at 131 F (CY-04)', () => {
    // 1000 - 2 (328.15 - 200) = 743.7 kg/m3 at 55 C, against 0.8 of what it is at the fill
    expect(cylinderFill(straight(), 0.1, 210)).toEqual({ mass: expect.closeTo(74.37, 9), by: 'liquid full when warm' });
    expect(cylinderFill(straight(), 0.1, 300)).toEqual({ mass: expect.closeTo(64, 9), by: 'liquid share' });
    const r134a = refrigerantByName('R-134a');
    const cold = cylinderFill(r134a, 0.02, celsius(-80));
    expect(cold.by).toBe('liquid full when warm');
    expect(liquidFullTemperature(r134a, cold.mass / 0.02)).toBeCloseTo(HOT, 3);
  });

  it('keeps a table that ends at 131 F, and leaves out one that ends below', () => {
    expect(cylinderFill(straight({ highest: 328.15 }), 0.1, 210).by).toBe('liquid full when warm');
    const below = cylinderFill(straight({ highest: 328.14 }), 0.1, 210);
    expect(below).toEqual({ mass: expect.closeTo(78.4, 9), by: 'liquid share' });
  });

  it('counts a share that just meets the limit as the share', () => {
    // 0.8 rho = 800 at the fill, and 800 at 55 C
    const level: Refrigerant = straight({ liquidDensity: (t) => (t > 320 ? 800 : 1000) });
    expect(cylinderFill(level, 1, 250)).toEqual({ mass: 800, by: 'liquid share' });
  });

  it('of carbon dioxide is 68 % of the weight of water, whatever the temperature of the fill (CY-03)', () => {
    for (const t of [-50, -10]) {
      const { mass, by } = cylinderFill(refrigerantByName('R-744'), FIFTY_POUNDS, celsius(t));
      expect(by).toBe('filling density');
      expect(mass / 0.45359237).toBeCloseTo(0.68 * 50, 6);
    }
    expect(cylinderFill(refrigerantByName('R-744'), FIFTY_POUNDS, celsius(20)).by).toBe('liquid share');
    expect(RULE_WATER).toBeCloseTo(997.9, 0);
  });

  it('of R-22 is 105 % of the weight of water where that is less than what 131 F allows, and not otherwise', () => {
    const cold = cylinderFill(refrigerantByName('R-22'), FIFTY_POUNDS, celsius(-90));
    expect(cold.by).toBe('filling density');
    expect(cold.mass / 0.45359237).toBeCloseTo(52.5, 6);
    const thin = straight({ name: 'R-22', liquidDensity: (t) => (t > 320 ? 1040 : 1400) });
    expect(cylinderFill(thin, 1, 250)).toEqual({ mass: 1040, by: 'liquid full when warm' });
  });

  it('is refused where there is no liquid', () => {
    expect(issueOf(() => cylinderFill(refrigerantByName('R-744'), 0.01, celsius(31)))).toMatchObject({
      kind: 'model-range',
      argument: 'temperature',
    });
  });
});

describe('the temperature at which liquid fills a cylinder', () => {
  it('is where the density is the filling', () => {
    expect(liquidFullTemperature(straight(), 820)).toBeCloseTo(290, 9);
    // CY-06: R-410A filled to 80 % at 25 C takes 97.3 % at 54.4 C, so that some degrees more fill it
    const full = liquidFullTemperature(refrigerantByName('R-410A'), 0.8 * 1059) ?? 0;
    expect(full - 273.15).toBeGreaterThan(54.4);
    expect(full - 273.15).toBeLessThan(60);
  });

  it('is the last of the table at its density, undefined below it, and the first of the table above the coldest', () => {
    // 700 kg/m3 at 350 K, 1000 at 200 K
    expect(liquidFullTemperature(straight(), 700)).toBeCloseTo(350, 9);
    expect(liquidFullTemperature(straight(), 699.99)).toBeUndefined();
    expect(liquidFullTemperature(straight(), 1000)).toBeCloseTo(200, 9);
    expect(liquidFullTemperature(straight(), 1200)).toBe(200);
  });
});
