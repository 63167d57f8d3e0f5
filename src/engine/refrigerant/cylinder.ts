import { findRoot } from '../../numerics/root.ts';
import type { Refrigerant } from './refrigerant.ts';

/** share of the volume that liquid may take; AHRI Guideline K, 49 CFR 173.304a (CY-01) */
const LIQUID_SHARE = 0.8;
/** K, 131 F: a cylinder must not be liquid full there; 49 CFR 173.304a, from memory (CY-04) */
const NOT_FULL_AT = 328.15;
/** most kg by kg of water that the cylinder holds; 49 CFR 173.304a Table 1 (CY-03), the least of what it gives */
const FILLING_DENSITY: ReadonlyMap<string, number> = new Map([
  ['R-22', 1.05],
  ['R-744', 0.68],
]);
/** kg/m3: the rule weighs water at 60 F, one pound in 27.737 cubic inches; from memory */
export const RULE_WATER = 0.45359237 / (27.737 * 0.0254 ** 3);

export interface Fill {
  /** kg */
  readonly mass: number;
  /** what set it */
  readonly by: 'liquid share' | 'liquid full when warm' | 'filling density';
}

/**
 * Most refrigerant that a cylinder may take.
 *
 * m = 0.8 V rho_l(T), the vapour above the liquid left out (which is on the safe side); never more than
 * V rho_l(55 C), at which liquid alone fills the cylinder at 55 C (131 F), which binds where the fill is reckoned cold,
 * nor than the filling density of the law where one is known. Carbon dioxide is above its critical temperature at 55 C:
 * there the filling density, 0.68 of the water capacity, stands alone.
 *
 * @param refrigerant with its table
 * @param volume inside volume of the cylinder, m3
 * @param temperature at which the liquid takes 80 % of the volume, K
 * Raises `model-range` where the refrigerant is not liquid at the temperature.
 */
export function cylinderFill(refrigerant: Refrigerant, volume: number, temperature: number): Fill {
  const byShare = LIQUID_SHARE * volume * refrigerant.liquidDensity(temperature);
  const warm = refrigerant.highest < NOT_FULL_AT ? Number.POSITIVE_INFINITY : refrigerant.liquidDensity(NOT_FULL_AT);
  const filling = (FILLING_DENSITY.get(refrigerant.name) ?? Number.POSITIVE_INFINITY) * RULE_WATER;
  if (byShare <= volume * Math.min(warm, filling)) return { mass: byShare, by: 'liquid share' };
  return warm < filling
    ? { mass: volume * warm, by: 'liquid full when warm' }
    : { mass: volume * filling, by: 'filling density' };
}

/**
 * Temperature at which liquid alone fills a cylinder of this filling, K: rho_l(T) = m/V. Above the table (near the
 * critical point) undefined: liquid and vapour are all but one before the cylinder is full of liquid.
 */
export function liquidFullTemperature(refrigerant: Refrigerant, filling: number): number | undefined {
  const { lowest, highest } = refrigerant;
  if (filling < refrigerant.liquidDensity(highest)) return undefined;
  if (filling > refrigerant.liquidDensity(lowest)) return lowest;
  return findRoot((t) => refrigerant.liquidDensity(t) - filling, lowest, highest);
}
