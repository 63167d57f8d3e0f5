import { raise } from '../../faults/issue.ts';
import { type Series, seriesAt } from './chebyshev.ts';
import type { Refrigerant } from './refrigerant.ts';
import { saturationLine } from './saturation.ts';
import type { RefrigerantTable } from './table.ts';
import { vapourDensityOf } from './vapour.ts';

/** K: dilute-gas series go at least to 100 C. */
const WARM_VAPOUR = 373.15;
const MICRO = 1e-6;
const KELVIN_AT_ZERO = 273.15;
/** K: a temperature that arithmetic put this little outside the table is at its end. */
const ROUNDING = 1e-6;

/**
 * A refrigerant from its table. Saturation within 0.1 % of the equation of state in pressure and density, vapour
 * density within 0.2 %; temperatures outside the table raise `model-range` in C.
 */
export function refrigerantFrom(table: RefrigerantTable): Refrigerant {
  const { name, lowest, highest, criticalTemperature } = table;
  const warmest = Math.max(highest, WARM_VAPOUR);
  const variable = (temperature: number): number => Math.cbrt(1 - temperature / criticalTemperature);
  const [low, high] = [variable(lowest), variable(highest)];
  const saturated = (coefficients: readonly number[]): Series => ({ coefficients, low, high });
  const dilute = (coefficients: readonly number[]): Series => ({ coefficients, low: lowest, high: warmest });

  const within = (temperature: number, model: string, most: number): number => {
    if (temperature >= lowest - ROUNDING && temperature <= most + ROUNDING)
      return Math.min(most, Math.max(lowest, temperature));
    return raise({
      kind: 'model-range',
      model: `${model} of ${name}`,
      argument: 'temperature',
      value: temperature - KELVIN_AT_ZERO,
      min: lowest - KELVIN_AT_ZERO,
      max: most - KELVIN_AT_ZERO,
      unit: 'C',
    });
  };
  const onLine = (temperature: number): number => within(temperature, 'saturation', highest);
  const asVapour = (temperature: number): number => within(temperature, 'vapour', warmest);

  const bubble = saturationLine(`bubble line of ${name}`, table.bubblePressure, lowest, highest);
  const dew = saturationLine(`dew line of ${name}`, table.dewPressure, lowest, highest);
  const series = {
    liquidDensity: saturated(table.liquidDensity),
    vapourDensity: saturated(table.vapourDensity),
    liquidEnthalpy: saturated(table.liquidEnthalpy),
    vapourEnthalpy: saturated(table.vapourEnthalpy),
    liquidHeat: saturated(table.liquidHeat),
    liquidViscosity: saturated(table.liquidViscosity),
    vapourViscosity: dilute(table.vapourViscosity),
    heatCapacityRatio: dilute(table.heatCapacityRatio),
  };
  const liquidEnthalpy = (t: number): number => seriesAt(series.liquidEnthalpy, variable(onLine(t)));
  const vapourEnthalpy = (t: number): number => seriesAt(series.vapourEnthalpy, variable(onLine(t)));
  const saturatedVapourDensity = (t: number): number => Math.exp(seriesAt(series.vapourDensity, variable(onLine(t))));
  const vapourDensity = vapourDensityOf(
    table,
    { pressure: (t) => dew.pressure(onLine(t)), density: saturatedVapourDensity, variable },
    warmest,
  );

  return {
    name,
    safetyClass: table.safetyClass,
    molarMass: table.molarMass,
    criticalTemperature,
    criticalPressure: table.criticalPressure,
    lowest,
    highest,
    warmest,
    zeotropic: table.zeotropic,
    composition: table.composition,
    source: table.source,
    bubblePressure: (t) => bubble.pressure(onLine(t)),
    dewPressure: (t) => dew.pressure(onLine(t)),
    bubbleTemperature: bubble.temperature,
    dewTemperature: dew.temperature,
    liquidDensity: (t) => seriesAt(series.liquidDensity, variable(onLine(t))),
    saturatedVapourDensity,
    vapourDensity: (t, pressure) => vapourDensity(asVapour(t), pressure),
    latentHeat: (t) => vapourEnthalpy(t) - liquidEnthalpy(t),
    liquidHeat: (t) => Math.exp(seriesAt(series.liquidHeat, variable(onLine(t)))),
    liquidEnthalpy,
    vapourEnthalpy,
    vapourViscosity: (t) => MICRO * seriesAt(series.vapourViscosity, asVapour(t)),
    liquidViscosity: (t) => Math.exp(seriesAt(series.liquidViscosity, variable(onLine(t)))),
    heatCapacityRatio: (t) => seriesAt(series.heatCapacityRatio, asVapour(t)),
  };
}
