import { describe, expect, it } from 'vitest';
import { latticeLine, primeFrom, randomStream } from '../../src/numerics/lattice.ts';

/** The mixing function in whole numbers of any size instead of 32-bit words. */
function mixed(seed: bigint, count: number): number[] {
  const word = (value: bigint): bigint => value & 0xffffffffn;
  const numbers: number[] = [];
  for (let i = 1n; i <= BigInt(count); i++) {
    let z = word(seed + i * 0x9e3779b9n);
    z = word((z ^ (z >> 16n)) * 0x21f0aaadn);
    z = word((z ^ (z >> 15n)) * 0x735a2d97n);
    numbers.push(Number(z ^ (z >> 15n)));
  }
  return numbers;
}

describe('a stream of random integers', () => {
  it.each([0, 1, 12345, 4294967295])('from %d is that of exact arithmetic', (seed) => {
    const next = randomStream(seed);
    expect(Array.from({ length: 50 }, next)).toEqual(mixed(BigInt(seed), 50));
  });

  it('is even: mean and spread of 20 000 numbers', () => {
    const next = randomStream(7);
    const numbers = Array.from({ length: 20_000 }, () => next() / 2 ** 32);
    const mean = numbers.reduce((sum, value) => sum + value, 0) / numbers.length;
    const spread = numbers.reduce((sum, value) => sum + (value - mean) ** 2, 0) / numbers.length;
    // uniform on [0, 1): mean 1/2, variance 1/12; four standard errors
    expect(Math.abs(mean - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / 20_000));
    expect(Math.abs(spread - 1 / 12)).toBeLessThan(0.003);
  });
});

describe('a lattice', () => {
  it('has the first prime at or above a number of points', () => {
    const cases = [
      [-5, 2],
      [0, 2],
      [1, 2],
      [2, 2],
      [3, 3],
      [4, 5],
      [8.2, 11],
      [9, 11],
      [24, 29],
      [25, 29],
      [48, 53],
      [49, 53],
      [114, 127],
      [997, 997],
    ] as const;
    for (const [n, prime] of cases) expect(primeFrom(n)).toBe(prime);
  });

  it('has a start in any part of the range and a step that is not none', () => {
    expect(latticeLine(7, () => 0)).toEqual({ start: 0, step: 1 });
    expect(latticeLine(7, () => 2 ** 32 - 1)).toEqual({ start: 6, step: 6 });
    expect(latticeLine(7, () => 2 ** 31)).toEqual({ start: 3, step: 4 });
  });

  it('puts one point into each part of every dimension', () => {
    const random = randomStream(3);
    for (const size of [2, 5, 31])
      for (let dimension = 0; dimension < 20; dimension++) {
        const { start, step } = latticeLine(size, random);
        const parts = Array.from({ length: size }, (_, i) => (start + i * step) % size);
        expect(new Set(parts).size).toBe(size);
      }
  });
});
