import { describe, expect, it } from 'vitest';
import { tubeLaw } from '../../../src/engine/network/tube-law.ts';
import { AIR } from '../rig/fakes.ts';
import { laminarFlow, pieceFlow, pointOf } from './nets.ts';

const count = { evaluations: 0 };
const lawOf = (bore: number) => tubeLaw(AIR, bore, undefined, count);
/** Tries that a piece takes, its search begun at a part of its own answer or from nothing. */
function triesOf(law: ReturnType<typeof lawOf>, upper: number, lower: number, length: number, begun = 0): number {
  const near = begun > 0 ? begun * pieceFlow(law, upper, lower, length).flow : 0;
  count.evaluations = 0;
  pieceFlow(law, upper, lower, length, near);
  return count.evaluations;
}

interface Tries {
  readonly searches: number;
  readonly mean: number;
  readonly worst: number;
}
/** All pieces of a grid that need a search: laminar to turbulent, choked or not, of hoses to ducts. */
function overGrid(begun: number): Tries {
  let [searches, total, worst] = [0, 0, 0];
  for (const bore of [0.004, 0.008, 0.03, 0.2, 1]) {
    const law = lawOf(bore);
    for (const upper of [0.3, 40, 900, 5e3, 3e4, 1e5, 5e5])
      for (const ratio of [1e-4, 0.03, 0.3, 0.6, 0.9, 0.99, 0.9999])
        for (const length of [0.02, 0.1, 0.5, 2, 10, 60, 300]) {
          const tries = triesOf(law, upper, upper * ratio, length, begun);
          searches += tries > 0 ? 1 : 0;
          total += tries;
          worst = Math.max(worst, tries);
        }
  }
  return { searches, mean: total / searches, worst };
}

describe('the search for the flow of a piece of pipe', () => {
  it('takes ten tries at most from nothing, hardly more than five on average', () => {
    const { searches, mean, worst } = overGrid(0);
    // two thirds of the grid are laminar and not choked
    expect(searches).toBeGreaterThan(1000);
    expect(searches).toBeLessThan(1200);
    expect(mean).toBeLessThan(5.1);
    expect(worst).toBeLessThanOrEqual(10);
  });

  it('takes one try where it begins at its answer', () => {
    expect(overGrid(1)).toEqual({ searches: expect.any(Number), mean: 1, worst: 1 });
  });

  it('takes fewer where it begins near', () => {
    for (const [begun, most] of [
      [1.0001, 2.05],
      [0.9999, 2.05],
      [1.1, 4.7],
      [0.8, 4.5],
    ] as const)
      expect(overGrid(begun).mean, `${begun} of it`).toBeLessThan(most);
  });

  it('is none where the flow is laminar and not choked', () => {
    const law = lawOf(0.008);
    for (const [upper, lower, length] of [
      [2000, 1500, 1],
      [101_325, 101_300, 30],
      [0.02, 0.001, 1],
    ] as const)
      expect(triesOf(law, upper, lower, length), `${upper} Pa`).toBe(0);
    expect(triesOf(law, 2000, 500, 1)).toBeGreaterThan(0);
    expect(triesOf(law, 101_325, 100_000, 30)).toBeGreaterThan(0);
  });

  it('gives up after sixty tries where there is nothing to find', () => {
    const law = lawOf(0.008);
    const out = { flow: 0, upperShare: 0, lowerShare: 0 };
    count.evaluations = 0;
    law.restrain?.(Number.NaN, pointOf(law, 1e5), pointOf(law, 1e4), 1, 0, out);
    expect(count.evaluations).toBe(60);
    expect(out.flow).toBeNaN();
  });

  it('is not begun where inertia takes less than 1e-7 of the gradient: B = Re^2/8 under 1e-7 delta (1 + delta)', () => {
    const law = lawOf(0.008);
    const { viscosity, probableSpeed, specificGasConstant, temperature } = AIR;
    const perRe = viscosity * 0.008 * (Math.PI / 4) * specificGasConstant * temperature;
    for (const pressure of [10, 3000]) {
      const delta = (pressure * 0.004) / (viscosity * probableSpeed);
      const re = Math.sqrt(8e-7 * delta * (1 + delta));
      for (const part of [0.999, 1.001]) {
        const upper = 1.0001 * pressure;
        const length = laminarFlow(law, upper, pressure, 1) / (part * re * perRe);
        const { flow } = pieceFlow(law, upper, pressure, length);
        const laminar = laminarFlow(law, upper, pressure, length);
        if (part < 1) expect(flow).toBe(laminar);
        else expect(flow).toBeLessThan(laminar);
      }
    }
  });
});
