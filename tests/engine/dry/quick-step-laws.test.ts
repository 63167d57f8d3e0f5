import { describe, expect, it } from 'vitest';
import { flowPatches } from '../../../src/engine/dry/quick/flow-patches.ts';
import {
  type Course,
  noSlopes,
  ratesAt,
  type Slopes,
  type Stage,
  type State,
} from '../../../src/engine/dry/quick/rates.ts';
import { type Reached, step } from '../../../src/engine/dry/quick/step.ts';
import { AMBIENT, RV, surfaceOf, VOLUME } from './simple.ts';

/**
 * RODAS3 as a Rosenbrock method in its plain form, k_i = h f(y + sum a_ij k_j) + h J sum g_ij k_j + g_i h^2 df/dt. Source: Sandu,
 * Verwer, Blom, Spee, Carmichael and Potra, Atmos. Environ. 31 (1997) 3459-3472.
 */
const G = [[1 / 2], [1, 1 / 2], [-1 / 4, -1 / 4, 1 / 2], [1 / 12, 1 / 12, -2 / 3, 1 / 2]];
const A = [[], [0], [1, 0], [3 / 4, -1 / 4, 1 / 2]];
const B = [5 / 6, -1 / 6, -1 / 6, 1 / 2];
/** Weights of the solution of second order within. */
const LOWER = [3 / 4, -1 / 4, 1 / 2, 0];

type Three = readonly [number, number, number];
type Matrix = readonly [Three, Three, Three];
const det = ([a, b, c]: Matrix): number =>
  a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
/** By Cramer's rule. */
function solve(matrix: Matrix, right: Three): Three {
  const whole = det(matrix);
  const put = (column: number): number =>
    det(matrix.map((row, i) => row.map((x, j) => (j === column ? right[i] : x))) as unknown as Matrix) / whole;
  return [put(0), put(1), put(2)];
}

const BENT = surfaceOf((x, y) => -6 + 0.3 * y - 0.5 * y * y + x * (0.1 + 0.05 * y) - 0.004 * x * x);
const PER_THROUGHPUT = 1 / (RV * AMBIENT);
const COURSE: Course = {
  patches: flowPatches(BENT),
  ambient: AMBIENT,
  volume: VOLUME,
  heat: 0.5,
  metal: 40,
  load: { leak: 1e-3, outgassing: 2e-3, exponent: 0.7 },
  perPascal: VOLUME * PER_THROUGHPUT,
  perThroughput: PER_THROUGHPUT,
};

const rates = (stage: Stage, time: number, [x0, x1, x2]: Three): Three => {
  const out = noSlopes();
  ratesAt(COURSE, stage, { time, x0, x1, x2 }, false, out);
  return [out.r0, out.r1, out.r2];
};
const times = (J: Matrix, v: Three): Three =>
  J.map((row) => row[0] * v[0] + row[1] * v[1] + row[2] * v[2]) as unknown as Three;
const sum = (weights: readonly number[] | undefined, ks: readonly Three[]): Three =>
  [0, 1, 2].map((n) => ks.reduce((all, k, j) => all + (weights?.[j] ?? 0) * (k[n] ?? 0), 0)) as unknown as Three;
const plus = (a: Three, b: Three): Three => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

function plain(stage: Stage, { time, x0, x1, x2 }: State, here: Slopes, h: number): { to: Three; error: Three } {
  const y: Three = [x0, x1, x2];
  const J: Matrix = [
    [here.j00, here.j01, 0],
    [here.j10, here.j11, here.j12],
    [here.j20, here.j21, here.j22],
  ];
  const matrix = J.map((row, r) => row.map((x, c) => (r === c ? 1 : 0) - 0.5 * h * x)) as unknown as Matrix;
  const total = (weights: readonly number[] | undefined): number => (weights ?? []).reduce((all, one) => all + one, 0);
  const ks: Three[] = [];
  for (let i = 0; i < 4; i++) {
    const f = rates(stage, time + total(A[i]) * h, plus(y, sum(A[i], ks)));
    const along = times(J, sum(G[i], ks));
    const later = total(G[i]) * h * here.later;
    ks.push(solve(matrix, [h * (f[0] + along[0] + later), h * (f[1] + along[1]), h * (f[2] + along[2])]));
  }
  const off = B.map((b, i) => b - (LOWER[i] ?? 0));
  return { to: plus(y, sum(B, ks)), error: sum(off, ks) };
}

describe('a step of the quick way', () => {
  const STATES = [
    ['liquid', { time: 700, x0: 6.5, x1: 280.3, x2: 4e-3 }],
    ['ice', { time: 700, x0: 4.1, x1: 262.2, x2: 4e-3 }],
    ['freezing', { time: 700, x0: 6.5, x1: 1e-3, x2: 4e-3 }],
    ['dry', { time: 700, x0: 5.2, x1: 4.7, x2: 0 }],
  ] as const;
  const check = (stage: Stage, state: State, here: Slopes, h: number): void => {
    const to: Reached = { time: 0, x0: 0, x1: 0, x2: 0, e0: 0, e1: 0, e2: 0 };
    step(COURSE, stage, state, here, h, to);
    const expected = plain(stage, state, here, h);
    expect(to.time).toBe(state.time + h);
    const keys = ['x0', 'x1', 'x2'] as const;
    const errors = ['e0', 'e1', 'e2'] as const;
    for (const n of [0, 1, 2] as const) {
      const moved =
        Math.abs(expected.to[n] - state[keys[n]]) + Math.abs(expected.error[n]) + 1e-9 * Math.abs(expected.to[n]);
      expect(Math.abs(to[keys[n]] - expected.to[n]), `${stage} ${keys[n]}`).toBeLessThanOrEqual(1e-8 * moved + 1e-15);
      expect(Math.abs(to[errors[n]] - expected.error[n]), `${stage} ${errors[n]}`).toBeLessThanOrEqual(
        1e-8 * moved + 1e-15,
      );
    }
  };

  it.each(STATES)('is one of RODAS3 in its plain form: %s', (stage, state) => {
    const here = noSlopes();
    ratesAt(COURSE, stage, state, true, here);
    for (const h of [0.1, 1.7, 20]) check(stage, state, here, h);
  });

  it.each(STATES)('is so whatever matrix it is given: %s', (stage, state) => {
    const here = noSlopes();
    ratesAt(COURSE, stage, state, true, here);
    // of one size when each unknown is counted by its own; no row or column like another
    const size = [1, stage === 'liquid' || stage === 'ice' ? 20 : stage === 'dry' ? 1 : 1e-3, 1e-3];
    const made = (row: number, column: number, part: number): number => (part * (size[row] ?? 1)) / (size[column] ?? 1);
    const full: Slopes = {
      ...here,
      ...{ j00: made(0, 0, -0.31), j01: made(0, 1, 0.17) },
      ...{ j10: made(1, 0, -0.23), j11: made(1, 1, -0.41), j12: made(1, 2, 0.29) },
      ...{ j20: made(2, 0, 0.37), j21: made(2, 1, -0.19), j22: made(2, 2, -0.13) },
      later: 0.07 * here.r0,
    };
    for (const h of [0.1, 1.3]) check(stage, state, full, h);
  });
});
