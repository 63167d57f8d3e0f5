/**
 * Ideal flow of a perfect gas through a nozzle: the bound that no passage beats.
 * Source: isentropic flow of a perfect gas; White, Fluid Mechanics, ch. 9.
 */

/** Choked mass-flow constant psi* = mdot sqrt(R_s T0)/(A p0) = sqrt(g) (2/(g+1))^((g+1)/(2(g-1))). */
export function chokedConstant(gamma: number): number {
  return Math.sqrt(gamma) * (2 / (gamma + 1)) ** ((gamma + 1) / (2 * (gamma - 1)));
}

/** Critical pressure ratio p-star/p0 = (2/(g+1))^(g/(g-1)). */
export function criticalRatio(gamma: number): number {
  return (2 / (gamma + 1)) ** (gamma / (gamma - 1));
}

/** mdot sqrt(R_s T0)/(A p0) at outlet ratio r = p/p0 above the critical one. */
export function subsonicConstant(gamma: number, r: number): number {
  const expansion = 1 - r ** ((gamma - 1) / gamma);
  return r ** (1 / gamma) * Math.sqrt(((2 * gamma) / (gamma - 1)) * expansion);
}
