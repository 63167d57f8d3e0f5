import { raise } from '../../faults/issue.ts';
import { keepingOf } from '../keep.ts';
import { type RigSurface, vapourAtPump } from './rig-surface.ts';
import { type Balance, type Moment, poolStage, type Surroundings } from './stages.ts';

/** A pool changes its state a few times at most; more is a fault of ours. */
const MOST_STAGES = 50;

/** What a dry-out is until the last of the water is vapour: nothing of it depends on the target. */
export interface WayToDry {
  /** every moment that a watcher is given, in order */
  readonly moments: readonly Moment[];
  readonly last: Moment;
  /** lowest temperature of the water, K */
  readonly coldest: number;
  readonly froze: boolean;
  /** largest vapour pressure at the pump inlet, Pa */
  readonly wettest: number;
}

/** Partial pressure of vapour at the pump inlet, Pa. */
export function vapourOf(surface: RigSurface, { gas, vapour }: Moment): number {
  return vapourAtPump(surface, gas + vapour, vapour / (gas + vapour));
}

/**
 * Every moment from `first` on until it is dry.
 *
 * @param places moments of each step, its end among them
 * @param balance where given, is added to
 * @returns undefined where the water is not gone within a year
 */
export function untilDry(
  around: Surroundings,
  first: Moment,
  places: number,
  balance: Balance | undefined,
): WayToDry | undefined {
  const moments: Moment[] = [];
  let coldest = first.temperature;
  let froze = first.state === 'ice';
  let wettest = 0;
  const see = (moment: Moment): void => {
    wettest = Math.max(wettest, vapourOf(around.surface, moment));
    coldest = Math.min(coldest, moment.temperature);
    if (moment.state === 'freezing') froze = true;
    moments.push(moment);
  };
  see(first);
  let last = first;
  for (let stage = 0; last.state !== 'dry' && stage < MOST_STAGES; stage++) {
    const next = poolStage(around, last, balance, { places, see });
    if (next === undefined) return undefined;
    last = next;
  }
  if (last.state !== 'dry') return raise({ kind: 'internal', detail: 'water that freezes and thaws without end' });
  return { moments, last, coldest, froze, wettest };
}

/** Ways that are kept of one surface, a few hundred moments each. */
const MOST_WAYS = 8;
const keep = keepingOf<RigSurface, WayToDry | undefined>(MOST_WAYS);

/** The way as it was worked out before, where only the target is another. */
export function keptWay(around: Surroundings, first: Moment, places: number): WayToDry | undefined {
  const { surface, volume, heat, metal, load } = around;
  const { leak, outgassing, exponent } = load;
  const { gas, vapour, water } = first;
  const key = [places, volume, heat, metal, leak, outgassing, exponent, gas, vapour, water].join();
  return keep(surface, key, () => untilDry(around, first, places, undefined));
}
