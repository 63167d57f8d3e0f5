import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tubeConductance } from '../../../src/engine/flow/conductance.ts';
import { prepareTube } from '../../../src/engine/flow/tube.ts';
import { tubeLaw } from '../../../src/engine/network/tube-law.ts';
import { AIR } from '../rig/fakes.ts';
import { laminarFlow, pieceFlow, pointOf } from './nets.ts';

const BORE = 0.008;
const ROUGHNESS = 1.5e-6;
const law = tubeLaw(AIR, BORE, ROUGHNESS);

const conductivity = (pressure: number): number => pointOf(law, pressure).conductivity;

describe('a piece of pipe', () => {
  it.each([1e-3, 1, 50, 1e4])('has the conductance of a long tube at %s Pa', (pressure) => {
    const length = 1000;
    expect(conductivity(pressure) / (length * tubeConductance(AIR, BORE, length, pressure))).toBeCloseTo(1, 4);
  });

  it.each([0.01, 3, 500, 2e4, 1e5])('has the conductivity as slope of its potential at %s Pa', (p) => {
    const slope = laminarFlow(law, p * 1.001, p * 0.999, 0.002 * p);
    expect(slope / conductivity(p)).toBeCloseTo(1, 4);
  });

  it.each([
    [101325, 90000, 40],
    [101325, 20000, 40],
    [101325, 100, 10],
    [20000, 1000, 5],
    [300, 20, 10],
    [0.5, 0.01, 10],
  ])('passes from %s to %s Pa over %s m what a tube without end losses passes', (upper, lower, length) => {
    // the end corrections of the whole tube, which a piece has not, are up to 0.3 % of it
    const tube = prepareTube({ kind: 'tube', bore: BORE, length, loss: 0, roughness: ROUGHNESS }, AIR);
    expect(Math.abs(pieceFlow(law, upper, lower, length).flow / tube.throughput(upper, lower) - 1)).toBeLessThan(4e-3);
  });

  it('tells how its flow changes with the pressure at either end', () => {
    const pressure = fc.double({ min: 1, max: 1e5, noNaN: true });
    const part = fc.double({ min: 0.05, max: 0.95, noNaN: true });
    fc.assert(
      fc.property(pressure, part, fc.double({ min: 0.1, max: 20, noNaN: true }), (upper, r, length) => {
        const lower = upper * r;
        const at = pieceFlow(law, upper, lower, length);
        const step = 1e-4;
        const rise =
          (pieceFlow(law, upper * (1 + step), lower, length).flow -
            pieceFlow(law, upper * (1 - step), lower, length).flow) /
          (2 * step * upper);
        const fall =
          (pieceFlow(law, upper, lower * (1 - step), length).flow -
            pieceFlow(law, upper, lower * (1 + step), length).flow) /
          (2 * step * lower);
        const unit = conductivity(upper) / length;
        expect(Math.abs((at.upperShare * conductivity(upper)) / length - rise) / unit).toBeLessThan(0.01);
        expect(Math.abs((at.lowerShare * conductivity(lower)) / length - fall) / unit).toBeLessThan(0.01);
        expect(at.lowerShare).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 100, seed: 3 },
    );
  });
});
