import { MOLAR_GAS_CONSTANT } from './constants.ts';
import type { GasState } from './state.ts';

/** phi of `wilkeViscosity`: how gas a is hindered by gas b. */
function hindrance(a: GasState, b: GasState): number {
  const root = 1 + Math.sqrt(a.viscosity / b.viscosity) * (b.molarMass / a.molarMass) ** 0.25;
  return (root * root) / Math.sqrt(8 * (1 + a.molarMass / b.molarMass));
}

/**
 * Viscosity (Pa s) of two dilute gases mixed: sum of x_i eta_i / (x_i + x_j phi_ij).
 * @param fraction mole fraction of b
 * Limits: some 2 % for like molecules, more with hydrogen or helium. Source: Wilke, J. Chem. Phys. 18 (1950) 517.
 */
export function wilkeViscosity(a: GasState, b: GasState, fraction: number): number {
  const x = 1 - fraction;
  return (
    (x * a.viscosity) / (x + fraction * hindrance(a, b)) + (fraction * b.viscosity) / (fraction + x * hindrance(b, a))
  );
}

/**
 * Two gases mixed, at the temperature of the first, as the flow engine takes a gas: viscosity by Wilke, molar mass by mole
 * fraction, the ratio of heat capacities from the molar heat capacities by mole fraction (1/(gamma - 1) is a mean).
 * At the ends it is the pure gas itself.
 * @param fraction mole fraction of b, 0 to 1
 */
export function mixedGas(a: GasState, b: GasState, fraction: number): GasState {
  if (fraction <= 0) return a;
  if (fraction >= 1) return b;
  const mean = (of: (gas: GasState) => number): number => (1 - fraction) * of(a) + fraction * of(b);
  const molarMass = mean((gas) => gas.molarMass);
  const specificGasConstant = MOLAR_GAS_CONSTANT / molarMass;
  return {
    name: `${a.name} with ${b.name}`,
    temperature: a.temperature,
    molarMass,
    specificGasConstant,
    viscosity: wilkeViscosity(a, b, fraction),
    heatCapacityRatio: 1 + 1 / mean((gas) => 1 / (gas.heatCapacityRatio - 1)),
    probableSpeed: Math.sqrt(2 * specificGasConstant * a.temperature),
  };
}
