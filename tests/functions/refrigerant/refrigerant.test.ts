import { describe, expect, it } from 'vitest';
import { refrigerantNames } from '../../../src/engine/refrigerant/by-name.ts';
import { callById } from '../../../src/functions/index.ts';
import { allowance, cite, referenceRows } from '../../references/rows.ts';
import { expectFault, numberFrom } from '../rig/tables.ts';

const saturation = referenceRows('refrigerants').filter(({ cells }) => cells.record === 'saturation');
const row = (refrigerant: string, celsius: number) => {
  const found = saturation.find(({ cells }) => cells.refrigerant === refrigerant && Number(cells.t_C) === celsius);
  if (found === undefined) throw new Error(`no row of ${refrigerant} at ${celsius} C`);
  return found;
};

describe('REFRIGERANT', () => {
  it.each([
    ['R-410A', 20],
    ['R-407C', -20],
    ['R-454B', 0],
    ['R-290', 40],
  ])('gives the saturation of %s at %d C in Pa and kg/m3', (name, celsius) => {
    const reference = row(name, celsius);
    const expectNear = (property: string, cell: string, factor: number, part: number): void => {
      const theirs = Number(reference.cells[cell]) * factor;
      const ours = numberFrom('REFRIGERANT', name, property, celsius);
      expect(Math.abs(ours - theirs), cite(reference)).toBeLessThanOrEqual(allowance(reference, theirs, part));
    };
    expectNear('bubble pressure', 'p_bubble_kPa', 1000, 0);
    expectNear('dew pressure', 'p_dew_kPa', 1000, 0);
    expectNear('liquid density', 'rho_liquid_kg_m3', 1, 1);
    expectNear('vapour density', 'rho_vapour_kg_m3', 1, 2);
  });

  it('gives the temperatures of a pressure in C, and the glide between them', () => {
    const pressure = numberFrom('REFRIGERANT', 'R-407C', 'bubble pressure', 5);
    const bubble = numberFrom('REFRIGERANT', 'R-407C', 'bubble temperature', null, pressure);
    const dew = numberFrom('REFRIGERANT', 'R-407C', 'dew temperature', null, pressure);
    expect(bubble).toBeCloseTo(5, 6);
    expect(numberFrom('REFRIGERANT', 'R-407C', 'glide', null, pressure)).toBeCloseTo(dew - bubble, 9);
    // common practice, no source: R-407C glides by 4 to 7 K
    expect(dew - bubble).toBeGreaterThan(4);
    expect(dew - bubble).toBeLessThan(7);
    expect(numberFrom('REFRIGERANT', 'R-134a', 'glide', null, '3 bar')).toBe(0);
  });

  it('knows normal boiling points', () => {
    // from memory: -26.1, -51.7, -42.1, -40.8, -33.3 C at 101.325 kPa
    const points: readonly [string, number][] = [
      ['R-134a', -26.1],
      ['R-32', -51.7],
      ['R-290', -42.1],
      ['R-22', -40.8],
      ['R-717', -33.3],
    ];
    for (const [name, celsius] of points)
      expect(numberFrom('REFRIGERANT', name, 'bubble temperature', null, '1 atm'), name).toBeCloseTo(celsius, 0);
  });

  it('takes a vapour density below the dew line where a pressure is given', () => {
    // R-134a at 20 C and 101.325 kPa: 4.3364 kg/m3, gases.csv GR-04
    expect(numberFrom('REFRIGERANT', 'R-134a', 'vapour density', 20, '1 atm')).toBeCloseTo(4.3364, 2);
    expect(numberFrom('REFRIGERANT', 'R-134a', 'vapor density', '68 F')).toBeCloseTo(27.78, 1);
  });

  it('gives latent heat, heat capacity, viscosities and the rest in the units that it says', () => {
    // water-like sanity from memory, R-134a at 20 C: latent heat 182.3 kJ/kg, liquid 1.405 kJ/(kg K), 207 uPa s
    expect(numberFrom('REFRIGERANT', 'R-134a', 'latent heat', 20)).toBeCloseTo(182.3, 0);
    expect(numberFrom('REFRIGERANT', 'R-134a', 'liquid heat capacity', 20)).toBeCloseTo(1.405, 2);
    expect(Math.abs(numberFrom('REFRIGERANT', 'R-134a', 'liquid viscosity') / 207 - 1)).toBeLessThan(0.02);
    // gases.csv V-27, G-05
    expect(Math.abs(numberFrom('REFRIGERANT', 'R-134a', 'vapour viscosity') / 11.659 - 1)).toBeLessThan(0.015);
    expect(numberFrom('REFRIGERANT', 'R-134a', 'heat capacity ratio')).toBeCloseTo(1.1097, 3);
    expect(numberFrom('REFRIGERANT', 'R-134a', 'critical temperature')).toBeCloseTo(101.06, 1);
    expect(numberFrom('REFRIGERANT', 'R-134a', 'molar mass')).toBeCloseTo(102.03, 2);
  });

  it('gives the safety class and the composition as text', () => {
    expect(callById('REFRIGERANT', ['r454b', 'Safety class'])).toMatchObject({ ok: true, value: 'A2L' });
    expect(callById('REFRIGERANT', ['R-717', 'safety class'])).toMatchObject({ ok: true, value: 'B2L' });
    expect(callById('REFRIGERANT', ['R-410A', 'composition'])).toMatchObject({
      ok: true,
      value: 'R32 50 %, R125 50 %',
    });
  });

  it('agrees with GAS about the dilute vapour where both know the refrigerant', () => {
    for (const name of [
      'R-134a',
      'R-290',
      'R-600a',
      'R-32',
      'R-22',
      'R-1234yf',
      'R-410A',
      'R-404A',
      'R-407C',
      'R-454B',
    ]) {
      for (const [property, near] of [
        ['viscosity', 0.02],
        ['heat capacity ratio', 0.003],
        ['molar mass', 1e-4],
      ] as const) {
        const gas = numberFrom('GAS', name, property, 20);
        const ours = numberFrom('REFRIGERANT', name, property === 'viscosity' ? 'vapour viscosity' : property, 20);
        expect(Math.abs(ours / gas - 1), `${name} ${property}`).toBeLessThan(near);
      }
    }
  });

  it('refuses what it cannot know, in words', () => {
    expectFault('#N/A', /R-410A.*R-1234ze\(E\)/u, 'REFRIGERANT', 'R-999', 'latent heat');
    expectFault('#N/A', /bubble pressure/u, 'REFRIGERANT', 'R-32', 'colour');
    expectFault('#NUM!', /90 C.*73\.1/u, 'REFRIGERANT', 'R-32', 'liquid density', 90);
    expectFault('#NUM!', /R-744/u, 'REFRIGERANT', 'R-744', 'bubble pressure', 40);
    expectFault('#VALUE!', /pressure/iu, 'REFRIGERANT', 'R-32', 'dew temperature');
    expectFault('#NUM!', /pressure/iu, 'REFRIGERANT', 'R-32', 'vapour density', 20, '30 bar');
    expectFault('#VALUE!', /temperature/iu, 'REFRIGERANT', 'R-32', 'latent heat', 'warm');
  });
});

describe('other functions that take a refrigerant', () => {
  it('know every one that REFRIGERANT knows', () => {
    for (const name of refrigerantNames) {
      expect(callById('LEAK.RATE', [20, 0.9, 10, name]), name).toMatchObject({ ok: true });
      expect(callById('CAUTIONS', ['recovery', name]), name).toMatchObject({ ok: true });
      expect(callById('RECOVER.TARGET', [name, 5]), name).toMatchObject({ ok: true });
    }
    expectFault('#N/A', /R-449A.*nitrogen/u, 'LEAK.RATE', 20, 0.9, 10, 'brine');
  });
});
