/** Random numbers that a seed and the number of the call give again: any single call of a run can be repeated alone. */
export interface Random {
  /** evenly from 0 up to 1 */
  readonly part: () => number;
  /** a whole number from 0 to below `count` */
  readonly below: (count: number) => number;
  readonly chance: (part: number) => boolean;
  readonly pick: <T>(from: readonly T[]) => T;
  /** even in the logarithm */
  readonly log: (low: number, high: number) => number;
}

function mixed(value: number): number {
  let x = value >>> 0;
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return (x ^ (x >>> 16)) >>> 0;
}

/** mulberry32 from a state that mixes seed and call. */
export function randomOf(seed: number, call: number): Random {
  let state = mixed(mixed(seed) + Math.imul(call + 1, 0x9e3779b1));
  const part = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  const below = (count: number): number => Math.floor(part() * count);
  return {
    part,
    below,
    chance: (share) => part() < share,
    pick: <T>(from: readonly T[]): T => from[below(from.length)] as T,
    log: (low, high) => low * (high / low) ** part(),
  };
}
