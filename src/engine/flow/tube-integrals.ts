import { GAUSS_3 } from '../../numerics/quadrature.ts';
import { MOLECULAR_POISEUILLE, poiseuille, SLIP } from './poiseuille.ts';
import { transmission } from './transmission.ts';

/**
 * The two integrals of the tube equation, tabulated once for a ratio of length to radius.
 *
 * With lambda(delta) = L_eff/a, in units of the tube's own pressure mu v0/a (pressure = rarefaction delta):
 *   pull(delta) = integral of 8 G_P/lambda d(delta)                     what friction takes
 *   push(delta) = integral of 8 G_P/(delta (1 + delta) lambda) d(delta) what the gas's own acceleration takes
 * Both depend on L/a alone: gas, temperature and bore enter as scales only.
 *
 * Nodes are evenly spaced in ln(delta). Between nodes pull is a cubic in delta (exact in its molecular and viscous
 * limits, where it is linear and quadratic) and push a cubic in ln(delta) (linear in both limits), each with the exact
 * integrand as slope at the nodes. Relative error below 1e-6 in value and slope, checked by brute force in the tests.
 */
export interface TubeIntegrals {
  /** L_eff/a of the rarefied end: (8/3)/alpha(L/a) */
  readonly molecularLength: number;
  /** L_eff/a of the viscous end: L/a + 3 pi/8 */
  readonly viscousLength: number;
  readonly pull: Float64Array;
  readonly push: Float64Array;
}

/** End correction of a tube in viscous flow, in radii (both ends). Source: Sampson flow through an orifice, Weissberg (1962). */
export const VISCOUS_END = (3 * Math.PI) / 8;

export const FIRST = Math.log(1e-9);
const LAST = Math.log(1e8);
export const NODES = 273;
export const STEP = (LAST - FIRST) / (NODES - 1);

/** Rarefaction at the nodes, G_P there, and G_P at the quadrature points of each panel: the same for every tube. */
export const DELTA = new Float64Array(NODES);
const G_NODE = new Float64Array(NODES);
const POINTS = GAUSS_3.nodes.length;
const DELTA_POINT = new Float64Array((NODES - 1) * POINTS);
const G_POINT = new Float64Array((NODES - 1) * POINTS);
for (let i = 0; i < NODES; i++) {
  const delta = Math.exp(FIRST + i * STEP);
  DELTA[i] = delta;
  G_NODE[i] = poiseuille(delta);
  if (i === NODES - 1) continue;
  GAUSS_3.nodes.forEach((node, j) => {
    const at = Math.exp(FIRST + (i + 0.5 + 0.5 * node) * STEP);
    DELTA_POINT[i * POINTS + j] = at;
    G_POINT[i * POINTS + j] = poiseuille(at);
  });
}

/** Dimensionless effective length L_eff/a, m (8/3)/alpha + (1 - m)(L/a + 3 pi/8) with m = 1/(1 + delta). */
function effectiveLength(t: TubeIntegrals, delta: number): number {
  return (t.molecularLength + delta * t.viscousLength) / (1 + delta);
}

/** d(pull)/d(delta), from G_P at that delta. */
function pullSlope(t: TubeIntegrals, delta: number, g: number): number {
  return (8 * g) / effectiveLength(t, delta);
}

/** d(push)/d(ln delta) */
function pushSlope(t: TubeIntegrals, delta: number, g: number): number {
  return pullSlope(t, delta, g) / (1 + delta);
}

/** Tabulates both integrals for a tube with L/a = `lengthInRadii`. */
export function tubeIntegrals(lengthInRadii: number): TubeIntegrals {
  const t: TubeIntegrals = {
    molecularLength: 8 / 3 / transmission(lengthInRadii),
    viscousLength: lengthInRadii + VISCOUS_END,
    pull: new Float64Array(NODES),
    push: new Float64Array(NODES),
  };
  const [w0 = 0, w1 = 0, w2 = 0] = GAUSS_3.weights;
  const weights = [w0, w1, w2];
  let pull = pullSlope(t, 0, MOLECULAR_POISEUILLE) * (DELTA[0] ?? 0);
  let push = 0;
  t.pull[0] = pull;
  for (let i = 0; i < NODES - 1; i++) {
    let pullPart = 0;
    let pushPart = 0;
    for (let j = 0; j < POINTS; j++) {
      const delta = DELTA_POINT[i * POINTS + j] ?? 0;
      const slope = (weights[j] ?? 0) * pullSlope(t, delta, G_POINT[i * POINTS + j] ?? 0);
      pullPart += slope * delta;
      pushPart += slope / (1 + delta);
    }
    pull += 0.5 * STEP * pullPart;
    push += 0.5 * STEP * pushPart;
    t.pull[i + 1] = pull;
    t.push[i + 1] = push;
  }
  return t;
}

export function panelOfDelta(delta: number): number {
  const i = Math.floor((Math.log(delta) - FIRST) / STEP);
  return Math.max(0, Math.min(i, NODES - 2));
}

/** pull at any delta >= 0, `panel` its panel from `panelOfDelta`. */
export function pullAt(t: TubeIntegrals, delta: number, panel: number): number {
  const d0 = DELTA[panel] ?? 0;
  const d1 = DELTA[panel + 1] ?? 0;
  if (delta < d0) return pullSlope(t, 0, MOLECULAR_POISEUILLE) * delta;
  const y1 = t.pull[panel + 1] ?? 0;
  // beyond the table G_P = delta/4 + slip and the length is the viscous one
  if (delta > d1) return y1 + ((delta - d1) * (delta + d1 + 8 * SLIP)) / t.viscousLength;
  const y0 = t.pull[panel] ?? 0;
  const s0 = pullSlope(t, d0, G_NODE[panel] ?? 0);
  const s1 = pullSlope(t, d1, G_NODE[panel + 1] ?? 0);
  const h = d1 - d0;
  const u = (delta - d0) / h;
  const rise = (y1 - y0) / h;
  return y0 + (delta - d0) * (s0 + u * (3 * rise - 2 * s0 - s1 + u * (s0 + s1 - 2 * rise)));
}

/** push at any delta > 0. */
export function pushAt(t: TubeIntegrals, delta: number, panel: number): number {
  const x = Math.log(delta);
  const x0 = FIRST + panel * STEP;
  const s0 = pushSlope(t, DELTA[panel] ?? 0, G_NODE[panel] ?? 0);
  const y0 = t.push[panel] ?? 0;
  if (x < x0) return y0 + (x - x0) * s0;
  const s1 = pushSlope(t, DELTA[panel + 1] ?? 0, G_NODE[panel + 1] ?? 0);
  const y1 = t.push[panel + 1] ?? 0;
  const u = (x - x0) / STEP;
  if (u > 1) return y1 + (x - x0 - STEP) * s1;
  const rise = (y1 - y0) / STEP;
  return y0 + (x - x0) * (s0 + u * (3 * rise - 2 * s0 - s1 + u * (s0 + s1 - 2 * rise)));
}

/** d(pull)/d(delta) of the exact integrand; G_P is interpolated linearly, which is enough for a Newton step. */
export function pullSlopeAt(t: TubeIntegrals, delta: number, panel: number): number {
  const d0 = DELTA[panel] ?? 0;
  const d1 = DELTA[panel + 1] ?? 0;
  const g0 = G_NODE[panel] ?? 0;
  const g1 = G_NODE[panel + 1] ?? 0;
  return pullSlope(t, delta, g0 + ((g1 - g0) * (delta - d0)) / (d1 - d0));
}
