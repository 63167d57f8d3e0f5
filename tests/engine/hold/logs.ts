import type { HoldReading } from '../../../src/engine/hold/prepare.ts';

/** Seeded random numbers (mulberry32), so that a confusion table is the same each time. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Normal deviates by Box and Muller. */
export function normal(random: () => number): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export const MICRON = 0.133322387415;

/** A log of a law in micron over minutes, read with relative noise on a gauge with steps of one micron. */
export function logOf(
  law: (minutes: number) => number,
  { minutes = 30, points = 20, noise = 0, random = seeded(1) } = {},
): HoldReading[] {
  const deviate = normal(random);
  return Array.from({ length: points }, (_, i) => {
    const t = (minutes * i) / (points - 1);
    const micron = Math.max(Math.round(law(t) * (1 + noise * deviate())), 0);
    return { time: 60 * t, pressure: micron * MICRON };
  });
}
