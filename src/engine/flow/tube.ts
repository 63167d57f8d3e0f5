import type { WorkCount } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';
import { churchill } from './friction.ts';
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
 * Rarefaction at the tube's inner inlet for a flow of Reynolds number `re`, outlet rarefaction `exit`, when
 * pull - beta push rises from the exit by `wanted`. The table itself brackets the root; Newton's method ends it.
 */
function inlet(t: TubeIntegrals, exit: number, beta: number, wanted: number, count?: WorkCount): number {
  const exitPanel = exit > 0 ? panelOfDelta(exit) : 0;
  const inertia = beta > 0 && exit > 0;
  const base = pullAt(t, exit, exitPanel) - (inertia ? beta * pushAt(t, exit, exitPanel) : 0) + wanted;
  let low = exitPanel;
  let high = NODES - 1;
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if ((t.pull[mid] ?? 0) - beta * (t.push[mid] ?? 0) < base) low = mid;
    else high = mid;
  }
  const panel = low;
  let lo = panel === exitPanel ? exit : (DELTA[panel] ?? 0);
  let hi = DELTA[panel + 1] ?? 0;
  // past the last node: viscous, pull = delta^2/viscousLength at least, so the sum of squares bounds the root
  const last = (t.pull[NODES - 1] ?? 0) - beta * (t.push[NODES - 1] ?? 0);
  if (panel === NODES - 2 && last < base) {
    lo = Math.max(lo, hi);
    hi = 2 * lo;
    while (pullAt(t, hi, panel) - beta * pushAt(t, hi, panel) < base) {
      lo = hi;
      hi *= 2;
    }
  }
  let x = hi;
  for (let step = 0; step < MOST_STEPS; step++) {
    if (count !== undefined) count.evaluations++;
    const y = pullAt(t, x, panel) - (inertia || beta > 0 ? beta * pushAt(t, x, panel) : 0) - base;
    if (y >= 0) hi = x;
    else lo = x;
    const slope = pullSlopeAt(t, x, panel) * (1 - beta / (x * (1 + x)));
    let next = x - y / slope;
    if (!(next > lo && next < hi)) next = 0.5 * (lo + hi);
    if (y === 0 || Math.abs(next - x) <= TOLERANCE * x || hi - lo <= TOLERANCE * hi) return y === 0 ? x : next;
    x = next;
  }
  return x;
}

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
 * In the continuum the isothermal choking is some 3 % from the adiabatic one for a short tube of air.
 * Source: isothermal duct flow with friction (White, Fluid Mechanics, 9.7) with G_P of the kinetic equation, and
 * weights of inertia and of the two end corrections that are this project's own choice.
 */
export function prepareTube(
  passage: Extract<Passage, { kind: 'tube' }>,
  gas: GasState,
  count?: WorkCount,
): PreparedPassage {
  const radius = passage.bore / 2;
  const t = tubeIntegrals(passage.length / radius);
  const scale = (gas.viscosity * gas.probableSpeed) / radius;
  const roughness = passage.roughness / passage.bore;
  const { loss } = passage;
  // Q = G A R_s T = Re (mu/D) A R_s T
  const throughputPerRe =
    (gas.viscosity / passage.bore) * Math.PI * radius * radius * gas.specificGasConstant * gas.temperature;

  const upstreamOf = (re: number, exitDelta: number): number => {
    const beta = (re * re) / 8;
    // root of delta (1 + delta) = beta, the choked exit
    const choked = (2 * beta) / (1 + Math.sqrt(1 + 4 * beta));
    const exit = Math.max(exitDelta, choked);
    // (f/D) B L_eff in these units: beta f/2, which is 4 Re when laminar
    const inner = inlet(t, exit, beta, 0.5 * beta * churchill(re, roughness), count);
    return Math.sqrt(inner * inner + (loss * beta * inner) / (1 + inner));
  };

  return {
    passage,
    gas,
    bore: passage.bore,
    upstreamPressure(throughput, downstream) {
      if (!(throughput > 0)) return downstream;
      return scale * upstreamOf(throughput / throughputPerRe, downstream / scale);
    },
    throughput(upstream, downstream) {
      if (!(upstream > downstream)) return 0;
      const up = upstream / scale;
      const down = downstream / scale;
      // friction alone, laminar: inertia, losses and turbulence only lower the flow
      const most = 0.25 * (pullAt(t, up, panelOfDelta(up)) - (down > 0 ? pullAt(t, down, panelOfDelta(down)) : 0));
      return throughputPerRe * flowFor(most, up, down, upstreamOf);
    },
  };
}

/** Reynolds number at which `upstreamOf` gives `up`; `most` bounds it from above. */
function flowFor(most: number, up: number, down: number, upstreamOf: (re: number, exit: number) => number): number {
  // in terms of the pressure excess: near-linear in the logarithms, slope between 1 and 2
  const wanted = up - down;
  let high = most;
  let low = 0;
  let x = most;
  for (let step = 0; step < MOST_STEPS; step++) {
    const excess = upstreamOf(x, down) - down;
    if (excess >= wanted) high = x;
    else low = x;
    const h = x * 1e-4;
    const slope = (upstreamOf(x + h, down) - down - excess) / h;
    let next = x - (excess - wanted) / slope;
    if (!(next > low && next < high)) next = low > 0 ? Math.sqrt(low * high) : high * Math.min(0.9, wanted / excess);
    if (Math.abs(next - x) <= 1e-11 * x || high - low <= 1e-14 * high) return next;
    x = next;
  }
  return x;
}
