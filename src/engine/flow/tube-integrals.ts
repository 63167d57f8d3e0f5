import { GAUSS_3 } from '../../numerics/quadrature.ts';
import { inertiaWeight } from './inertia.ts';
import { MOLECULAR_POISEUILLE, poiseuille, SLIP } from './poiseuille.ts';
import { transmission } from './transmission.ts';

/**
 * The two integrals of the tube equation, tabulated once for a ratio of length to radius.
 *
 * With lambda(delta) = L_eff/a, in units of the tube's own pressure mu v0/a (pressure = rarefaction delta):
 *   pull(delta) = integral of 8 G_P/lambda d(delta)            what friction takes
 *   push(delta) = integral of 8 G_P/lambda w/delta^2 d(delta)  what the gas's own acceleration takes
 * Both depend on L/a alone: gas, temperature and bore enter as scales only.
 *
 * Nodes are evenly spaced in ln(delta). Between nodes pull is a cubic in delta (exact in its molecular and viscous
 * limits, where it is linear and quadratic) and push a cubic in ln(delta) (linear in both limits), each with the exact
 * integrand as slope at the nodes. Relative error below 1e-6, checked by brute force in the tests.
 */
export interface TubeIntegrals {
  /** L_eff/a of the rarefied end: (8/3)/alpha(L/a) */
  readonly molecularLength: number;
  /** L_eff/a of the viscous end: L/a + 3 pi/8 */
  readonly viscousLength: number;
  readonly pull: Float64Array;
  /** d(pull)/d(delta) at the nodes */
  readonly pullSlope: Float64Array;
  readonly push: Float64Array;
  /** d(push)/d(ln delta) at the nodes */
  readonly pushSlope: Float64Array;
}

/** End correction of a tube in viscous flow, in radii, both ends. Source: Weissberg, Phys. Fluids 5 (1962) 1033. */
export const VISCOUS_END = (3 * Math.PI) / 8;

const FIRST = Math.log(1e-9);
const LAST = Math.log(1e8);
export const NODES = 273;
const STEP = (LAST - FIRST) / (NODES - 1);

/** Rarefaction at the nodes. */
export const DELTA = Float64Array.from({ length: NODES }, (_, i) => Math.exp(FIRST + i * STEP));

/** G_P and w/delta at the nodes and at the quadrature points of each panel are the same for every tube. */
const POINTS = GAUSS_3.nodes.length;
const WEIGHT = Float64Array.from(GAUSS_3.weights);
const DELTA_POINT = Float64Array.from({ length: (NODES - 1) * POINTS }, (_, k) => {
  const node = GAUSS_3.nodes[k % POINTS] ?? 0;
  return Math.exp(FIRST + (Math.floor(k / POINTS) + 0.5 + 0.5 * node) * STEP);
});
const G_NODE = DELTA.map(poiseuille);
const G_POINT = DELTA_POINT.map(poiseuille);
const inertiaPerDelta = (delta: number): number => inertiaWeight(delta) / delta;
const W_NODE = DELTA.map(inertiaPerDelta);
const W_POINT = DELTA_POINT.map(inertiaPerDelta);

/** 8 G_P/lambda with lambda = m (8/3)/alpha + (1 - m)(L/a + 3 pi/8), m = 1/(1 + delta). */
function integrand(molecularLength: number, viscousLength: number, delta: number, g: number): number {
  return (8 * g * (1 + delta)) / (molecularLength + delta * viscousLength);
}

/** Tabulates both integrals for a tube with L/a = `lengthInRadii`. */
export function tubeIntegrals(lengthInRadii: number): TubeIntegrals {
  const molecularLength = 8 / 3 / transmission(lengthInRadii);
  const viscousLength = lengthInRadii + VISCOUS_END;
  const pull = new Float64Array(NODES);
  const push = new Float64Array(NODES);
  const pullSlope = new Float64Array(NODES);
  const pushSlope = new Float64Array(NODES);
  let pulled = integrand(molecularLength, viscousLength, 0, MOLECULAR_POISEUILLE) * (DELTA[0] ?? 0);
  let pushed = 0;
  for (let i = 0; i < NODES; i++) {
    const atNode = integrand(molecularLength, viscousLength, DELTA[i] ?? 0, G_NODE[i] ?? 0);
    pull[i] = pulled;
    push[i] = pushed;
    pullSlope[i] = atNode;
    pushSlope[i] = atNode * (W_NODE[i] ?? 0);
    if (i === NODES - 1) break;
    let pullPart = 0;
    let pushPart = 0;
    for (let j = 0; j < POINTS; j++) {
      const k = i * POINTS + j;
      const delta = DELTA_POINT[k] ?? 0;
      const slope = (WEIGHT[j] ?? 0) * integrand(molecularLength, viscousLength, delta, G_POINT[k] ?? 0);
      pullPart += slope * delta;
      pushPart += slope * (W_POINT[k] ?? 0);
    }
    pulled += 0.5 * STEP * pullPart;
    pushed += 0.5 * STEP * pushPart;
  }
  return { molecularLength, viscousLength, pull, pullSlope, push, pushSlope };
}

export function panelOfLn(lnDelta: number): number {
  const i = Math.floor((lnDelta - FIRST) / STEP);
  return Math.max(0, Math.min(i, NODES - 2));
}

export function panelOfDelta(delta: number): number {
  return panelOfLn(Math.log(delta));
}

/** pull at any delta >= 0, `panel` its panel from `panelOfDelta`. */
export function pullAt(t: TubeIntegrals, delta: number, panel: number): number {
  const d0 = DELTA[panel] ?? 0;
  const d1 = DELTA[panel + 1] ?? 0;
  const y0 = t.pull[panel] ?? 0;
  const y1 = t.pull[panel + 1] ?? 0;
  // below the table, molecular
  if (delta < d0) return (y0 * delta) / d0;
  // beyond the table G_P = delta/4 + slip and the length is the viscous one
  if (delta > d1) return y1 + ((delta - d1) * (delta + d1 + 8 * SLIP)) / t.viscousLength;
  const s0 = t.pullSlope[panel] ?? 0;
  const s1 = t.pullSlope[panel + 1] ?? 0;
  const h = d1 - d0;
  const u = (delta - d0) / h;
  const rise = (y1 - y0) / h;
  return y0 + (delta - d0) * (s0 + u * (3 * rise - 2 * s0 - s1 + u * (s0 + s1 - 2 * rise)));
}

/** d(pull)/d(delta), linear between nodes: enough for a Newton step. */
export function pullSlopeAt(t: TubeIntegrals, delta: number, panel: number): number {
  const d0 = DELTA[panel] ?? 0;
  const d1 = DELTA[panel + 1] ?? 0;
  const s0 = t.pullSlope[panel] ?? 0;
  const s1 = t.pullSlope[panel + 1] ?? 0;
  return s0 + ((s1 - s0) * (delta - d0)) / (d1 - d0);
}

/** The slope that belongs to `pullAt`, at any delta >= 0. */
export function pullRiseAt(t: TubeIntegrals, delta: number, panel: number): number {
  const d0 = DELTA[panel] ?? 0;
  const d1 = DELTA[panel + 1] ?? 0;
  const y0 = t.pull[panel] ?? 0;
  if (panel === 0 && delta < d0) return y0 / d0;
  if (panel === NODES - 2 && delta > d1) return (2 * delta + 8 * SLIP) / t.viscousLength;
  const s0 = t.pullSlope[panel] ?? 0;
  const s1 = t.pullSlope[panel + 1] ?? 0;
  const h = d1 - d0;
  const u = (delta - d0) / h;
  const rise = ((t.pull[panel + 1] ?? 0) - y0) / h;
  return s0 + u * (2 * (3 * rise - 2 * s0 - s1) + 3 * u * (s0 + s1 - 2 * rise));
}

/** push at any delta > 0. */
export function pushAt(t: TubeIntegrals, delta: number, panel: number): number {
  return pushAtLn(t, Math.log(delta), panel);
}

/** The same from the logarithm. */
export function pushAtLn(t: TubeIntegrals, lnDelta: number, panel: number): number {
  const x = lnDelta - (FIRST + panel * STEP);
  const y0 = t.push[panel] ?? 0;
  const s0 = t.pushSlope[panel] ?? 0;
  if (x < 0) return y0 + x * s0;
  const y1 = t.push[panel + 1] ?? 0;
  const s1 = t.pushSlope[panel + 1] ?? 0;
  const u = x / STEP;
  if (u > 1) return y1 + (x - STEP) * s1;
  const rise = (y1 - y0) / STEP;
  return y0 + x * (s0 + u * (3 * rise - 2 * s0 - s1 + u * (s0 + s1 - 2 * rise)));
}
