import { describe, expect, it } from 'vitest';
import { NO_LOAD } from '../../../src/engine/evacuate/load.ts';
import { balanceOf } from '../../../src/engine/network/balance.ts';
import { type MarchOptions, marchNetwork } from '../../../src/engine/network/march.ts';
import type { Port } from '../../../src/engine/network/network.ts';

/** s in which a volume would empty at the speed of its pump */
const TAU = 10;
const START = 1000;
const mesh = { nodes: 1, volumes: Float64Array.of(0.02), chains: [] };
const pump: Port = { node: 0, ultimate: 0, throughput: (p) => 0.002 * p, slope: () => 0.002 };

function march(port: Port, until: number, options: MarchOptions) {
  const ends: number[] = [];
  const pressures: number[] = [];
  const result = marchNetwork(
    balanceOf(mesh, [port], NO_LOAD),
    Float64Array.of(START),
    until,
    ({ to, after }) => {
      ends.push(to);
      pressures.push(after[0] ?? 0);
      return false;
    },
    options,
  );
  return { ...result, ends, end: pressures };
}

/**
 * One step of h time constants on dp/dt = -p/tau with the method of order 3 and its error.
 * Source: RODAS3, Sandu et al., Atmospheric Environment 31 (1997) 3459; gamma = 1/2.
 */
function oneStep(p: number, h: number): { after: number; error: number } {
  // (2/h + 1) k = -(p + sum a k) + sum (c/h) k
  const k1 = -p / (2 / h + 1);
  const k2 = (-p + (4 / h) * k1) / (2 / h + 1);
  const k3 = (-(p + 2 * k1) + (k1 - k2) / h) / (2 / h + 1);
  const k4 = (-(p + 2 * k1 + k3) + (k1 - k2 - (8 / 3) * k3) / h) / (2 / h + 1);
  return { after: p + 2 * k1 + k3 + k4, error: Math.abs(k4) };
}

/**
 * All steps: 0.9 of what the error allows, at most four times and at least a fifth of the one before (common practice, no source), and none
 * that would let the excess pressure fall by more than a factor of exp(1/4) if it fell on as in the one before.
 */
function byHand(until: number, relative: number, floor: number, leastExcess: number) {
  const ends: number[] = [];
  const end: number[] = [];
  let [t, p, h, refused] = [0, START, 1e-3, 0];
  while (t < until / TAU) {
    const last = t + h >= until / TAU;
    if (last) h = until / TAU - t;
    const { after, error } = oneStep(p, h);
    const part = error / Math.max(after - floor, leastExcess) / relative;
    const fall = Math.log(Math.max(p - floor, leastExcess) / Math.max(after - floor, leastExcess));
    const factor = Math.min(4, part > 1 ? 4 : 0.25 / fall, Math.max(0.2, 0.9 * part ** (-1 / 3)));
    if (part > 1) refused += 1;
    else {
      t = last ? until / TAU : t + h;
      p = after;
      ends.push(t * TAU);
      end.push(p);
    }
    h *= factor;
  }
  return { ends, end, refused };
}

describe('the steps of a march', () => {
  it.each([
    [1e-3, 50, 0, 0],
    [3e-5, 50, 0, 0],
    [3e-5, 30, -500, 0],
    [1e-4, 60, -1, 200],
    [1e-12, 0.1, 0, 0],
  ])('are those of the method worked by hand: relative %s for %s s, floor %s, least excess %s', (...given) => {
    const [relative, until, floor, leastExcess] = given;
    const hand = byHand(until, relative, floor, leastExcess);
    const { ends, end, refused, steps } = march(pump, until, { relative, floor, leastExcess });
    expect([steps, refused]).toEqual([hand.ends.length, hand.refused]);
    ends.forEach((to, i) => {
      expect(to / (hand.ends[i] ?? 0)).toBeCloseTo(1, relative === 1e-12 ? 6 : 8);
      expect((end[i] ?? 0) / (hand.end[i] ?? 0)).toBeCloseTo(1, relative === 1e-12 ? 6 : 8);
    });
    // so small an error refuses the first step
    expect(refused > 0).toBe(relative === 1e-12);
  });

  it('never ask for flows at a pressure that is not above zero', () => {
    const greedy: Port = {
      node: 0,
      ultimate: 0,
      throughput(p) {
        if (!(p > 0)) throw new Error('asked below zero');
        return 2;
      },
      slope: () => 0,
    };
    const { status, refused, time } = march(greedy, 100, { leastExcess: 1000 });
    expect(time).toBeCloseTo(TAU, 6);
    // and give up once they are nothing against the time
    expect(status).toBe('stuck');
    expect(refused).toBeLessThan(60);
  });

  it('that are refused count as well as those that are taken', () => {
    const broken: Port = { ...pump, slope: () => Number.NaN };
    expect(march(broken, 100, { mostSteps: 5 })).toMatchObject({ steps: 0, refused: 5, status: 'stuck' });
  });
});
