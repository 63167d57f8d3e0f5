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
import { account, near } from './account.ts';
import { numberOf, type ReferenceRow } from './rows.ts';

export const ZERO = 273.15;
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

export const water = account(
  'water',
  [
    [/^PI-12/, (row) => near(row, overIce(230).pressure)],
    [/^PI/, (row) => near(row, overIce(kelvin(row)).pressure)],
    [
      /^PT/,
      (row) => {
        return [
          near(row, overIce(kelvin(row)).pressure, Number(row.value), 0, 'over ice'),
          near(row, overLiquid(kelvin(row)).pressure, Number(row.value), 0, 'over liquid'),
        ];
      },
    ],
    [/^PL/, (row) => near(row, saturationPressure(kelvin(row)))],
    [/^TB/, (row) => near(row, saturationTemperature(numberOf(row, 'p_Pa')) - ZERO)],
    [/^HV/, (row) => near(row, latentEvaporation(kelvin(row)) / KILO)],
    [/^HS/, (row) => near(row, latentSublimation(kelvin(row)) / KILO)],
    [/^HF-01/, (row) => near(row, LATENT_MELTING / KILO)],
    [
      /^HF-02/,
      (row) => {
        const [ice, liquid] = row.value.split('/').map(Number);
        return [
          near(row, iceHeat(ZERO) / KILO, ice, 0, 'ice'),
          near(row, liquidHeat(ZERO) / KILO, liquid, 0, 'liquid'),
        ];
      },
    ],
    [/^DN-01/, (row) => near(row, ICE_DENSITY)],
    [/^DN-02/, (row) => near(row, LIQUID_DENSITY)],
    [
      /^HU/,
      (row) => near(row, KILO * vapourDensity(numberOf(row, 'RH') * saturationPressure(kelvin(row)), kelvin(row))),
    ],
    [/^VG/, (row) => near(row, 1 / vapourDensity(saturationPressure(kelvin(row)), kelvin(row)))],
    [/^FZ-01/, (row) => near(row, shareToCool(20 + ZERO, ZERO))],
    [/^FZ-02/, (row) => near(row, LATENT_MELTING / latentSublimation(ZERO))],
    [
      /^RV/,
      (row) => {
        return [
          near(row, VAPOUR_GAS_CONSTANT, Number(row.value), 0, 'of moisture'),
          near(row, gasState('water vapour', 293.15).specificGasConstant, Number(row.value), 0, 'of the gas'),
        ];
      },
    ],
  ],
  {},
);
