import type { GasState } from '../../../src/engine/gas/state.ts';

/** Source: CODATA 2018. */
const MOLAR_GAS_CONSTANT = 8.314462618;

/** A perfect gas with the numbers that a reference states: kg/mol, K, Pa s. */
export function perfectGas(
  molarMass: number,
  temperature: number,
  viscosity: number,
  heatCapacityRatio = 1.4,
): GasState {
  const specificGasConstant = MOLAR_GAS_CONSTANT / molarMass;
  return {
    name: 'gas of a reference row',
    temperature,
    molarMass,
    specificGasConstant,
    viscosity,
    heatCapacityRatio,
    probableSpeed: Math.sqrt(2 * specificGasConstant * temperature),
  };
}
