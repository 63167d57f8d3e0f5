import { describe, expect, it } from 'vitest';
import { refrigerantByName, refrigerantNames } from '../../../src/engine/refrigerant/by-name.ts';
import { MADE_WITH } from '../../../src/engine/refrigerant/data/index.ts';
import type { Refrigerant } from '../../../src/engine/refrigerant/refrigerant.ts';
import { checkRows } from './checks.ts';

const saturation = checkRows('saturation-checks');
const vapour = checkRows('vapour-checks');
const of = (name: string, rows: typeof saturation) => rows.filter(({ refrigerant }) => refrigerant === name);

/** column of the check table, ours at a temperature, allowed relative deviation */
const COLUMNS: readonly [header: string, ours: (r: Refrigerant, t: number) => number, allowed: number][] = [
  ['p_bubble_Pa', (r, t) => r.bubblePressure(t), 0.001],
  ['p_dew_Pa', (r, t) => r.dewPressure(t), 0.001],
  ['rho_liquid', (r, t) => r.liquidDensity(t), 0.001],
  ['rho_vapour', (r, t) => r.saturatedVapourDensity(t), 0.001],
  ['cp_liquid', (r, t) => r.liquidHeat(t), 0.002],
  ['mu_vapour_uPas', (r, t) => r.vapourViscosity(t) * 1e6, 0.002],
  ['mu_liquid_uPas', (r, t) => r.liquidViscosity(t) * 1e6, 0.005],
  ['gamma', (r, t) => r.heatCapacityRatio(t), 0.0005],
];

describe.each(refrigerantNames.map((name) => [name]))('the table of %s', (name) => {
  const fluid = refrigerantByName(name);

  it('comes from the version of the library that its checks come from', () => {
    expect(new Set([...of(name, saturation), ...of(name, vapour)].map(({ source }) => source))).toEqual(
      new Set([MADE_WITH]),
    );
    expect(of(name, saturation)).toHaveLength(40);
  });

  it.each(COLUMNS)('gives %s between its nodes', (header, ours, allowed) => {
    const worst = Math.max(
      ...of(name, saturation).map((row) => Math.abs(ours(fluid, row.number('t_K')) / row.number(header) - 1)),
    );
    expect(worst).toBeLessThan(allowed);
  });

  it('gives enthalpies, counted from liquid at 0 C with 200 kJ/kg, and the latent heat within 0.2 %', () => {
    expect(Math.abs(fluid.liquidEnthalpy(273.15) - 200e3)).toBeLessThan(50);
    for (const row of of(name, saturation)) {
      const t = row.number('t_K');
      const latent = row.number('h_vapour') - row.number('h_liquid');
      expect(Math.abs(fluid.liquidEnthalpy(t) - row.number('h_liquid'))).toBeLessThan(50);
      expect(Math.abs(fluid.vapourEnthalpy(t) - row.number('h_vapour'))).toBeLessThan(50);
      expect(Math.abs(fluid.latentHeat(t) / latent - 1)).toBeLessThan(0.002);
    }
  });

  it('gives the density of vapour below the dew line from -50 to 60 C within 0.2 %', () => {
    const rows = of(name, vapour);
    expect(rows).toHaveLength(60);
    for (const row of rows) {
      const ours = fluid.vapourDensity(row.number('t_K'), row.number('p_Pa'));
      expect(Math.abs(ours / row.number('rho') - 1), `${name} at ${row.number('t_K')} K`).toBeLessThan(0.002);
    }
  });

  it('begins at -50 C or lower and ends 5 K below the critical point', () => {
    expect(fluid.lowest).toBeLessThanOrEqual(223.15);
    expect(fluid.criticalTemperature - fluid.highest).toBeGreaterThanOrEqual(5 - 1e-4);
    expect(fluid.criticalTemperature - fluid.highest).toBeLessThan(5.02);
  });
});
