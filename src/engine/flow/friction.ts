/** Below this Reynolds number the turbulent part of Churchill's formula is below 1e-12 of 64/Re. */
const LAMINAR = 100;

/**
 * Darcy friction factor of a round tube in laminar, transitional and turbulent flow, by one formula:
 *
 *   f = 8 [ (8/Re)^12 + 1/(A + B)^1.5 ]^(1/12),  A = [2.457 ln(1/((7/Re)^0.9 + 0.27 e/D))]^16,  B = (37530/Re)^16
 *
 * @param reynolds Reynolds number, > 0
 * @param relativeRoughness e/D, 0 for a smooth tube
 * Limits: 64/Re when laminar; about 2 % from Colebrook when turbulent; transition (2000-4000) indicative.
 * Source: Churchill, Chem. Eng. 84(24) (1977) 91.
 */
export function churchill(reynolds: number, relativeRoughness: number): number {
  // B overflows at small Re, where only 64/Re is left
  if (reynolds < LAMINAR) return 64 / reynolds;
  const a = (2.457 * Math.log(1 / ((7 / reynolds) ** 0.9 + 0.27 * relativeRoughness))) ** 16;
  const b = (37530 / reynolds) ** 16;
  return 8 * ((8 / reynolds) ** 12 + (a + b) ** -1.5) ** (1 / 12);
}
