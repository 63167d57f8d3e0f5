/**
 * Shapes that the pressure of a system on hold can take. Each is linear in its weights once its one time constant is
 * chosen, so that a fit is a search over one number. SI; time counts from the first reading.
 */

export type Cause = 'tight' | 'leak' | 'moisture' | 'outgassing' | 'leak and moisture';

/** Readings as the shapes see them. */
export interface Span {
  readonly time: Float64Array;
  /** T/T of the first reading: what gas that is shut in does with temperature; ones where none is logged */
  readonly warmth: Float64Array;
  /** saturation pressure at the temperature of each reading, in parts of the one that is given; undefined: no drift */
  readonly wetness: Float64Array | undefined;
}

export interface Shape {
  readonly cause: Cause;
  readonly name: string;
  /** unknowns, the time constant included */
  readonly unknowns: number;
  /** smallest and largest time constant (s) that counts as this cause; undefined where there is none */
  readonly range: (span: number, gap: number) => readonly [number, number] | undefined;
  /** one array a weight */
  readonly columns: (span: Span, constant: number) => Float64Array[];
  /** what is known beforehand, Pa; undefined: nothing */
  readonly known: ((span: Span, constant: number) => Float64Array) | undefined;
  /** whether weights make sense: nothing shrinks, vapour is not above saturation */
  readonly allows: (weights: ArrayLike<number>) => boolean;
  /** dp/dt, Pa/s, at a time, at the first temperature */
  readonly rate: (weights: ArrayLike<number>, constant: number, time: number) => number;
}

/**
 * Slowest moisture that counts (s), or the length of the log where that is longer: slower moisture looks like a leak in
 * any log, so that a straight rise is called a leak where moisture with this time constant would have shown its bend.
 * Our choice.
 */
export const SLOWEST = 1800;
/** Slower ones, up to so many times that, are fitted to see whether the log asks for them. */
const SLOWER = 20;
/** Outgassing bends half as much as moisture of the same time constant. */
const OUTGASSING_SHARE = 0.5;
/** A bend in less than this share of the log is one odd reading. */
const FASTEST_SHARE = 1 / 30;
/** The root of time is smooth down to a start at nothing. */
const ROOT_START = 1e-5;
/** Vapour pressure may fit this much above saturation: the walls are a little warmer than told. */
const SATURATION_SLACK = 1.02;

const per = (length: number, value: (i: number) => number): Float64Array =>
  Float64Array.from({ length }, (_, i) => value(i));
const at = (values: ArrayLike<number>, i: number): number => values[i] ?? 0;

const fastest = (span: number, gap: number): number => Math.max(span * FASTEST_SHARE, gap / 2);
export const slowest = (span: number): number => Math.max(span, SLOWEST);

/**
 * What p' = (s(t) - p)/tau comes to from nothing, s the saturation pressure that follows the temperature in straight lines
 * between the readings; in parts of the saturation pressure that is given.
 */
function followed({ time, wetness }: Span, tau: number): Float64Array {
  const out = new Float64Array(time.length);
  for (let i = 1; i < out.length; i++) {
    const gap = at(time, i) - at(time, i - 1);
    const from = wetness === undefined ? 1 : at(wetness, i - 1);
    const to = wetness === undefined ? 1 : at(wetness, i);
    const lag = ((to - from) / gap) * tau;
    out[i] = to - lag + (at(out, i - 1) - from + lag) * Math.exp(-gap / tau);
  }
  return out;
}

/**
 * `saturation`: vapour pressure (Pa) at the temperature of the walls. `slow`: moisture and outgassing too slow for this
 * log alone, in place of all shapes. `drifting`: the temperature is logged and changes.
 */
export function holdShapes(saturation: number, slow = false, drifting = false): readonly Shape[] {
  const held = ({ warmth }: Span): Float64Array => warmth.slice();
  const grown = ({ time, warmth }: Span): Float64Array => per(time.length, (i) => at(time, i) * at(warmth, i));
  // vapour in step with its water, so not with the gas law
  const evaporated = ({ time }: Span, tau: number): Float64Array =>
    per(time.length, (i) => -Math.expm1(-at(time, i) / tau));
  const between = (fast: number, end: number): readonly [number, number] => (slow ? [end, SLOWER * end] : [fast, end]);
  const moistureRange = (span: number, gap: number) => between(fastest(span, gap), slowest(span));
  const logarithmRange = (span: number, gap: number) =>
    between(fastest(span, gap) / 2, OUTGASSING_SHARE * slowest(span));
  const rootRange = (span: number) => between(span * ROOT_START, OUTGASSING_SHARE * slowest(span));
  const shapes: readonly Shape[] = [
    {
      cause: 'tight',
      name: 'level',
      unknowns: 1,
      range: () => undefined,
      columns: (span) => [held(span)],
      known: undefined,
      allows: () => true,
      rate: () => 0,
    },
    {
      cause: 'leak',
      name: 'straight rise',
      unknowns: 2,
      range: () => undefined,
      columns: (span) => [held(span), grown(span)],
      known: undefined,
      allows: (w) => at(w, 1) > 0,
      rate: (w) => at(w, 1),
    },
    {
      cause: 'moisture',
      name: 'rise to the saturation pressure',
      unknowns: 2,
      range: moistureRange,
      // p = p0 + (ps - p0)(1 - exp(-t/tau))
      columns: ({ time, warmth }, tau) => [per(time.length, (i) => at(warmth, i) * Math.exp(-at(time, i) / tau))],
      known: (span, tau) => evaporated(span, tau).map((share) => share * saturation),
      allows: (w) => at(w, 0) < saturation,
      rate: (w, tau, time) => ((saturation - at(w, 0)) / tau) * Math.exp(-time / tau),
    },
    {
      cause: 'moisture',
      name: 'rise that levels off',
      unknowns: 3,
      range: moistureRange,
      columns: (span, tau) => [held(span), evaporated(span, tau)],
      known: undefined,
      allows: (w) => at(w, 1) > 0 && at(w, 1) <= SATURATION_SLACK * saturation,
      rate: (w, tau, time) => (at(w, 1) / tau) * Math.exp(-time / tau),
    },
    {
      cause: 'outgassing',
      name: 'rise with the logarithm of time',
      unknowns: 3,
      range: logarithmRange,
      columns: (span, t0) => [
        held(span),
        per(span.time.length, (i) => at(span.warmth, i) * Math.log1p(at(span.time, i) / t0)),
      ],
      known: undefined,
      allows: (w) => at(w, 1) > 0,
      rate: (w, t0, time) => at(w, 1) / (t0 + time),
    },
    {
      cause: 'outgassing',
      name: 'rise with the root of time',
      unknowns: 3,
      range: rootRange,
      columns: (span, t0) => [
        held(span),
        per(span.time.length, (i) => at(span.warmth, i) * (Math.sqrt(1 + at(span.time, i) / t0) - 1)),
      ],
      known: undefined,
      allows: (w) => at(w, 1) > 0,
      rate: (w, t0, time) => at(w, 1) / (2 * t0 * Math.sqrt(1 + time / t0)),
    },
    {
      cause: 'leak and moisture',
      name: 'rise that bends into a straight one',
      unknowns: 4,
      range: (span, gap) => [fastest(span, gap), span / 2],
      columns: (span, tau) => [held(span), grown(span), evaporated(span, tau)],
      known: undefined,
      allows: (w) => at(w, 1) > 0 && at(w, 2) > 0 && at(w, 2) <= SATURATION_SLACK * saturation,
      rate: (w, tau, time) => at(w, 1) + (at(w, 2) / tau) * Math.exp(-time / tau),
    },
  ];
  const all = drifting ? [...shapes, ...driftingShapes(saturation, moistureRange)] : shapes;
  return slow ? all.filter(({ cause }) => cause === 'moisture' || cause === 'outgassing') : all;
}

/**
 * Moisture in a temperature that changes: its saturation pressure follows (a seventh for two kelvin), or, far below
 * saturation, the vapour that is there expands as a gas.
 */
function driftingShapes(saturation: number, range: Shape['range']): readonly Shape[] {
  const asGas = (span: Span, tau: number): Float64Array =>
    per(span.time.length, (i) => -at(span.warmth, i) * Math.expm1(-at(span.time, i) / tau));
  const fading = ({ time, warmth }: Span, tau: number): Float64Array =>
    per(time.length, (i) => at(warmth, i) * Math.exp(-at(time, i) / tau));
  return [
    {
      cause: 'moisture',
      name: 'rise to the saturation pressure as a gas',
      unknowns: 2,
      range,
      columns: (span, tau) => [fading(span, tau)],
      known: (span, tau) => asGas(span, tau).map((share) => share * saturation),
      allows: (w) => at(w, 0) < saturation,
      rate: (w, tau, time) => ((saturation - at(w, 0)) / tau) * Math.exp(-time / tau),
    },
    {
      cause: 'moisture',
      name: 'rise that levels off as a gas',
      unknowns: 3,
      range,
      columns: (span, tau) => [span.warmth.slice(), asGas(span, tau)],
      known: undefined,
      allows: (w) => at(w, 1) > 0 && at(w, 1) <= SATURATION_SLACK * saturation,
      rate: (w, tau, time) => (at(w, 1) / tau) * Math.exp(-time / tau),
    },
    {
      cause: 'moisture',
      name: 'rise to the saturation pressure of each moment',
      unknowns: 2,
      range,
      columns: (span, tau) => [fading(span, tau)],
      known: (span, tau) => followed(span, tau).map((share) => share * saturation),
      allows: (w) => at(w, 0) < saturation,
      rate: (w, tau, time) => ((saturation - at(w, 0)) / tau) * Math.exp(-time / tau),
    },
    {
      cause: 'moisture',
      name: 'rise to a level that follows the saturation pressure',
      unknowns: 3,
      range,
      columns: (span, tau) => [span.warmth.slice(), followed(span, tau)],
      known: undefined,
      allows: (w) => at(w, 1) > 0 && at(w, 1) <= SATURATION_SLACK * saturation,
      rate: (w, tau, time) => (at(w, 1) / tau) * Math.exp(-time / tau),
    },
  ];
}
