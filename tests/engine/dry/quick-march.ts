import { flowPatches } from '../../../src/engine/dry/quick/flow-patches.ts';
import { type AtPump, type Ending, marchStage, type Track } from '../../../src/engine/dry/quick/march.ts';
import type { Course, Stage, State } from '../../../src/engine/dry/quick/rates.ts';
import { AMBIENT, RV, SPEED, SURFACE, TRIPLE, TRIPLE_PA, VOLUME } from './simple.ts';

/** One stage of the quick march by the simple gear. */

export const PER_THROUGHPUT = 1 / (RV * AMBIENT);
export const RATE = SPEED / VOLUME;
export const WARM = AMBIENT - TRIPLE;
/** kg/s that leave as vapour at the triple point by a pump of one speed, and W that come in per W/K. */
export const OFF = SPEED * TRIPLE_PA * PER_THROUGHPUT;

export interface Way {
  readonly leak?: number;
  readonly heat?: number;
  readonly metal?: number;
  readonly target?: number;
  readonly surface?: typeof SURFACE;
  readonly atPump?: AtPump;
}
export interface Marched {
  readonly ending: Ending;
  readonly at: State;
  readonly track: Track;
}

/** Marches a stage from its unknowns: gas in Pa, the second and third as they are. `begun` is what was seen before. */
export function march(
  stage: Stage,
  gas: number,
  x1: number,
  x2: number,
  way: Way = {},
  begun: Partial<Track> = {},
): Marched {
  const { leak = 0, heat = 0.5, metal = 0, target = 110, surface = SURFACE } = way;
  const { atPump = (q, y) => (y * q) / SPEED } = way;
  const course: Course = {
    ...{ patches: flowPatches(surface), ambient: AMBIENT, volume: VOLUME, heat, metal },
    load: { leak, outgassing: 0, exponent: 0 },
    ...{ perPascal: VOLUME * PER_THROUGHPUT, perThroughput: PER_THROUGHPUT },
  };
  const at: State = { time: 0, x0: Math.log(gas), x1, x2 };
  const track: Track = { coldest: AMBIENT, wettest: 0, tries: 0, ...begun };
  const scales = { water: stage === 'dry' ? 5e-3 : x2, target, lowest: leak / SPEED };
  return { ending: marchStage(course, stage, at, scales, track, atPump), at, track };
}
