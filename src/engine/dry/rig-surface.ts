import { mixedGas } from '../gas/mixture.ts';
import type { GasState } from '../gas/state.ts';
import { CURVE_TOP, type RigCurve } from '../rig/curve.ts';
import { prepareRig } from '../rig/prepare.ts';
import { pumpExcess } from '../rig/pump.ts';
import type { Rig } from '../rig/rig.ts';
import { excessConductance } from '../rig/speed.ts';
import { rigCurve } from '../rig/sweep.ts';

/**
 * A rig's curve over composition: throughput of a mixture of gas and water vapour against system pressure and mole
 * fraction of vapour. One surface serves every dry-out through the rig at one temperature. SI.
 *
 * ln K (K = Q/(p - pu), see `rig/curve.ts`) stands at even steps of ln(p - pu), a row for each of a few compositions; between
 * the compositions it is the polynomial through all of them, since viscosity and molar mass change smoothly.
 */
export interface RigSurface {
  readonly rig: Rig;
  /** K */
  readonly temperature: number;
  readonly ultimate: number;
  /** the curve of the gas without vapour */
  readonly dry: RigCurve;
  /** first ln(p - pu) and the number of steps */
  readonly foot: number;
  readonly steps: number;
  /** ln K by pressure step, then composition */
  readonly lnK: Float64Array;
}

/** Mole fractions of the rows: Chebyshev-Lobatto points, at which a polynomial does not swing. */
export const COMPOSITIONS: readonly number[] = [0, 1, 2, 3, 4].map((k) => 0.5 * (1 - Math.cos((k * Math.PI) / 4)));
const ROWS = COMPOSITIONS.length;
/** One over the products of the distances between the rows, for the Lagrange weights. */
const PER_SPREAD = COMPOSITIONS.map(
  (at, k) => 1 / COMPOSITIONS.reduce((all, other, j) => (j === k ? all : all * (at - other)), 1),
);
/** Step of ln(p - pu). */
export const STEP = 0.05;

/** @param curveFor how the curve of a rig for a gas is come by; another may be given to share or to stand in */
export function rigSurface(
  rig: Rig,
  gas: GasState,
  vapour: GasState,
  curveFor: (rig: Rig, gas: GasState) => RigCurve = (of, mixture) => rigCurve(prepareRig(of, mixture)),
): RigSurface {
  const curves = COMPOSITIONS.map((fraction) => curveFor(rig, mixedGas(gas, vapour, fraction)));
  const [dry] = curves as [RigCurve, ...RigCurve[]];
  const foot = dry.x[0] ?? 0;
  const steps = Math.ceil((Math.log(CURVE_TOP - dry.ultimate) - foot) / STEP);
  const lnK = new Float64Array((steps + 1) * ROWS);
  for (let i = 0; i <= steps; i++)
    curves.forEach((curve, k) => {
      lnK[i * ROWS + k] = Math.log(excessConductance(curve, foot + i * STEP));
    });
  return { rig, temperature: gas.temperature, ultimate: dry.ultimate, dry, foot, steps, lnK };
}

/** ln K of the composition at one pressure step, by the Lagrange weights in `weights`. */
function lnKAt(surface: RigSurface, step: number): number {
  const from = Math.max(0, Math.min(surface.steps, step)) * ROWS;
  let sum = 0;
  for (let k = 0; k < ROWS; k++) sum += (weights[k] ?? 0) * (surface.lnK[from + k] ?? 0);
  return sum;
}

const weights = new Float64Array(ROWS);

function setWeights(fraction: number): void {
  // the distances to the rows before, then those to the rows behind
  let product = 1;
  for (let k = 0; k < ROWS; k++) {
    weights[k] = product * (PER_SPREAD[k] ?? 0);
    product *= fraction - (COMPOSITIONS[k] ?? 0);
  }
  product = 1;
  for (let k = ROWS - 1; k >= 0; k--) {
    weights[k] = product * (weights[k] ?? 0);
    product *= fraction - (COMPOSITIONS[k] ?? 0);
  }
}

/** Throughput (Pa m3/s) that leaves a system at a pressure (Pa) and mole fraction of vapour; zero at the ultimate. */
export function mixtureThroughput(surface: RigSurface, pressure: number, fraction: number): number {
  const excess = pressure - surface.ultimate;
  if (!(excess > 0)) return 0;
  setWeights(Math.max(0, Math.min(1, fraction)));
  const x = (Math.log(excess) - surface.foot) / STEP;
  if (x <= 0) return excess * Math.exp(lnKAt(surface, 0));
  const i = Math.min(Math.floor(x), surface.steps - 1);
  const t = x - i;
  // Catmull-Rom cubic through the four steps around
  const a = lnKAt(surface, i - 1);
  const b = lnKAt(surface, i);
  const c = lnKAt(surface, i + 1);
  const d = lnKAt(surface, i + 2);
  const lnK = b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
  return excess * Math.exp(lnK);
}

/** Partial pressure of vapour at the pump inlet (Pa): the mixture there is that of the system. */
export function vapourAtPump(surface: RigSurface, pressure: number, fraction: number): number {
  const inlet = surface.ultimate + pumpExcess(surface.rig.pump, mixtureThroughput(surface, pressure, fraction));
  return fraction * inlet;
}
