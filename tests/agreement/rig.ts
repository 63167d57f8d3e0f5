import { type Air, type BruteTube, bruteUpstream } from '../engine/flow/brute-force.ts';

/**
 * Second implementation of a rig of tubes behind a pump S0 (1 - pu/p) and of a pull-down through it: tubes by small steps
 * of the local equation, the pump inlet by halving, the time by Simpson's rule over ln p. Shares no code with the engine.
 */
export interface BruteRig {
  /** m3/s */
  readonly speed: number;
  /** Pa */
  readonly ultimate: number;
  /** from the pump to the system */
  readonly tubes: readonly BruteTube[];
}

const STEPS = 300;

/** Throughput at a pressure of the system, Pa m3/s. */
export function bruteThroughput({ speed, ultimate, tubes }: BruteRig, gas: Air, system: number): number {
  let low = ultimate;
  let high = system;
  for (let i = 0; i < 40; i++) {
    const inlet = 0.5 * (low + high);
    let p = inlet;
    for (const tube of tubes) {
      p = bruteUpstream(tube, gas, speed * (inlet - ultimate), p, STEPS);
      if (p > system) break;
    }
    if (p > system) high = inlet;
    else low = inlet;
  }
  return speed * (0.5 * (low + high) - ultimate);
}

/** s from `from` to `to` in a volume without loads: t = V integral of p/Q over ln p; `cells` is even. */
export function bruteMinutes(rig: BruteRig, gas: Air, volume: number, from: number, to: number, cells = 40): number {
  const step = Math.log(from / to) / cells;
  let sum = 0;
  for (let i = 0; i <= cells; i++) {
    const p = to * Math.exp(i * step);
    const weight = i === 0 || i === cells ? 1 : i % 2 === 1 ? 4 : 2;
    sum += (weight * p) / bruteThroughput(rig, gas, p);
  }
  return (volume * sum * step) / 3;
}
