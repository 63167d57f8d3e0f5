/** Below this Reynolds number the turbulent part of Churchill's formula is below 1e-13 of 64/Re. */
const LAMINAR = 1000;

/** x^16; as a power it takes several times as long. */
function toThe16(x: number): number {
  const x2 = x * x;
  const x4 = x2 * x2;
  const x8 = x4 * x4;
  return x8 * x8;
}

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
  if (reynolds < LAMINAR) return 64 / reynolds;
  const a = toThe16(2.457 * Math.log(1 / ((7 / reynolds) ** 0.9 + 0.27 * relativeRoughness)));
  const both = a + toThe16(37530 / reynolds);
  const laminar = (8 / reynolds) ** 12;
  return 8 * (laminar + 1 / (both * Math.sqrt(both))) ** (1 / 12);
}
