import { raise } from '../../faults/issue.ts';
import { lowestPressure } from '../evacuate/pulldown.ts';
import { type Balance, type Contents, type Surroundings, totalPressure } from './contents.ts';
import { dryPull } from './dry.ts';
import { type FeedCurve, feedSecondsPerVolume, feedThroughput } from './feed.ts';
import type { Outflow } from './outflow.ts';
import { type Flow, type Until, wetStage } from './wet.ts';

/** The three things that a plan does: pull, break, wait. SI. */

/** What was seen on the way. */
export interface Seen {
  /** K, of the water; undefined where there was none */
  readonly coldest: number | undefined;
  readonly froze: boolean;
  /** Pa, largest vapour pressure at the pump inlet */
  readonly vapourAtPump: number;
}

export interface Done {
  readonly end: Contents;
  /** false for a pull that its cap ended before the pressure was there */
  readonly reached: boolean;
  readonly seen: Seen;
}

/** Longest that one step is followed, s. */
export const LONGEST = 366 * 86400;
/** A pool changes its state a few times within a step at most; more is a fault of ours. */
const MOST_STAGES = 60;

/** What a pull is until its water is gone or it is at its pressure. */
export interface Phase {
  readonly end: Contents;
  readonly why: 'dry' | 'pressure' | 'time';
  readonly seen: Seen;
}

export type KeepPhase = (key: string, work: () => Phase) => Phase;

/** Stages with a pool, one after the other, until it is dry or the step is over; none where it is dry already. */
function throughPool(
  around: Surroundings,
  flow: Flow,
  start: Contents,
  until: Until,
  balance: Balance | undefined,
  outflow?: Outflow,
): Phase {
  let coldest: number | undefined;
  let froze = false;
  let vapourAtPump = 0;
  const see = (contents: Contents): void => {
    if (contents.state === 'dry') return;
    coldest = Math.min(coldest ?? contents.temperature, contents.temperature);
    froze ||= contents.state !== 'liquid';
    if (outflow === undefined) return;
    const pressure = totalPressure(contents);
    vapourAtPump = Math.max(vapourAtPump, outflow.vapourAtPump(pressure, contents.vapour / pressure));
  };
  see(start);
  let contents = start;
  for (let stage = 0; contents.state !== 'dry'; stage++) {
    const next = stage < MOST_STAGES ? wetStage(around, flow, contents, until, balance, see) : undefined;
    if (next === undefined) return raise({ kind: 'internal', detail: 'water that does not come to an end' });
    contents = next.contents;
    if (next.why !== 'pool') return { end: contents, why: next.why, seen: { coldest, froze, vapourAtPump } };
  }
  return { end: contents, why: 'dry', seen: { coldest, froze, vapourAtPump } };
}

/**
 * Pumps down to `target` (Pa), `longest` (s) at most where given.
 *
 * @param toDry go on past the pressure until no water is left: the end of the whole work
 * @param keep gives what was worked out for a key before, or works it out; all that the key leaves out is the outflow
 * @throws out-of-reach for a target that the rig cannot pull to; no-solution where it takes more than a year
 */
export function pull(
  around: Surroundings,
  outflow: Outflow,
  start: Contents,
  { target, longest = LONGEST, toDry }: { readonly target: number; readonly longest?: number; readonly toDry: boolean },
  balance?: Balance,
  keep: KeepPhase = (_, work) => work(),
): Done {
  const { load } = around;
  const lowest = lowestPressure(outflow.dry, load);
  if (target <= lowest)
    raise({
      kind: 'out-of-reach',
      targetPa: target,
      lowestPa: lowest,
      because:
        load.leak + load.outgassing > 0
          ? 'leak and outgassing balance what the rig carries off there'
          : 'it is the ultimate pressure of the pump',
    });
  const until = start.time + longest;
  const flow: Flow = { kind: 'out', throughput: outflow.throughput };
  const pool = (): Phase => {
    const limits = toDry ? { time: until } : { time: until, pressure: target };
    const work = () => throughPool(around, flow, start, limits, balance, outflow);
    return balance === undefined ? keep(JSON.stringify([around, start, limits]), work) : work();
  };
  const phase: Phase = start.state === 'dry' ? { end: start, why: 'dry', seen: seenDry(outflow, start) } : pool();
  const { seen } = phase;
  if (phase.why === 'pressure') return { end: phase.end, reached: true, seen };
  const end = phase.why === 'time' ? phase.end : dryPull(around, outflow, phase.end, target, until, balance);
  if (end === undefined) return raise({ kind: 'internal', detail: 'a pull without water that does not end' });
  const reached = phase.why === 'dry' && totalPressure(end) <= target * (1 + 1e-9);
  if (!reached && longest >= LONGEST)
    raise({
      kind: 'no-solution',
      reason:
        start.state === 'dry' ? 'the pull is not at its pressure within a year' : 'the water is not gone within a year',
      todo: 'Give more Heat, a longer Wait, a wider rig or a Longest pull, or drain the water first.',
    });
  return { end, reached, seen };
}

function seenDry(outflow: Outflow, start: Contents): Seen {
  const pressure = totalPressure(start);
  const vapourAtPump = start.vapour > 0 ? outflow.vapourAtPump(pressure, start.vapour / pressure) : 0;
  return { coldest: undefined, froze: false, vapourAtPump };
}

/**
 * Lets gas in up to `pressure` (Pa) of the whole. Water goes on to evaporate a little while Heat warms it; what comes in is
 * at the surroundings' temperature and gives the water no heat of its own.
 *
 * @param feed undefined for a rig without parts, through which the gas is in at once
 * @throws order where the pressure is there already
 */
export function letIn(
  around: Surroundings,
  feed: FeedCurve | undefined,
  start: Contents,
  pressure: number,
  balance?: Balance,
): Done {
  const before = totalPressure(start);
  if (!(pressure > before))
    raise({
      kind: 'order',
      upper: 'Break to',
      upperValue: pressure,
      lower: 'the pressure at the end of the pull',
      lowerValue: before,
      unit: 'Pa',
    });
  if (feed === undefined) return unseen({ ...start, fed: start.fed + pressure - before });
  const flow: Flow = { kind: 'in', throughput: (at) => feedThroughput(feed, at) };
  const until = { time: start.time + LONGEST, pressure };
  const { end, why, seen } = throughPool(around, flow, start, until, balance);
  if (why !== 'dry') return { end, reached: why === 'pressure', seen };
  const from = totalPressure(end);
  const seconds = from < pressure ? around.volume * feedSecondsPerVolume(feed, from, pressure) : 0;
  const fed = end.fed + Math.max(0, pressure - from);
  return { end: { ...end, time: end.time + seconds, fed }, reached: true, seen };
}

function unseen(end: Contents): Done {
  return { end, reached: true, seen: { coldest: undefined, froze: false, vapourAtPump: 0 } };
}

/** The system stands shut for a time (s): Heat warms the water, ice melts first, and vapour fills up to saturation. */
export function stand(around: Surroundings, start: Contents, seconds: number, balance?: Balance): Done {
  const time = start.time + seconds;
  if (around.heat === 0) return unseen({ ...start, time });
  const { end, seen } = throughPool(around, { kind: 'none' }, start, { time }, balance);
  return { end: { ...end, time }, reached: true, seen };
}
