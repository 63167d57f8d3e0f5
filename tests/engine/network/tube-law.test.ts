import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { tubeConductance } from '../../../src/engine/flow/conductance.ts';
import { prepareTube } from '../../../src/engine/flow/tube.ts';
import { tubeLaw } from '../../../src/engine/network/tube-law.ts';
import { AIR } from '../rig/fakes.ts';

const BORE = 0.008;
const ROUGHNESS = 1.5e-6;
const law = tubeLaw(AIR, BORE, ROUGHNESS);

function pieceFlow(upper: number, lower: number, length: number) {
  const out = { flow: 0, upperShare: 0, lowerShare: 0 };
  law.restrain?.((law.potential(upper) - law.potential(lower)) / length, upper, lower, length, out);
  return out;
}

describe('a piece of pipe', () => {
  it.each([1e-3, 1, 50, 1e4])('has the conductance of a long tube at %s Pa', (pressure) => {
    const length = 1000;
    expect(law.conductivity(pressure) / (length * tubeConductance(AIR, BORE, length, pressure))).toBeCloseTo(1, 4);
  });

  it.each([0.01, 3, 500, 2e4, 1e5])('has the conductivity as slope of its potential at %s Pa', (p) => {
    const slope = (law.potential(p * 1.001) - law.potential(p * 0.999)) / (0.002 * p);
    expect(slope / law.conductivity(p)).toBeCloseTo(1, 4);
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
    expect(Math.abs(pieceFlow(upper, lower, length).flow / tube.throughput(upper, lower) - 1)).toBeLessThan(4e-3);
  });

  it('tells how its flow changes with the pressure at either end', () => {
    const pressure = fc.double({ min: 1, max: 1e5, noNaN: true });
    const part = fc.double({ min: 0.05, max: 0.95, noNaN: true });
    fc.assert(
      fc.property(pressure, part, fc.double({ min: 0.1, max: 20, noNaN: true }), (upper, r, length) => {
        const lower = upper * r;
        const at = pieceFlow(upper, lower, length);
        const step = 1e-4;
        const rise =
          (pieceFlow(upper * (1 + step), lower, length).flow - pieceFlow(upper * (1 - step), lower, length).flow) /
          (2 * step * upper);
        const fall =
          (pieceFlow(upper, lower * (1 - step), length).flow - pieceFlow(upper, lower * (1 + step), length).flow) /
          (2 * step * lower);
        const unit = law.conductivity(upper) / length;
        expect(Math.abs((at.upperShare * law.conductivity(upper)) / length - rise) / unit).toBeLessThan(0.01);
        expect(Math.abs((at.lowerShare * law.conductivity(lower)) / length - fall) / unit).toBeLessThan(0.01);
        expect(at.lowerShare).toBeGreaterThanOrEqual(0);
      }),
      { numRuns: 100, seed: 3 },
    );
  });
});
