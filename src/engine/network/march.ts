import { A, ALPHA, C, GAMMA, GAMMA_SUM, M } from '../../numerics/rodas.ts';
import { type Balance, emptyEntries } from './balance.ts';
import { eliminate, solveEliminated } from './elimination.ts';

/** One step that was taken: pressures at both ends, by point. The arrays are used again. */
export interface NetworkStep {
  readonly from: number;
  readonly to: number;
  readonly before: Float64Array;
  readonly after: Float64Array;
}

export interface NetworkMarch {
  readonly time: number;
  readonly pressures: Float64Array;
  /** gas that the ports drew, Pa m3 */
  readonly drawn: number;
  /** gas that came in with the load, Pa m3 */
  readonly admitted: number;
  readonly steps: number;
  readonly refused: number;
  readonly evaluations: number;
  /** stopped by `onStep`, at the end of the time, or because steps ran out or shrank to nothing */
  readonly status: 'stopped' | 'end' | 'stuck';
}

export interface MarchOptions {
  /** largest error in one step of a pressure above `floor`, as a part of it; default 3e-5, which brings times within 1e-4 */
  readonly relative?: number;
  /** the pressure that nothing falls below, Pa; default 0 */
  readonly floor?: number;
  /** least excess over the floor that still counts, Pa; default 0 */
  readonly leastExcess?: number;
  /** times that a step must not cross (s, rising): corners of the load */
  readonly corners?: readonly number[];
  readonly mostSteps?: number;
}

const STAGES = 4;
const SAFETY = 0.9;
const SHRINK_MOST = 0.2;
const GROW_MOST = 4;
/** First step as a part of the shortest time in which a point would empty. */
const FIRST_STEP = 1e-3;
const DIFFERENCE = 1e-7;
/**
 * Most that the next step may let ln of an excess pressure fall, by what this step did: wider ones are too often passed by an
 * estimate that is small by chance.
 */
const FALL = 0.25;
/** A step this small against the time is none. */
const LEAST_STEP = 1e-14;
const DEFAULT_RELATIVE = 3e-5;
const MOST_STEPS = 6000;

/**
 * `first` + `by` (constant + f0 k0 + f1 k1 + f2 k2 + f3 k3) into `out`, element by element; the stages that are not there yet have no
 * factor. Gives whether all of it is above zero.
 */
function combine(
  out: Float64Array,
  first: Float64Array,
  by: Float64Array,
  constant: number,
  [f0 = 0, f1 = 0, f2 = 0, f3 = 0]: readonly number[],
  [k0 = out, k1 = out, k2 = out, k3 = out]: readonly Float64Array[],
): boolean {
  let positive = true;
  for (let i = 0; i < out.length; i++) {
    const sum = f0 * (k0[i] ?? 0) + f1 * (k1[i] ?? 0) + f2 * (k2[i] ?? 0) + f3 * (k3[i] ?? 0);
    const value = (first[i] ?? 0) + (by[i] ?? 0) * (constant + sum);
    out[i] = value;
    if (!(value > 0)) positive = false;
  }
  return positive;
}

/**
 * Integrates V dp/dt = F(t, p) from t = 0 with the stiff method of `numerics/rodas.ts` (L-stable, order 3 with an error
 * estimate of order 2), its Jacobian exact and sparse. What the ports draw is integrated along with the same stages, so
 * that the gas balance closes to rounding whatever the step.
 *
 * @param pressures at the start, Pa; becomes the result
 * @param until s
 * @param onStep gets each step; true stops the march
 */
export function marchNetwork(
  balance: Balance,
  pressures: Float64Array,
  until: number,
  onStep: (step: NetworkStep) => boolean,
  options: MarchOptions = {},
): NetworkMarch {
  const { relative = DEFAULT_RELATIVE, floor = 0, leastExcess = 0, corners = [], mostSteps = MOST_STEPS } = options;
  const { plan, volumes, jacobian, drawSlopes } = balance;
  const n = volumes.length;
  const factors = emptyEntries(plan);
  const k = Array.from({ length: STAGES }, () => new Float64Array(n));
  const drawnStage = new Float64Array(STAGES);
  const admittedStage = new Float64Array(STAGES);
  const at = new Float64Array(n);
  const ones = new Float64Array(n).fill(1);
  const flows = new Float64Array(n);
  const stageFlows = new Float64Array(n);
  const before = pressures;
  const after = new Float64Array(n);
  let time = 0;
  let drawn = 0;
  let admitted = 0;
  let steps = 0;
  let refused = 0;

  /** of ln of the excess in the step that was tried, where it fell most */
  let fall = 0;

  let drawnNow = balance.flows(0, before, flows, true);
  let quickest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < n; i++)
    quickest = Math.min(quickest, ((before[i] ?? 0) * (volumes[i] ?? 0)) / Math.abs(flows[i] ?? 0));
  let h = Math.min(until, FIRST_STEP * quickest);

  /** Tries a step of h; gives its error as a part of what is allowed, or NaN where no step could be formed. */
  const attempt = (): number => {
    const inverse = 1 / (h * GAMMA);
    factors.upper.set(jacobian.upper);
    factors.lower.set(jacobian.lower);
    for (let i = 0; i < n; i++) factors.diagonal[i] = (jacobian.diagonal[i] ?? 0) + (volumes[i] ?? 0) * inverse;
    if (!eliminate(plan, factors)) return Number.NaN;
    const load = balance.loadAt(time);
    const later = DIFFERENCE * Math.max(time, h);
    const loadSlope = (balance.loadAt(time + later) - load) / later;
    for (let stage = 0; stage < STAGES; stage++) {
      const out = k[stage] ?? at;
      const stageTime = time + (ALPHA[stage] ?? 0) * h;
      let draws = drawnNow;
      let source = flows;
      if (stage >= 2) {
        if (!combine(at, before, ones, 0, A[stage] ?? [], k)) return Number.NaN;
        draws = balance.flows(stageTime, at, stageFlows, false);
        source = stageFlows;
      }
      const slopePart = h * (GAMMA_SUM[stage] ?? 0) * loadSlope;
      const c = (C[stage] ?? []).map((factor) => factor / h);
      let drawnSum = draws;
      let admittedSum = balance.loadAt(stageTime) + slopePart;
      for (let j = 0; j < stage; j++) {
        drawnSum += (c[j] ?? 0) * (drawnStage[j] ?? 0);
        admittedSum += (c[j] ?? 0) * (admittedStage[j] ?? 0);
      }
      combine(out, source, volumes, slopePart / balance.volume, c, k);
      solveEliminated(plan, factors, out);
      for (const { node, slope } of drawSlopes) drawnSum += slope * (out[node] ?? 0);
      drawnStage[stage] = h * GAMMA * drawnSum;
      admittedStage[stage] = h * GAMMA * admittedSum;
    }
    if (!combine(after, before, ones, 0, M, k)) return Number.NaN;
    const estimate = k[STAGES - 1] ?? at;
    let worst = 0;
    let most = 1;
    for (let i = 0; i < n; i++) {
      const from = Math.max((before[i] ?? 0) - floor, leastExcess);
      const to = Math.max((after[i] ?? 0) - floor, leastExcess);
      const error = Math.abs(estimate[i] ?? 0) / Math.min(from, to);
      if (error > worst) worst = error;
      if (from > most * to) most = from / to;
    }
    fall = Math.log(most);
    return worst / relative;
  };

  let status: NetworkMarch['status'] = 'stuck';
  let corner = corners.find((one) => one > 0) ?? Number.POSITIVE_INFINITY;
  while (steps + refused < mostSteps) {
    const end = Math.min(until, corner);
    // a step that would all but end there ends there
    const last = time + h * (1 + 1e-9) >= end;
    if (last) h = end - time;
    const error = attempt();
    if (!(error <= 1)) {
      refused += 1;
      h *= Number.isNaN(error) ? SHRINK_MOST : Math.max(SHRINK_MOST, SAFETY * error ** (-1 / 3));
      if (h <= LEAST_STEP * time || !(h > 0)) break;
      continue;
    }
    steps += 1;
    const from = time;
    time = last ? end : time + h;
    for (let j = 0; j < STAGES; j++) {
      drawn += (M[j] ?? 0) * (drawnStage[j] ?? 0);
      admitted += (M[j] ?? 0) * (admittedStage[j] ?? 0);
    }
    drawnNow = balance.flows(time, after, flows, true);
    const stop = onStep({ from, to: time, before, after });
    before.set(after);
    if (stop || time >= until) {
      status = stop ? 'stopped' : 'end';
      break;
    }
    if (time === corner) corner = corners.find((one) => one > time) ?? Number.POSITIVE_INFINITY;
    h *= Math.min(GROW_MOST, FALL / fall, Math.max(SHRINK_MOST, SAFETY * Math.max(error, 1e-9) ** (-1 / 3)));
  }
  return { time, pressures: before, drawn, admitted, steps, refused, evaluations: balance.work.evaluations, status };
}
