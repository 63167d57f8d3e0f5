import type { WorkCount } from '../../numerics/root.ts';
import { chokedExit } from '../flow/inertia.ts';
import { panelOfDelta, panelOfLn, pullAt, pullRiseAt, pushAtLn, tubeIntegrals } from '../flow/tube-integrals.ts';
import type { GasState } from '../gas/state.ts';
import { type Friction, type FrictionTable, frictionTable, LAMINAR } from './friction-table.ts';
import type { LineLaw, LinePoint, SegmentFlow } from './law.ts';

/** Wall of drawn copper tube, m. Source: drawn tubing in the usual tables of roughness (White, Fluid Mechanics). */
export const DRAWN_ROUGHNESS = 1.5e-6;

/** A tube so long that its ends do not count: the integrals are those of a piece of pipe, times this. */
const ENDLESS = 1e12;
const PIECE = tubeIntegrals(ENDLESS);

/** Under this part of the pressure gradient, what the gas's own acceleration takes is left out. */
const NO_INERTIA = 1e-7;
/** Where a step is no longer than this part, the next one by Newton would be no longer than about its square. */
const NEAR = 1e-6;
const MOST_STEPS = 60;

function pull(delta: number): number {
  return ENDLESS * pullAt(PIECE, delta, panelOfDelta(delta));
}
function push(delta: number): number {
  const ln = Math.log(delta);
  return ENDLESS * pushAtLn(PIECE, ln, panelOfLn(ln));
}

/**
 * The tube equation of `prepareTube` for a piece of a long pipe: no ends, no entrance loss, the throughput taken as the
 * same all along the piece. With delta = p a/(mu v0), B = Re^2/8:
 *
 *   [pull(d1) - pull(d2)] - B [push(d1) - push(d2)] = (dx/a) Re^2 f(Re)/16
 *
 * Laminar and without inertia this is Q = (psi(p1) - psi(p2))/dx with psi' = pi a^3 v0 G_P(delta)/2, molecular to
 * viscous. Early in a pull-down turbulence (Churchill) and inertia with its choking bound the flow; they fade by
 * themselves.
 *
 * @param bore m
 * @param roughness m
 * @param count counts the tries of its searches
 * Limits: those of `prepareTube`; the gas's acceleration in time is left out (pressure waves die within seconds).
 */
export function tubeLaw(gas: GasState, bore: number, roughness: number = DRAWN_ROUGHNESS, count?: WorkCount): LineLaw {
  const radius = bore / 2;
  const area = Math.PI * radius * radius;
  const scale = (gas.viscosity * gas.probableSpeed) / radius;
  const throughputPerRe = (gas.viscosity / bore) * area * gas.specificGasConstant * gas.temperature;
  const perPotential = (throughputPerRe * radius) / 4;
  const perConductivity = (perPotential * ENDLESS) / scale;
  const table = frictionTable(roughness / bore);
  return {
    area,
    at(pressure, out) {
      const delta = pressure / scale;
      const ln = Math.log(delta);
      const panel = panelOfLn(ln);
      out.pressure = pressure;
      out.potential = perPotential * ENDLESS * pullAt(PIECE, delta, panel);
      out.conductivity = perConductivity * pullRiseAt(PIECE, delta, panel);
      out.rarefaction = delta;
      out.push = ENDLESS * pushAtLn(PIECE, ln, panel);
    },
    restrain(laminar, upper, lower, length, near, out) {
      const re = laminar / throughputPerRe;
      if (re < LAMINAR && re * re < 8 * NO_INERTIA * choking(lower.rarefaction)) {
        out.flow = laminar;
        out.upperShare = 1;
        out.lowerShare = 1;
        return;
      }
      restrained(re, upper, lower, length / radius, near / throughputPerRe, table, out, count);
      out.flow *= throughputPerRe;
    },
  };
}

/** B = Re^2/8 at which the flow chokes where it leaves at this rarefaction: delta^2/w(delta), see `flow/inertia.ts`. */
function choking(rarefaction: number): number {
  return rarefaction * (1 + rarefaction);
}

const friction: Friction = { taken: Number.NaN, power: Number.NaN };

/** Root of the piece's equation from the laminar Reynolds number, which is its upper bound; `out.flow` gets Re. */
function restrained(
  laminar: number,
  upper: LinePoint,
  lower: LinePoint,
  radii: number,
  near: number,
  table: FrictionTable,
  out: SegmentFlow,
  count?: WorkCount,
): void {
  const up = upper.rarefaction;
  const down = lower.rarefaction;
  const fall = 4 * laminar * radii;
  const bothPushed = upper.push - lower.push;
  // laminar and not choked, the equation is quadratic
  const square = (2 * laminar) / (1 + Math.sqrt(1 + (laminar * bothPushed) / (8 * radii)));
  if (square < LAMINAR && square * square <= 8 * choking(down)) {
    const slope = 4 * radii + (square / 4) * bothPushed;
    settle(square, slope, radii, up, down, false, out);
    return;
  }
  let low = 0;
  // more would choke where it comes in
  let high = Math.min(laminar, Math.sqrt(8 * choking(up)));
  let re = near > 0 ? Math.min(near, high) : 0.5 * high;
  let slope = 1;
  let choked = false;
  for (let left = MOST_STEPS; left > 0; left--) {
    if (count !== undefined) count.evaluations++;
    const beta = (re * re) / 8;
    const exit = chokedExit(beta);
    choked = exit > down;
    const pushed = choked ? upper.push - push(exit) : bothPushed;
    const pulled = choked ? fall - (pull(exit) - pull(down)) : fall;
    table(re, friction);
    const { taken, power } = friction;
    const excess = radii * taken + beta * pushed - pulled;
    slope = (radii * taken * power) / re + (re / 4) * pushed;
    if (excess > 0) high = re;
    else low = re;
    const newton = re - excess / slope;
    const next = newton >= low && newton <= high ? newton : 0.5 * (low + high);
    const moved = Math.abs(next - re);
    re = next;
    if (moved <= NEAR * re) break;
  }
  settle(re, slope, radii, up, down, choked, out);
}

/** Writes Re and the shares of the slopes; `slope` is that of what is taken by friction and inertia, over Re. */
function settle(
  re: number,
  slope: number,
  radii: number,
  up: number,
  down: number,
  choked: boolean,
  out: SegmentFlow,
): void {
  const beta = (re * re) / 8;
  const share = (4 * radii) / slope;
  out.flow = re;
  out.upperShare = share * (1 - beta / choking(up));
  out.lowerShare = choked ? 0 : share * (1 - beta / choking(down));
}
