import type { Derivative, OdeOptions } from './ode.ts';
import { integrateStiff } from './rodas.ts';

/** Where a march that ends at an event stands. */
export interface EventResult {
  readonly t: number;
  readonly y: Float64Array;
  /** index of the event, or undefined where the end of the interval came first */
  readonly event: number | undefined;
  /** true where the steps ran out */
  readonly stuck: boolean;
}

const MOST_WALKS = 8;
/** s for s: a step by which the slope of an event is told */
const NUDGE = 1e-6;
/** Largest correction of the time that is let go, relative to the way from the last step. */
const MISS = 1e-9;

/**
 * Integrates a stiff problem until an event crosses zero, the state there good to the tolerance of the steps.
 *
 * Within a long step of a stiff problem the cubic through both ends can be far off. So the way from the last step to the
 * event is walked again, and its end corrected by Newton's method.
 */
export function integrateToEvent(
  f: Derivative,
  t0: number,
  y0: ArrayLike<number>,
  t1: number,
  options: OdeOptions & { readonly events: NonNullable<OdeOptions['events']> },
): EventResult {
  const { events, onStep, ...plain } = options;
  let from = t0;
  let start: Float64Array = Float64Array.from(y0);
  const result = integrateStiff(f, t0, y0, t1, {
    ...options,
    onStep: (begin, end, at) => {
      from = begin;
      start = at(begin);
      onStep?.(begin, end, at);
    },
  });
  const ending = events[result.event ?? -1];
  if (result.status !== 'event' || ending === undefined)
    return { t: result.t, y: result.y, event: undefined, stuck: result.status === 'stuck' };
  const slope = new Float64Array(start.length);
  let time = result.t;
  let at = from;
  let y = start;
  for (let i = 0; i < MOST_WALKS; i++) {
    if (time < at) {
      at = from;
      y = start;
    }
    if (time > at) y = Float64Array.from(integrateStiff(f, at, y, time, plain).y);
    at = time;
    f(time, y, slope);
    const value = ending(time, y);
    const ahead = y.map((one, k) => one + NUDGE * (slope[k] ?? 0));
    const step = (-NUDGE * value) / (ending(time + NUDGE, ahead) - value);
    if (!Number.isFinite(step) || Math.abs(step) <= MISS * (1 + time - from)) break;
    time = Math.max(from, time + step);
  }
  return { t: at, y, event: result.event, stuck: false };
}
