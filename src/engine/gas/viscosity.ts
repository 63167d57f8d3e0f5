/**
 * Viscosity of dilute gases as a function of temperature: one small formula for each way it is published.
 * Temperature in K, viscosity in Pa s.
 */

const MICRO = 1e-6;

/** eta = eta0 (T/T0)^n. */
export function powerLaw(eta0: number, t0: number, exponent: number): (temperature: number) => number {
  return (temperature) => eta0 * (temperature / t0) ** exponent;
}

/** Coefficients b_i of the collision integral ln Omega = sum b_i (ln T*)^i of `lemmonJacobsen`. */
const COLLISION_LEMMON_JACOBSEN = [0.431, -0.4623, 0.08406, 0.005341, -0.00331] as const;

/** Factor of the Chapman-Enskog dilute-gas viscosity in uPa s for M in g/mol, T in K, sigma in nm. */
const CHAPMAN_ENSKOG = 0.0266958;

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, c) => sum * x + c, 0);
}

/**
 * Dilute-gas viscosity eta = 0.0266958 sqrt(M T) / (sigma^2 Omega(T/(eps/k))).
 * @param molarMassGram g/mol
 * @param sigma collision diameter, nm
 * @param wellDepth eps/k, K
 * Source: Lemmon and Jacobsen, Int. J. Thermophys. 25 (2004) 21-69 (nitrogen, oxygen, argon, air), eqs. 2 and 3.
 */
export function lemmonJacobsen(
  molarMassGram: number,
  sigma: number,
  wellDepth: number,
): (temperature: number) => number {
  return (temperature) => {
    const omega = Math.exp(polynomial(COLLISION_LEMMON_JACOBSEN, Math.log(temperature / wellDepth)));
    return (MICRO * CHAPMAN_ENSKOG * Math.sqrt(molarMassGram * temperature)) / (sigma * sigma * omega);
  };
}

const CARBON_DIOXIDE_FACTOR = 1.00697;
const CARBON_DIOXIDE_WELL_DEPTH = 251.196;
const CARBON_DIOXIDE_COLLISION = [0.235156, -0.491266, 5.211155e-2, 5.347906e-2, -1.537102e-2] as const;

/** Source: Fenghour, Wakeham and Vesovic, J. Phys. Chem. Ref. Data 27 (1998) 31-44, zero-density term; 200-1500 K. */
export function carbonDioxideViscosity(temperature: number): number {
  const omega = Math.exp(polynomial(CARBON_DIOXIDE_COLLISION, Math.log(temperature / CARBON_DIOXIDE_WELL_DEPTH)));
  return (MICRO * CARBON_DIOXIDE_FACTOR * Math.sqrt(temperature)) / omega;
}

const WATER_CRITICAL_TEMPERATURE = 647.096;
const WATER_COEFFICIENTS = [1.67752, 2.20462, 0.6366564, -0.241605] as const;

/** Source: IAPWS R12-08 (2008), dilute-gas factor mu_0, eq. 11; it is continued below 273 K here. */
export function waterVapourViscosity(temperature: number): number {
  const reduced = temperature / WATER_CRITICAL_TEMPERATURE;
  return (MICRO * 100 * Math.sqrt(reduced)) / polynomial(WATER_COEFFICIENTS, 1 / reduced);
}
