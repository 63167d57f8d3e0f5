import { type Course, noSlopes, ratesAt, type Slopes, type Stage, type State } from './rates.ts';

/**
 * One step of RODAS3 (see `numerics/rodas.ts`) for the three unknowns of a dry-out, in plain numbers: the Jacobian is in closed
 * form, the matrix has one zero and is inverted by its cofactors.
 */

/** Where a step comes to, and the estimate of its error. */
export interface Reached extends State {
  e0: number;
  e1: number;
  e2: number;
}

const within: Slopes = noSlopes();
const at: State = { time: Number.NaN, x0: Number.NaN, x1: Number.NaN, x2: Number.NaN };

/** Fills `to` with the step over h from a state at which `here` holds the slopes. */
export function step(course: Course, stage: Stage, from: State, here: Slopes, h: number, to: Reached): void {
  const { x0, x1, x2 } = from;
  // matrix 1/(gamma h) - J with gamma = 1/2
  const d = 2 / h;
  const a00 = d - here.j00;
  const a01 = -here.j01;
  const a10 = -here.j10;
  const a11 = d - here.j11;
  const a12 = -here.j12;
  const a20 = -here.j20;
  const a21 = -here.j21;
  const a22 = d - here.j22;
  const c00 = a11 * a22 - a12 * a21;
  const c10 = a12 * a20 - a10 * a22;
  const c20 = a10 * a21 - a11 * a20;
  const per = 1 / (a00 * c00 + a01 * c10);
  const i00 = per * c00;
  const i01 = -per * a01 * a22;
  const i02 = per * a01 * a12;
  const i10 = per * c10;
  const i11 = per * a00 * a22;
  const i12 = -per * a00 * a12;
  const i20 = per * c20;
  const i21 = per * (a01 * a20 - a00 * a21);
  const i22 = per * (a00 * a11 - a01 * a10);
  const n = 1 / h;

  let f0 = here.r0 + 0.5 * h * here.later;
  let f1 = here.r1;
  let f2 = here.r2;
  const k10 = i00 * f0 + i01 * f1 + i02 * f2;
  const k11 = i10 * f0 + i11 * f1 + i12 * f2;
  const k12 = i20 * f0 + i21 * f1 + i22 * f2;

  f0 = here.r0 + 1.5 * h * here.later + 4 * n * k10;
  f1 = here.r1 + 4 * n * k11;
  f2 = here.r2 + 4 * n * k12;
  const k20 = i00 * f0 + i01 * f1 + i02 * f2;
  const k21 = i10 * f0 + i11 * f1 + i12 * f2;
  const k22 = i20 * f0 + i21 * f1 + i22 * f2;

  const time = from.time + h;
  let y0 = x0 + 2 * k10;
  let y1 = x1 + 2 * k11;
  let y2 = x2 + 2 * k12;
  at.time = time;
  at.x0 = y0;
  at.x1 = y1;
  at.x2 = y2;
  ratesAt(course, stage, at, false, within);
  f0 = within.r0 + n * (k10 - k20);
  f1 = within.r1 + n * (k11 - k21);
  f2 = within.r2 + n * (k12 - k22);
  const k30 = i00 * f0 + i01 * f1 + i02 * f2;
  const k31 = i10 * f0 + i11 * f1 + i12 * f2;
  const k32 = i20 * f0 + i21 * f1 + i22 * f2;

  y0 += k30;
  y1 += k31;
  y2 += k32;
  at.x0 = y0;
  at.x1 = y1;
  at.x2 = y2;
  ratesAt(course, stage, at, false, within);
  f0 = within.r0 + n * (k10 - k20 - (8 / 3) * k30);
  f1 = within.r1 + n * (k11 - k21 - (8 / 3) * k31);
  f2 = within.r2 + n * (k12 - k22 - (8 / 3) * k32);
  to.e0 = i00 * f0 + i01 * f1 + i02 * f2;
  to.e1 = i10 * f0 + i11 * f1 + i12 * f2;
  to.e2 = i20 * f0 + i21 * f1 + i22 * f2;
  to.time = time;
  to.x0 = y0 + to.e0;
  to.x1 = y1 + to.e1;
  to.x2 = y2 + to.e2;
}
