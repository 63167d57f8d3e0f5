import { chokedExit, inertiaWeight } from '../flow/inertia.ts';
import { poiseuille } from '../flow/poiseuille.ts';
import { panelOfDelta, pullAt, pushAt, tubeIntegrals } from '../flow/tube-integrals.ts';
import type { GasState } from '../gas/state.ts';
import { type FrictionTable, frictionTable, LAMINAR } from './friction-table.ts';
import type { LineLaw, SegmentFlow } from './law.ts';

/** Wall of drawn copper tube, m. Source: drawn tubing in the usual tables of roughness (White, Fluid Mechanics). */
export const DRAWN_ROUGHNESS = 1.5e-6;

/** A tube so long that its ends do not count: the integrals are those of a piece of pipe, times this. */
const ENDLESS = 1e12;
const PIECE = tubeIntegrals(ENDLESS);

/** Under this part of the pressure gradient, what the gas's own acceleration takes is left out. */
const NO_INERTIA = 1e-7;
/** Re^1.75 times this is Re^2 f/16 of turbulent flow in a smooth tube, f = 0.316/Re^0.25 (Blasius): a first guess. */
const BLASIUS = 0.316 / 16;
const TOLERANCE = 1e-11;
const MOST_STEPS = 60;

const pull = (delta: number): number => ENDLESS * pullAt(PIECE, delta, panelOfDelta(delta));
const push = (delta: number): number => ENDLESS * pushAt(PIECE, delta, panelOfDelta(delta));

/** push at both ends of a segment; a chain is walked along, so that one of them was an end of the segment before. */
const ends = { up: Number.NaN, pushUp: 0, down: Number.NaN, pushDown: 0 };
function pushKnown(delta: number): number {
  if (delta === ends.up) return ends.pushUp;
  return delta === ends.down ? ends.pushDown : push(delta);
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
 * Limits: those of `prepareTube`; the gas's acceleration in time is left out (pressure waves die within seconds).
 */
export function tubeLaw(gas: GasState, bore: number, roughness: number = DRAWN_ROUGHNESS): LineLaw {
  const radius = bore / 2;
  const area = Math.PI * radius * radius;
  const scale = (gas.viscosity * gas.probableSpeed) / radius;
  const throughputPerRe = (gas.viscosity / bore) * area * gas.specificGasConstant * gas.temperature;
  const perPotential = (throughputPerRe * radius) / 4;
  const perConductivity = (Math.PI * radius ** 3 * gas.probableSpeed) / 2;
  const table = frictionTable(roughness / bore);
  return {
    area,
    potential: (pressure) => perPotential * pull(pressure / scale),
    conductivity: (pressure) => perConductivity * poiseuille(pressure / scale),
    restrain(laminar, upper, lower, length, out) {
      const re = laminar / throughputPerRe;
      const low = lower / scale;
      const inertia = (re * re * inertiaWeight(low)) / (8 * low * low);
      if (re < LAMINAR && inertia < NO_INERTIA) {
        out.flow = laminar;
        out.upperShare = 1;
        out.lowerShare = 1;
        return;
      }
      restrained(re, upper / scale, low, length / radius, table, out);
      out.flow *= throughputPerRe;
    },
  };
}

/** Root of the piece's equation from the laminar Reynolds number, which is its upper bound; `out.flow` gets Re. */
function restrained(
  laminar: number,
  up: number,
  down: number,
  radii: number,
  table: FrictionTable,
  out: SegmentFlow,
): void {
  const fall = 4 * laminar * radii;
  const pushUp = pushKnown(up);
  const pushDown = pushKnown(down);
  ends.up = up;
  ends.pushUp = pushUp;
  ends.down = down;
  ends.pushDown = pushDown;
  // laminar and not choked, the equation is quadratic
  const square = (2 * laminar) / (1 + Math.sqrt(1 + (laminar * (pushUp - pushDown)) / (8 * radii)));
  if (square < LAMINAR && chokedExit((square * square) / 8) <= down) {
    const slope = 4 * radii + (square / 4) * (pushUp - pushDown);
    settle(square, slope, radii, up, down, false, out);
    return;
  }
  let low = 0;
  let high = laminar;
  let re = Math.min(laminar, ((4 * laminar) / BLASIUS) ** (4 / 7));
  let slope = 1;
  let choked = false;
  for (let step = 0; step < MOST_STEPS; step++) {
    const beta = (re * re) / 8;
    const exit = chokedExit(beta);
    choked = exit > down;
    if (choked && exit >= up) {
      high = re;
      re = 0.5 * (low + high);
      continue;
    }
    const pushed = pushUp - (choked ? push(exit) : pushDown);
    const pulled = choked ? fall - (pull(exit) - pull(down)) : fall;
    const taken = table.friction(re);
    const excess = radii * taken + beta * pushed - pulled;
    slope = (radii * taken * table.power(re)) / re + (re / 4) * pushed;
    if (excess > 0) high = re;
    else low = re;
    let next = re - excess / slope;
    if (!(next >= low && next <= high)) next = 0.5 * (low + high);
    const moved = Math.abs(next - re);
    re = next;
    if (moved <= TOLERANCE * re) break;
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
  out.upperShare = share * (1 - (beta * inertiaWeight(up)) / (up * up));
  out.lowerShare = choked ? 0 : share * (1 - (beta * inertiaWeight(down)) / (down * down));
}
