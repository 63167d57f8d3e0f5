/**
 * Textbook relations of compressible flow, written here for the checks alone: adiabatic pipe flow (Fanno), isentropic
 * inlet, isothermal duct, pipe friction by Colebrook. The engine shares nothing with this file.
 * Source: White, Fluid Mechanics, chapters 6 and 9.
 */

/** Darcy f L-star/D from Mach number m to choking. */
export function fannoLength(gamma: number, m: number): number {
  const m2 = m * m;
  return (1 - m2) / (gamma * m2) + ((gamma + 1) / (2 * gamma)) * Math.log(((gamma + 1) * m2) / (2 + (gamma - 1) * m2));
}

/** T/T-star of adiabatic pipe flow. */
export function fannoTemperature(gamma: number, m: number): number {
  return (gamma + 1) / (2 + (gamma - 1) * m * m);
}

/** p/p-star of adiabatic pipe flow. */
export function fannoPressure(gamma: number, m: number): number {
  return Math.sqrt(fannoTemperature(gamma, m)) / m;
}

/** Root of a monotone function by plain bisection. */
export function bisect(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  const rising = f(b) > f(a);
  for (let i = 0; i < 200; i++) {
    const mid = 0.5 * (a + b);
    if (f(mid) > 0 === rising) b = mid;
    else a = mid;
  }
  return 0.5 * (a + b);
}

/** Subsonic Mach number from which a pipe of f L/D chokes at its end. */
export function fannoMach(gamma: number, length: number): number {
  return bisect((m) => fannoLength(gamma, m) - length, 1e-6, 1);
}

/** mdot sqrt(R T0)/(A p0) at Mach number m. */
export function massFlowConstant(gamma: number, m: number): number {
  const t = 1 + ((gamma - 1) / 2) * m * m;
  return Math.sqrt(gamma) * m * t ** (-(gamma + 1) / (2 * (gamma - 1)));
}

/** Mach number at a static over total pressure of p/p0. */
export function machAt(gamma: number, ratio: number): number {
  return Math.sqrt((2 / (gamma - 1)) * (ratio ** (-(gamma - 1) / gamma) - 1));
}

/** Darcy f by Colebrook: 1/sqrt f = -2 log10(e/3.7 + 2.51/(Re sqrt f)). */
export function colebrook(reynolds: number, relativeRoughness: number): number {
  const x = bisect((s) => s + 2 * Math.log10(relativeRoughness / 3.7 + (2.51 * s) / reynolds), 1e-3, 100);
  return 1 / (x * x);
}

/** Darcy f of a smooth pipe by Prandtl: 1/sqrt f = 2 log10(Re sqrt f) - 0.8. */
export function prandtl(reynolds: number): number {
  const x = bisect((s) => s - 2 * Math.log10(reynolds / s) + 0.8, 1e-3, 100);
  return 1 / (x * x);
}

/** G of an isothermal duct: G^2 = (p1^2 - p2^2)/(R T (f L/D + K + 2 ln(p1/p2))). */
export function isothermalFlux(p1: number, p2: number, rt: number, resistance: number): number {
  return Math.sqrt((p1 * p1 - p2 * p2) / (rt * (resistance + 2 * Math.log(p1 / p2))));
}
