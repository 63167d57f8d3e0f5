import { describe, expect, it } from 'vitest';
import { refrigerantByName, refrigerantNames } from '../../../src/engine/refrigerant/by-name.ts';
import { toSI } from '../../../src/units/quantity.ts';
import { expectFault, numberFrom } from '../rig/tables.ts';

const CONDENSABLE = refrigerantNames.filter((name) => name !== 'R-744');

describe('CYLINDER.FILL', () => {
  it('tells the temperature at which liquid fills the cylinder: there 0.8 rho(25 C) is the density', () => {
    const celsius = numberFrom('CYLINDER.FILL', 'R-410A', 20, 25, 'liquid-full temperature');
    const fluid = refrigerantByName('R-410A');
    expect(fluid.liquidDensity(celsius + 273.15)).toBeCloseTo(0.8 * fluid.liquidDensity(298.15), 6);
    expect(celsius).toBeGreaterThan(55);
    expectFault('#N/A', /liquid/u, 'CYLINDER.FILL', 'R-744', 10, 25, 'liquid-full temperature');
  });

  it('takes less when the fill is reckoned warmer, and twice as much in twice the volume', () => {
    for (const name of CONDENSABLE) {
      expect(numberFrom('CYLINDER.FILL', name, 10, 40)).toBeLessThan(numberFrom('CYLINDER.FILL', name, 10, 25));
      expect(numberFrom('CYLINDER.FILL', name, 20)).toBeCloseTo(2 * numberFrom('CYLINDER.FILL', name, 10), 9);
    }
  });

  it('reads a water capacity as a volume or as the mass of its water', () => {
    // one pound of water at 60 F is 27.737 cubic inches (49 CFR 173, from memory)
    const cubicInches = toSI('27.737 in3', 'volume', 'L', 'volume') * 1000;
    expect(numberFrom('CYLINDER.FILL', 'R-22', '1 lb')).toBeCloseTo(
      numberFrom('CYLINDER.FILL', 'R-22', cubicInches),
      9,
    );
  });

  it('refuses bad input in words', () => {
    expectFault('#N/A', /R-410A/u, 'CYLINDER.FILL', 'freon', 10);
    expectFault('#VALUE!', /water capacity/iu, 'CYLINDER.FILL', 'R-22', 0);
    expectFault('#VALUE!', /water capacity/iu, 'CYLINDER.FILL', 'R-22', '0 lb');
    expectFault('#VALUE!', /water capacity/iu, 'CYLINDER.FILL', 'R-22', '5 psi');
    expectFault('#NUM!', /120 C/u, 'CYLINDER.FILL', 'R-22', 10, 120);
    expectFault('#NUM!', /R-744/u, 'CYLINDER.FILL', 'R-744', 10, 35);
  });
});
