import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import { type Charging, heatDrivenRate, momentOf, type Walk } from '../../../src/engine/transfer/charge-moment.ts';
import { energyInTwoPhases } from '../../../src/engine/transfer/charge-vessel.ts';

const R134A = refrigerantByName('R-134a');
const [T, CHARGE, VESSEL, VOLUME] = [293.15, 5, 0.006, 0.02];

/** A cylinder at 20 °C beside a system, by any law of flow. */
function walkOf(
  cylinder: Partial<Charging['cylinder']>,
  system: Partial<Charging['system']> = {},
  law?: Walk['law'],
): Walk {
  return {
    charging: {
      refrigerant: R134A,
      mass: 0.5,
      as: 'vapour',
      cylinder: { charge: CHARGE, temperature: T, heat: 0, bath: T, ...cylinder },
      system: { volume: VOLUME, heat: 0, ambient: T, ...system },
    },
    law: law ?? (() => ({ flow: 0, choked: false })),
    vessel: VESSEL,
    latest: undefined,
  };
}
const held = (mass: number, volume: number): number => mass * energyInTwoPhases(R134A, T, mass / volume);

describe('the flow that heat alone keeps up', () => {
  /** 0.4 kg of vapour in 20 L, below the 0.55 kg that fill it at 20 °C. */
  const GAS = [0.4, held(CHARGE - 0.4, VESSEL), 0, 0];
  /** 2 kg in 20 L: liquid and vapour */
  const WET = [2, held(CHARGE - 2, VESSEL), held(2, VOLUME), 0];

  it('into vapour is what warms the cylinder over what fills the system', () => {
    const rate = heatDrivenRate(walkOf({ heat: 3, bath: T + 10 }), true, GAS);
    // R-134a at 20 °C, tables of its properties, from memory: liquid 1.405 kJ/(kg K), dp/dT 16.9 kPa/K. By heat
    // alone the cylinder gains 30 W/(4.6 kg x 1.405 kJ/(kg K)) x 16.9 kPa/K.
    const opens = (30 / (4.6 * 1405)) * 16_900;
    // Vapour at 20 kg/m3: Z is near 0.92 there and falls on, so that dp/drho is R T/M of 102.03 g/mol times some 0.83; and what
    // leaves cools the cylinder: 182 kJ/kg
    const closes = (0.83 * 8.314462618 * T) / 0.10203 / VOLUME + (182_300 / (4.6 * 1405)) * 16_900;
    expect(rate / (opens / closes)).toBeGreaterThan(0.9);
    expect(rate / (opens / closes)).toBeLessThan(1.1);
  });

  it('is in proportion to the heat and to how much warmer the bath is, backwards too', () => {
    for (const [gas, y] of [
      [true, GAS],
      [false, WET],
    ] as const) {
      const of = (heat: number, warmer: number): number => heatDrivenRate(walkOf({ heat, bath: T + warmer }), gas, y);
      expect(of(0, 10)).toBeCloseTo(0, 9);
      expect(of(3, 0)).toBeCloseTo(0, 9);
      expect(of(6, 10) / of(3, 10)).toBeCloseTo(2, 2);
      expect(of(3, 20) / of(3, 10)).toBeCloseTo(2, 2);
      expect(of(3, -10) / of(3, 10)).toBeCloseTo(-1, 2);
      expect(of(3, 10)).toBeGreaterThan(0);
    }
  });

  it('is held back by a system that warms and drawn by one that cools, of liquid and vapour alone', () => {
    const of = (ambient: number, gas = false): number =>
      heatDrivenRate(walkOf({}, { heat: 3, ambient: T + ambient }), gas, gas ? GAS : WET);
    expect(of(10)).toBeLessThan(0);
    expect(of(-10) / of(10)).toBeCloseTo(-1, 2);
    expect(of(-20) / of(-10)).toBeCloseTo(2, 2);
  });

  it('does not hang on how much is to be charged', () => {
    const of = (mass: number): number => {
      const walk = walkOf({ heat: 3, bath: T + 10 });
      return heatDrivenRate({ ...walk, charging: { ...walk.charging, mass } }, true, GAS);
    };
    expect(of(5) / of(0.5)).toBeCloseTo(1, 2);
  });
});

describe('the flow at a moment', () => {
  /** kg/s by the root of the difference, as wide rigs have it; it knows no way back. */
  const root: Walk['law'] = (_, cylinder, system) => ({
    flow: cylinder > system ? 1e-3 * Math.sqrt(cylinder - system) : 0,
    choked: cylinder > 2 * system,
  });
  /** Both vessels at 20 °C but for the energy of the cylinder: so much more pressure in it, Pa. */
  function rateAt(more: number): { rate: number; difference: number; choked: boolean } {
    // 5.72 bar: two-phase at 20 °C on both sides; dU of the cylinder for a rise of its pressure, by m c/(dp/dT)
    const energy = held(CHARGE - 2, VESSEL) + (more / 16_900) * 3 * 1405;
    const { rate, choked, cylinder, system } = momentOf(walkOf({}, {}, root), false, 0, [
      2,
      energy,
      held(2, VOLUME),
      0,
    ]);
    return { rate, choked, difference: cylinder.pressure - system.pressure };
  }
  const least = 1e-5 * 572_000;

  it('is that of the law at more than a hundred-thousandth of the pressure', () => {
    for (const more of [20, 500, 20_000]) {
      const { rate, difference } = rateAt(more);
      expect(difference).toBeGreaterThan(least);
      expect(rate / (1e-3 * Math.sqrt(difference))).toBeCloseTo(1, 6);
    }
  });

  it('is in proportion below, and backwards below nothing, never more than at that difference', () => {
    for (const more of [-3, -1, 1, 3]) {
      const { rate, difference, choked } = rateAt(more);
      expect(Math.abs(difference)).toBeLessThan(least);
      expect(rate / ((1e-3 * Math.sqrt(least) * difference) / least)).toBeCloseTo(1, 2);
      expect(choked).toBe(false);
    }
    expect(rateAt(-500).rate / (-1e-3 * Math.sqrt(least))).toBeCloseTo(1, 2);
  });
});
