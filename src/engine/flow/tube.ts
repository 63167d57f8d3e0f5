import { findRisingRoot, type WorkCount } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';
import { churchill } from './friction.ts';
import { chokedExit, inertiaPerSquare } from './inertia.ts';
import type { Passage, PreparedPassage } from './passage.ts';
import {
  DELTA,
  NODES,
  panelOfDelta,
  pullAt,
  pullSlopeAt,
  pushAt,
  type TubeIntegrals,
  tubeIntegrals,
} from './tube-integrals.ts';

/** Loss of a hose or tube: sharp entrance 0.5, velocity head lost at the exit 1. Source: any fluid mechanics text. */
export const DEFAULT_TUBE_LOSS = 1.5;

const TOLERANCE = 1e-12;
const MOST_STEPS = 80;

/**
 * A tube or hose in every regime, made ready for one gas.
 *
 * With q = p^2, B = G^2 R_s T, w = delta/(1 + delta) at the local pressure, per unit of length against the flow:
 *
 *   dq/ds (1 - B w/q) = B (f(Re, e/D)/D) ((delta/4)/G_P(delta)) L_eff(delta)
 *
 * from the exit at p_e = max(p2, p_choke), p_choke^2 = B w, to the inner inlet p1'; then p1^2 = p1'^2 + K B w(p1').
 * Isothermal: Re = G D/mu is the same all along the tube, so the equation separates into the two integrals of
 * `tube-integrals.ts`, and one monotone root is left. In units of mu v0/a the pressure is delta and B is Re^2/8.
 *
 * @param passage bore, length, absolute roughness in m; loss K without unit
 * Limits: molecular, slip, laminar, turbulent and choked flow of a perfect gas at one temperature; diffuse walls.
 * In the continuum isothermal choking lies a few per cent from adiabatic. Tubes shorter than about ten radii read up to
 * 20 % low in the transition regime (delta 0.5 to 30) against coarse particle simulations: there inertia and choking
 * come in too early.
 * Source: isothermal duct flow with friction (White, Fluid Mechanics, 9.7) with G_P of the kinetic equation, and
 * weights of inertia and of the two end corrections that are this project's own choice.
 */
export function prepareTube(
  passage: Extract<Passage, { kind: 'tube' }>,
  gas: GasState,
  count?: WorkCount,
): PreparedPassage {
  const { bore, length, loss } = passage;
  const radius = bore / 2;
  const t = tubeIntegrals(length / radius);
  const scale = (gas.viscosity * gas.probableSpeed) / radius;
  const relativeRoughness = passage.roughness / bore;
  // Q = G A R_s T = Re (mu/D) A R_s T
  const area = Math.PI * radius * radius;
  const throughputPerRe = (gas.viscosity / bore) * area * gas.specificGasConstant * gas.temperature;

  const upstreamOf = (re: number, downstream: number): number => {
    const beta = (re * re) / 8;
    const exit = Math.max(downstream, chokedExit(beta));
    // (f/D) B L_eff in these units: beta f/2 = Re (f Re)/16, which is 4 Re when laminar
    const friction = (re / 16) * (re * churchill(re, relativeRoughness));
    const inner = innerInlet(t, exit, beta, friction, count);
    return inner * Math.sqrt(1 + loss * beta * inertiaPerSquare(inner));
  };

  return {
    passage,
    gas,
    bore,
    upstreamPressure(throughput, downstream) {
      if (!(throughput > 0)) return downstream;
      return scale * upstreamOf(throughput / throughputPerRe, downstream / scale);
    },
    throughput(upstream, downstream) {
      if (!(upstream > downstream)) return 0;
      return throughputPerRe * reynoldsFor(t, upstream / scale, downstream / scale, upstreamOf);
    },
  };
}

/**
 * Rarefaction at the tube's inner inlet, where pull - beta push has risen from the exit by `wanted`; it rises
 * everywhere above the choked exit. The table itself brackets the root, Newton's method ends it.
 */
function innerInlet(t: TubeIntegrals, exit: number, beta: number, wanted: number, count?: WorkCount): number {
  const risen = (delta: number, panel: number): number => {
    if (count !== undefined) count.evaluations++;
    // beta falls to nothing where Re^2 underflows; push has no value at delta 0
    return pullAt(t, delta, panel) - (beta > 0 ? beta * pushAt(t, delta, panel) : 0);
  };
  const atNode = (i: number): number => (t.pull[i] ?? 0) - beta * (t.push[i] ?? 0);
  const exitPanel = panelOfDelta(exit);
  const target = risen(exit, exitPanel) + wanted;
  let panel = exitPanel;
  let above = NODES - 1;
  while (above - panel > 1) {
    const mid = (panel + above) >> 1;
    if (atNode(mid) < target) panel = mid;
    else above = mid;
  }
  const node = DELTA[panel + 1] ?? 0;
  let most = Math.max(node, exit);
  while (panel === NODES - 2 && risen(most, panel) < target) most *= 2;
  // along the chord of the panel
  const low = panel === exitPanel ? exit : (DELTA[panel] ?? 0);
  const atLow = panel === exitPanel ? target - wanted : atNode(panel);
  const chord = low + ((node - low) * (target - atLow)) / (atNode(panel + 1) - atLow);
  let x = chord > low && chord < most ? chord : most;
  for (let left = MOST_STEPS; left > 0; left--) {
    const slope = pullSlopeAt(t, x, panel) * (1 - beta * inertiaPerSquare(x));
    const next = Math.min(most, x - (risen(x, panel) - target) / slope);
    if (Math.abs(next - x) <= TOLERANCE * x) return next;
    x = next;
  }
  return x;
}

/** Reynolds number of the flow from rarefaction `up` to `down`: the root of `upstreamOf`, which rises with it. */
function reynoldsFor(
  t: TubeIntegrals,
  up: number,
  down: number,
  upstreamOf: (re: number, downstream: number) => number,
): number {
  // laminar friction alone: inertia, losses and turbulence only lower the flow
  const free = pullAt(t, up, panelOfDelta(up)) - pullAt(t, down, panelOfDelta(down));
  // the logarithm of the pressure difference rises with that of Re, slope about 1/2 to 2
  const wanted = up - down;
  const excess = (x: number): number => Math.log((upstreamOf(Math.exp(x), down) - down) / wanted);
  return Math.exp(findRisingRoot(excess, Math.log(0.25 * free), { slope: 1, absolute: 1e-11 }));
}
