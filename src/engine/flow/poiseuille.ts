/**
 * Reduced Poiseuille flow G_P(delta) of a long round tube with diffuse walls, from the linearised kinetic equation:
 * mass flow = pi a^3 (-dp/dz)/v0 G_P, with rarefaction delta = p a/(mu v0).
 */

/** G_P of free-molecular flow, 8/(3 sqrt(pi)). */
export const MOLECULAR_POISEUILLE = 8 / (3 * Math.sqrt(Math.PI));

/** Viscous slip coefficient of diffuse walls. Source: Sharipov and Seleznev (1998). */
export const SLIP = 1.018;

/**
 * G_P = 8/(3 sqrt(pi)) (1 + 0.04 d^0.7 ln d)/(1 + 0.78 d^0.8) + (d/4 + 1.018) d/(1 + d)
 * @param delta rarefaction, >= 0
 * Limits: 0.2 % from the table of the S-model; 8/(3 sqrt(pi)) molecular, d/4 + 1.018 with slip, d/4 viscous.
 * Source: Sharipov, Rarefied Gas Dynamics (Wiley-VCH 2016), interpolation formula for the tube.
 */
export function poiseuille(delta: number): number {
  if (delta <= 0) return MOLECULAR_POISEUILLE;
  const ln = Math.log(delta);
  const molecular = (1 + 0.04 * Math.exp(0.7 * ln) * ln) / (1 + 0.78 * Math.exp(0.8 * ln));
  return MOLECULAR_POISEUILLE * molecular + ((0.25 * delta + SLIP) * delta) / (1 + delta);
}
