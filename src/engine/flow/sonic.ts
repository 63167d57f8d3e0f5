import type { WorkCount } from '../../numerics/root.ts';
import { MOLAR_GAS_CONSTANT } from '../gas/constants.ts';
import type { GasState } from '../gas/state.ts';
import { chokedConstant } from './nozzle.ts';
import { DEFAULT_DISCHARGE, ellipse } from './opening.ts';
import type { Passage, PreparedPassage } from './passage.ts';
import { solveRestriction } from './restriction.ts';

/** Reference state of a sonic conductance: 20 C, air of 100 kPa and 65 % humidity. Source: ISO 6358-1:2013 / ISO 8778. */
export const SONIC_REFERENCE = { temperature: 293.15, density: 1.185 } as const;
/** Critical ratio where none is given. Common practice, no source: small pneumatic valves 0.2 to 0.4. */
export const DEFAULT_CRITICAL_RATIO = 0.3;

const AIR = { molarMass: 0.0289655, heatCapacityRatio: 1.4 } as const;
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/** The discharge coefficients that a bore beside a sonic conductance may imply; outside, the bore is not the narrows. */
const IMPLIED_DISCHARGE = { least: 0.3, most: 1 } as const;

/**
 * Mass flow in kg/s through a component of sonic conductance C (m3/(s Pa)) and critical ratio b:
 * mdot = C rho0 p1 sqrt(T0/T1) [1 - ((r - b)/(1 - b))^2]^m for r > b, without the bracket for r <= b.
 * Pressures Pa, temperature K. Other gases than air: times sqrt(M/M_air).
 * Source: ISO 6358-1:2013.
 */
export function sonicMassFlow(
  sonicConductance: number,
  b: number,
  upstream: number,
  downstream: number,
  temperature: number,
  exponent = 0.5,
): number {
  const { density, temperature: t0 } = SONIC_REFERENCE;
  const choked = sonicConductance * density * upstream * Math.sqrt(t0 / temperature);
  return choked * ellipse(1 - downstream / upstream, b, exponent);
}

/** Area (m2) of an opening with discharge coefficient `discharge` that chokes air at W_h A = `product` (m2). */
export function areaForChoked(product: number, discharge = DEFAULT_DISCHARGE): number {
  return product / (ROOT_TWO_PI * discharge * chokedConstant(AIR.heatCapacityRatio));
}

/**
 * A component known by its sonic conductance and critical ratio, carried on into rarefied flow (see `restriction.ts`).
 * The area of the molecular limit comes from the bore, else from C for a discharge coefficient of 0.8. A bore far wider
 * than C allows is not where the gas squeezes through, so the coefficient that the two imply is held within 0.3 and 1.
 *
 * Limits: continuum part as measured by the standard; rarefied part an estimate by the area.
 */
export function prepareSonic(
  passage: Extract<Passage, { kind: 'sonic' }>,
  gas: GasState,
  count?: WorkCount,
): PreparedPassage {
  const { sonicConductance, criticalRatio } = passage;
  const { density, temperature } = SONIC_REFERENCE;
  // W_h A when choked: the gas's molar mass and temperature cancel
  const product =
    sonicConductance * density * Math.sqrt((2 * Math.PI * MOLAR_GAS_CONSTANT * temperature) / AIR.molarMass);
  const area =
    passage.bore === undefined
      ? areaForChoked(product)
      : Math.min(
          Math.max((Math.PI / 4) * passage.bore ** 2, areaForChoked(product, IMPLIED_DISCHARGE.most)),
          areaForChoked(product, IMPLIED_DISCHARGE.least),
        );
  const choked = product / area;
  const bore = passage.bore ?? Math.sqrt((4 * area) / Math.PI);
  const restriction = { area, continuum: (y: number) => choked * ellipse(y, criticalRatio) };
  return { passage, gas, bore, ...solveRestriction(restriction, gas, count) };
}
