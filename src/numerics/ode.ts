import { hermite } from './interpolate.ts';
import { findRoot } from './root.ts';

/**
 * Initial value problems y' = f(t, y) of a few unknowns: adaptive steps, events, values between steps.
 * The step itself comes from a method: `dormandPrince` (non-stiff) or `rodas` (stiff).
 */

/** Writes dy/dt at (t, y) into `out`. */
export type Derivative = (t: number, y: Float64Array, out: Float64Array) => void;

export interface OdeOptions {
  /** relative tolerance of each step; default 1e-6 */
  readonly relative?: number;
  /** absolute tolerance, one for all unknowns or one each; default 1e-9 */
  readonly absolute?: number | readonly number[];
  readonly firstStep?: number;
  readonly largestStep?: number;
  /** most steps, refused ones counted; default 100 000 */
  readonly mostSteps?: number;
  /** Stop where one of these crosses zero. The time is found to `eventTolerance`, relative to the step. */
  readonly events?: readonly ((t: number, y: Float64Array) => number)[];
  /** Called for each accepted step with a function that gives y at any time inside it. */
  readonly onStep?: (from: number, to: number, at: (t: number) => Float64Array) => void;
}

export interface OdeResult {
  readonly t: number;
  readonly y: Float64Array;
  /** 'end' of the interval, an 'event', or 'stuck': the step shrank to nothing or the steps ran out */
  readonly status: 'end' | 'event' | 'stuck';
  /** index of the event that stopped the march */
  readonly event: number | undefined;
  readonly steps: number;
  readonly refused: number;
  readonly evaluations: number;
}

/** One try of a method from (t, y, dy) over h. `next` and `nextSlope` are filled; gives values inside the step. */
export interface Method {
  /** order of the error estimate plus one: the step grows with error^(-1/order) */
  readonly order: number;
  prepare(f: Derivative, unknowns: number): Trial;
}

export interface Trial {
  readonly next: Float64Array;
  readonly nextSlope: Float64Array;
  /** estimate of the error of `next` */
  readonly error: Float64Array;
  /** true when the state was good enough to form a step (a singular matrix gives false) */
  attempt(t: number, y: Float64Array, slope: Float64Array, h: number): boolean;
  /** y at t + theta h of the last try; default a cubic through both ends */
  between?(theta: number, y: Float64Array, h: number, out: Float64Array): void;
  evaluations: number;
}

const SAFETY = 0.9;
const SHRINK_MOST = 0.2;
const GROW_MOST = 5;
const EVENT_TOLERANCE = 1e-12;

/** Integrates from t0 to t1 (either direction of time is the caller's: t1 > t0) with `method`. */
export function march(
  method: Method,
  f: Derivative,
  t0: number,
  y0: ArrayLike<number>,
  t1: number,
  options: OdeOptions = {},
): OdeResult {
  const { relative = 1e-6, absolute = 1e-9, mostSteps = 100_000, events = [], onStep } = options;
  const largest = options.largestStep ?? t1 - t0;
  const unknowns = y0.length;
  let t = t0;
  const y = Float64Array.from(y0);
  const slope = new Float64Array(unknowns);
  const trial = method.prepare(f, unknowns);
  f(t, y, slope);
  trial.evaluations++;
  const scale = (i: number, a: number, b: number): number =>
    (typeof absolute === 'number' ? absolute : (absolute[i] ?? 0)) + relative * Math.max(Math.abs(a), Math.abs(b));
  let h = Math.min(options.firstStep ?? guessFirstStep(y, slope, scale, t1 - t0), largest);
  let before = events.map((event) => event(t, y));
  let steps = 0;
  let refused = 0;
  const result = (status: OdeResult['status'], at: number, values: Float64Array, event?: number): OdeResult => ({
    t: at,
    y: values,
    status,
    event,
    steps,
    refused,
    evaluations: trial.evaluations,
  });

  while (t < t1) {
    if (steps + refused >= mostSteps) return result('stuck', t, y);
    // a last step that would leave a crumb takes the crumb along
    const left = t1 - t;
    if (h > left || left - h < 1e-3 * h) h = left;
    if (t + h <= t) return result('stuck', t, y);
    const good = trial.attempt(t, y, slope, h);
    let norm = 0;
    if (good) {
      for (let i = 0; i < unknowns; i++) {
        const e = (trial.error[i] ?? 0) / scale(i, y[i] ?? 0, trial.next[i] ?? 0);
        norm += e * e;
      }
      norm = Math.sqrt(norm / unknowns);
    }
    if (!good || !(norm <= 1)) {
      refused++;
      const factor = good && Number.isFinite(norm) ? SAFETY * norm ** (-1 / method.order) : SHRINK_MOST;
      h *= Math.max(SHRINK_MOST, Math.min(factor, 0.9));
      continue;
    }
    steps++;
    const end = h === left ? t1 : t + h;
    const at = (time: number): Float64Array => valueInside(trial, y, slope, t, h, time);
    const after = events.map((event) => event(end, trial.next));
    const hit = firstCrossing(events, before, after, t, end, at);
    onStep?.(t, hit?.t ?? end, at);
    if (hit !== undefined) return result('event', hit.t, at(hit.t), hit.event);
    t = end;
    y.set(trial.next);
    slope.set(trial.nextSlope);
    before = after;
    const grow = norm > 0 ? SAFETY * norm ** (-1 / method.order) : GROW_MOST;
    h = Math.min(h * Math.min(GROW_MOST, Math.max(SHRINK_MOST, grow)), largest);
  }
  return result('end', t, y);
}

function guessFirstStep(
  y: Float64Array,
  slope: Float64Array,
  scale: (i: number, a: number, b: number) => number,
  span: number,
): number {
  let size = 0;
  let speed = 0;
  for (let i = 0; i < y.length; i++) {
    const s = scale(i, y[i] ?? 0, y[i] ?? 0);
    size = Math.max(size, Math.abs(y[i] ?? 0) / s);
    speed = Math.max(speed, Math.abs(slope[i] ?? 0) / s);
  }
  return speed > 0 && size > 0 ? Math.min(span, (0.01 * size) / speed) : span * 1e-3;
}

function valueInside(
  trial: Trial,
  y: Float64Array,
  slope: Float64Array,
  t: number,
  h: number,
  time: number,
): Float64Array {
  const out = new Float64Array(y.length);
  if (trial.between !== undefined) trial.between((time - t) / h, y, h, out);
  else
    for (let i = 0; i < y.length; i++)
      out[i] = hermite(time, t, t + h, y[i] ?? 0, trial.next[i] ?? 0, slope[i] ?? 0, trial.nextSlope[i] ?? 0);
  return out;
}

function firstCrossing(
  events: NonNullable<OdeOptions['events']>,
  before: readonly number[],
  after: readonly number[],
  t: number,
  end: number,
  at: (time: number) => Float64Array,
): { t: number; event: number } | undefined {
  let first: { t: number; event: number } | undefined;
  events.forEach((event, index) => {
    const a = before[index] ?? 0;
    const b = after[index] ?? 0;
    if (a === 0 || (b !== 0 && a > 0 === b > 0)) return;
    const root =
      b === 0 ? end : findRoot((time) => event(time, at(time)), t, end, { absolute: EVENT_TOLERANCE * (end - t) });
    const time = Number.isNaN(root) ? end : root;
    if (first === undefined || time < first.t) first = { t: time, event: index };
  });
  return first;
}
