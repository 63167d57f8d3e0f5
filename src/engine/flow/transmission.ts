/** Below this ratio the last term of Berman's formula, about l^3/24, is lost in the first. */
const SHORT = 1e-5;
/** Above this ratio the long-tube limit 8/(3 l) is right to 1e-6. */
const LONG = 1e8;

/**
 * Transmission probability of a round tube of length L and radius a between two large rooms, free-molecular flow
 * with diffuse walls, as a function of l = L/a:
 *
 *   alpha = 1 + l^2/4 - (l/4) s - [(8 - l^2) s + l^3 - 16]^2 / (72 l s - 288 ln(l + s) + 288 ln 2),  s = sqrt(l^2 + 4)
 *
 * Limits: 1 for an opening, 8/(3 l) for a long tube; at most 0.07 % from the solved Clausing integral equation.
 * As printed, terms of size l^2 and l^3 cancel; with l - s = -4/(l + s) they are gone and the formula keeps ten digits
 * to l = 1e6.
 * Source: Berman, J. Appl. Phys. 36 (1965) 3356.
 */
export function transmission(l: number): number {
  if (l <= 0) return 1;
  if (l > LONG) return 8 / (3 * l);
  const s = Math.sqrt(l * l + 4);
  const first = 1 - l / (l + s);
  if (l < SHORT) return first;
  const bracket = 8 * s - 16 - (4 * l * l) / (l + s);
  const denominator = 72 * l * s - 288 * Math.asinh(0.5 * l);
  return first - (bracket * bracket) / denominator;
}
