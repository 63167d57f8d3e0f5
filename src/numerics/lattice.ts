/**
 * Points that fill a space of many dimensions evenly, for sampling: rank-1 lattices with random generators and shifts.
 *
 * Point i of a lattice of N (prime) points has the coordinate frac(i z_d/N + s_d) in dimension d. In every dimension its N
 * points lie one in each N-th of the range. Several lattices, each with generators and shifts of its own, are independent, so
 * that the scatter of their results tells the error.
 * Source: Sloan and Joe, Lattice Methods for Multiple Integration (1994), ch. 2 and 4.6.
 */

/** A reproducible stream of 32-bit integers: a Weyl sequence through a mixing function (Steele, Lea and Flood 2014). */
export function randomStream(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x21f0aaad);
    z = Math.imul(z ^ (z >>> 15), 0x735a2d97);
    return (z ^ (z >>> 15)) >>> 0;
  };
}

const WHOLE = 2 ** 32;

function isPrime(n: number): boolean {
  for (let d = 2; d * d <= n; d++) if (n % d === 0) return false;
  return n > 1;
}

/** The first prime at or above n. */
export function primeFrom(n: number): number {
  let prime = Math.max(2, Math.ceil(n));
  while (!isPrime(prime)) prime++;
  return prime;
}

/** One dimension of a lattice of `size` points: which of the `size` equal parts of the range each point lies in. */
export interface LatticeLine {
  /** part of the first point, and the steps to each next one, modulo the size */
  readonly start: number;
  readonly step: number;
}

/** The next dimension of a lattice of `size` (prime) points. */
export function latticeLine(size: number, random: () => number): LatticeLine {
  const whole = (below: number): number => Math.floor((random() / WHOLE) * below);
  return { start: whole(size), step: 1 + whole(size - 1) };
}
