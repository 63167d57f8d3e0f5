import { describe, expect, it } from 'vitest';
import { gasState } from '../../src/engine/gas/gas.ts';
import {
  ICE_DENSITY,
  iceHeat,
  LATENT_MELTING,
  LIQUID_DENSITY,
  latentEvaporation,
  latentSublimation,
  liquidHeat,
  overIce,
  overLiquid,
  saturationPressure,
  saturationTemperature,
  VAPOUR_GAS_CONSTANT,
  vapourDensity,
} from '../../src/engine/gas/water.ts';
import { expectNear, expectWithin, runRows } from './account.ts';
import { numberOf, type ReferenceRow } from './rows.ts';

const ZERO = 273.15;
const KILO = 1e3;
const kelvin = (row: ReferenceRow): number => numberOf(row, 't_C') + ZERO;

/** Share of liquid that boils off while the rest cools without heat from outside: m c dT = L dm, by small steps. */
function shareToCool(from: number, to: number): number {
  const steps = 2000;
  let left = 1;
  for (let i = 0; i < steps; i++) {
    const temperature = from + ((to - from) * (i + 0.5)) / steps;
    left *= 1 + (liquidHeat(temperature) * ((to - from) / steps)) / latentEvaporation(temperature);
  }
  return 1 - left;
}

runRows(
  'water',
  [
    [/^PI-12/, (row) => expectNear(row, overIce(230).pressure)],
    [/^PI/, (row) => expectNear(row, overIce(kelvin(row)).pressure)],
    [
      /^PT/,
      (row) => {
        expectNear(row, overIce(kelvin(row)).pressure);
        expectNear(row, overLiquid(kelvin(row)).pressure);
      },
    ],
    [/^PL/, (row) => expectNear(row, saturationPressure(kelvin(row)))],
    [/^TB/, (row) => expectNear(row, saturationTemperature(numberOf(row, 'p_Pa')) - ZERO)],
    [/^HV/, (row) => expectNear(row, latentEvaporation(kelvin(row)) / KILO)],
    [/^HS/, (row) => expectNear(row, latentSublimation(kelvin(row)) / KILO)],
    [/^HF-01/, (row) => expectNear(row, LATENT_MELTING / KILO)],
    [
      /^HF-02/,
      (row) => {
        const [ice, liquid] = row.value.split('/').map(Number);
        expectNear(row, iceHeat(ZERO) / KILO, ice);
        expectNear(row, liquidHeat(ZERO) / KILO, liquid);
      },
    ],
    [/^DN-01/, (row) => expectNear(row, ICE_DENSITY)],
    [/^DN-02/, (row) => expectNear(row, LIQUID_DENSITY)],
    [
      /^HU/,
      (row) =>
        expectNear(row, KILO * vapourDensity(numberOf(row, 'RH') * saturationPressure(kelvin(row)), kelvin(row))),
    ],
    [/^VG/, (row) => expectNear(row, 1 / vapourDensity(saturationPressure(kelvin(row)), kelvin(row)))],
    [/^FZ-01/, (row) => expectNear(row, shareToCool(20 + ZERO, ZERO))],
    [/^FZ-02/, (row) => expectNear(row, LATENT_MELTING / latentSublimation(ZERO))],
    [
      /^RV/,
      (row) => {
        expectNear(row, VAPOUR_GAS_CONSTANT);
        expectNear(row, gasState('water vapour', 293.15).specificGasConstant);
      },
    ],
  ],
  {},
);

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
