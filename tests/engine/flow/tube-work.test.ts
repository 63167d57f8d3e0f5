import { describe, expect, it } from 'vitest';
import type { PreparedPassage } from '../../../src/engine/flow/passage.ts';
import { prepareTube } from '../../../src/engine/flow/tube.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { bruteUpstream } from './brute-force.ts';

const air = gasState('air', 293.15);
const TUBES = [
  ['small hose', 0.00476, 1.5],
  ['wide hose', 0.0095, 1.5],
  ['seat of a core', 0.002, 0.004],
  ['disc', 0.003, 0.0003],
] as const;

interface Work {
  readonly mean: number;
  readonly worst: number;
}
/** Evaluations of the tube's curve that some work takes on each of the tubes. */
function workOf(solves: (tube: PreparedPassage, solve: (work: () => void) => void) => void): Work {
  let [total, times, worst] = [0, 0, 0];
  for (const [, bore, length] of TUBES) {
    const count = { evaluations: 0 };
    const tube = prepareTube({ kind: 'tube', bore, length, loss: 1.5, roughness: 0 }, air, count);
    solves(tube, (work) => {
      count.evaluations = 0;
      work();
      // it does look: a count that goes down would pass every bound
      expect(count.evaluations).toBeGreaterThan(1);
      worst = Math.max(worst, count.evaluations);
      total += count.evaluations;
      times++;
    });
  }
  return { mean: total / times, worst };
}

describe('work of a tube', () => {
  it('solves for the upstream pressure in seven evaluations at most, about four on average', () => {
    const { mean, worst } = workOf((tube, solve) => {
      for (let q = 1e-12; q < 1e4; q *= 1.3)
        for (const down of [0, q, 30 * q, 1e3 * q, 1e4 * q]) solve(() => tube.upstreamPressure(q, down));
    });
    expect(worst).toBeLessThanOrEqual(7);
    expect(mean).toBeLessThan(4.1);
  });

  it('finds the throughput in sixty evaluations at most, less than twenty on average', () => {
    const { mean, worst } = workOf((tube, solve) => {
      for (let p = 1e-4; p < 1e6; p *= 1.5)
        for (const ratio of [0, 0.01, 0.3, 0.9, 0.99]) solve(() => tube.throughput(p, ratio * p));
    });
    expect(worst).toBeLessThanOrEqual(60);
    expect(mean).toBeLessThan(19);
  });

  it('gives up after eighty tries on what is no number', () => {
    const count = { evaluations: 0 };
    const tube = prepareTube({ kind: 'tube', bore: 0.004, length: 1, loss: 1.5, roughness: Number.NaN }, air, count);
    expect(tube.upstreamPressure(1e4, 0)).toBeNaN();
    // and one at the exit
    expect(count.evaluations).toBe(81);
  });
});

describe('a tube beyond its tables', () => {
  it('has a pressure in proportion to the flow, however little flows', () => {
    const tube = prepareTube({ kind: 'tube', bore: 0.004, length: 1, loss: 1.5, roughness: 0 }, air);
    const resistance = tube.upstreamPressure(1e-20, 0) / 1e-20;
    for (const q of [1e-100, 1e-170, 1e-290])
      expect(tube.upstreamPressure(q, 0) / q / resistance, `${q} Pa m3/s`).toBeCloseTo(1, 9);
  });

  it('passes choked flow in proportion to the pressure, without a jump where the table ends', () => {
    for (const loss of [0, 1.5]) {
      const tube = prepareTube({ kind: 'tube', bore: 0.1, length: 0.02, loss, roughness: 0 }, air);
      const conductance = (p: number): number => tube.throughput(p, 0) / p;
      const known = conductance(5e6);
      // the table ends where delta = p a/(mu v0) is 1e8: at 15 MPa
      for (const p of [1.4e7, 1.46e7, 1.48e7, 1.5e7, 1.6e7, 2e7, 1e8, 1e9])
        expect(Math.abs(conductance(p) / known - 1), `${p} Pa`).toBeLessThan(0.02);
    }
  });

  it('agrees with a second implementation by small steps', () => {
    const tube = { kind: 'tube', bore: 0.1, length: 0.5, loss: 1.5, roughness: 0 } as const;
    const ready = prepareTube(tube, air);
    const brute = { viscosity: air.viscosity, rt: air.specificGasConstant * air.temperature };
    for (const p of [1.6e7, 5e7, 1e9])
      for (const ratio of [0, 0.2, 0.5, 0.95]) {
        const theirs = bruteUpstream(tube, brute, ready.throughput(p, ratio * p), ratio * p);
        expect(Math.abs(theirs / p - 1), `${p} Pa, ratio ${ratio}`).toBeLessThan(1e-4);
      }
  });
});
