import { describe, expect, it } from 'vitest';
import {
  DELTA,
  NODES,
  panelOfDelta,
  pullAt,
  pullRiseAt,
  pullSlopeAt,
  pushAt,
  tubeIntegrals,
} from '../../../src/engine/flow/tube-integrals.ts';
import { berman, poiseuilleFlow } from './brute-force.ts';

/** 8 G/lambda of a tube of L/a = `length`, with the formulas as they are printed; w = delta/(1 + delta). */
function friction(length: number, delta: number): number {
  const molecular = 8 / 3 / berman(length);
  const viscous = length + (3 * Math.PI) / 8;
  return (8 * poiseuilleFlow(delta) * (1 + delta)) / (molecular + delta * viscous);
}

/** Simpson's rule over ln(delta), 400 panels to a factor e (mathematics). */
function byLogarithm(f: (delta: number) => number, from: number, to: number): number {
  const panels = 2 * Math.ceil(200 * Math.log(to / from));
  const h = Math.log(to / from) / panels;
  const at = (i: number): number => f(from * Math.exp(i * h));
  let sum = at(0) + at(panels);
  for (let i = 1; i < panels; i++) sum += (i % 2 === 1 ? 4 : 2) * at(i);
  return (sum * h) / 3;
}

const first = DELTA[0] ?? Number.NaN;
const last = DELTA[NODES - 1] ?? Number.NaN;
/** between nodes, near one, and at one */
const PLACES = [3e-7, 2e-3, 0.041, 0.7, 3.3, 47, 900, 2.2e4, 3e6, DELTA[150] ?? 1];

describe.each([0.5, 20, 600])('the integrals of a tube of %d radii', (length) => {
  const table = tubeIntegrals(length);
  const pull = (delta: number): number => pullAt(table, delta, panelOfDelta(delta));
  const push = (delta: number): number => pushAt(table, delta, panelOfDelta(delta));

  it('are those of fine panels, friction', () => {
    for (const delta of PLACES) {
      const direct = friction(length, 1e-12) * first + byLogarithm((d) => friction(length, d) * d, first, delta);
      expect(Math.abs(pull(delta) / direct - 1), `at ${delta}`).toBeLessThan(1e-6);
    }
  });

  it('are those of fine panels, acceleration', () => {
    for (const delta of PLACES) {
      const direct = byLogarithm((d) => friction(length, d) / (1 + d), first, delta);
      expect(Math.abs(push(delta) / direct - 1), `at ${delta}`).toBeLessThan(1e-6);
    }
  });

  it('have the friction itself as slope, straight between the nodes', () => {
    for (const node of [0, 60, 140, 200, NODES - 2]) {
      const [here = 0, next = 0] = [DELTA[node], DELTA[node + 1]];
      expect(pullSlopeAt(table, here, node) / friction(length, here)).toBeCloseTo(1, 7);
      expect(pullSlopeAt(table, next, node) / friction(length, next)).toBeCloseTo(1, 7);
      const mean = 0.5 * (friction(length, here) + friction(length, next));
      expect(pullSlopeAt(table, 0.5 * (here + next), node) / mean).toBeCloseTo(1, 7);
    }
  });

  it('have a slope of their own, which is the friction between the nodes too', () => {
    for (const delta of [...PLACES, 0.5 * first, 3 * last]) {
      const slope = pullRiseAt(table, delta, panelOfDelta(delta));
      expect(Math.abs(slope / friction(length, delta) - 1), `at ${delta}`).toBeLessThan(2e-5);
      const step = 1e-5 * delta;
      // that of the very curve, closer than the friction is to it
      const rise = (pull(delta + step) - pull(delta - step)) / (2 * step);
      expect(Math.abs(slope / rise - 1), `at ${delta}`).toBeLessThan(2e-8);
    }
  });

  it('go on below the table as free molecular flow, friction in proportion and acceleration by the logarithm', () => {
    for (const part of [0.5, 1e-3]) {
      expect(pull(part * first) / (part * pull(first))).toBeCloseTo(1, 12);
      expect(push(part * first) / (friction(length, first) * Math.log(part))).toBeCloseTo(1, 6);
    }
  });

  it('go on above the table as viscous flow with slip', () => {
    const viscous = length + (3 * Math.PI) / 8;
    for (const factor of [1.5, 100, 1e100]) {
      const delta = factor * last;
      // 8 (d/4 + 1.018)/viscous over d
      const further = (delta ** 2 - last ** 2 + 8 * 1.018 * (delta - last)) / viscous;
      expect((pull(delta) - pull(last)) / further).toBeCloseTo(1, 9);
      // 8 (d/4)/viscous/d over ln d
      expect((push(delta) - push(last)) / ((2 / viscous) * Math.log(factor))).toBeCloseTo(1, 5);
    }
  });
});

describe('the panel of a rarefaction', () => {
  it('is the one that begins at or before it, within the table', () => {
    for (const node of [0, 1, 100, NODES - 2]) {
      const [here = 0, next = 0] = [DELTA[node], DELTA[node + 1]];
      expect(panelOfDelta(Math.sqrt(here * next))).toBe(node);
    }
    expect(panelOfDelta(first / 10)).toBe(0);
    for (const beyond of [last * 1.01, last * 1e5]) expect(panelOfDelta(beyond)).toBe(NODES - 2);
  });
});
