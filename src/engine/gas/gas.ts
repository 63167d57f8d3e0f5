import { raise } from '../../faults/issue.ts';
import { MOLAR_GAS_CONSTANT } from './constants.ts';
import { GASES, type Gas } from './gases.ts';
import type { GasState } from './state.ts';

/** Case, spaces, hyphens and brackets do not tell gases apart: "R134a", "r-134A" and "CO2 (R-744)" are found. */
function key(name: string): string {
  return name.toLowerCase().replace(/[\s\-_()]/g, '');
}

const BY_KEY: ReadonlyMap<string, Gas> = new Map(
  GASES.flatMap((gas) => [gas.name, ...gas.synonyms].map((name) => [key(name), gas] as const)),
);

/** The gases that are known, by the name that is shown. */
export const gasNames: readonly string[] = GASES.map((gas) => gas.name);

/** The gas by its name or a synonym, undefined where there is none. */
export function knownGas(name: string): Gas | undefined {
  return BY_KEY.get(key(name));
}

/** As `knownGas`; raises `unknown` with the list of gases. */
export function findGas(name: string): Gas {
  return knownGas(name) ?? raise({ kind: 'unknown', what: 'gas', value: name, known: gasNames });
}

/**
 * A gas at one temperature, in the dilute limit: what every flow in the engine needs of it.
 *
 * R_s = R/M, v0 = sqrt(2 R_s T), viscosity by the gas's own formula (`viscosity.ts`), the ratio of heat capacities of
 * the ideal gas at 20 C.
 *
 * @param name name or synonym
 * @param temperature K
 * Limits: viscosity within 1 % (simple gases) to 5 % (refrigerants) in 250-333 K; pressure has no influence on it here.
 * Raises `unknown` for the name and `model-range` for a temperature where the viscosity formula is not trusted.
 */
export function gasState(name: string, temperature: number): GasState {
  const gas = findGas(name);
  if (!(temperature >= gas.coldest && temperature <= gas.hottest))
    raise({
      kind: 'model-range',
      model: `viscosity of ${gas.name}`,
      argument: 'Temperature',
      value: temperature,
      min: gas.coldest,
      max: gas.hottest,
      unit: 'K',
    });
  const specificGasConstant = MOLAR_GAS_CONSTANT / gas.molarMass;
  return {
    name: gas.name,
    temperature,
    molarMass: gas.molarMass,
    specificGasConstant,
    viscosity: gas.viscosity(temperature),
    heatCapacityRatio: gas.heatCapacityRatio,
    probableSpeed: Math.sqrt(2 * specificGasConstant * temperature),
  };
}
