import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { march, marchFrom } from '../../../src/engine/rig/march.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { AIR, constantPart, core, hose, port, prepareConstant, pumpOf, rigOf } from './fakes.ts';

describe('the march through a rig', () => {
  it('adds up the pressure differences of parts in series, as by hand', () => {
    const parts = [constantPart('a', 0.002), constantPart('b', 0.004)];
    const point = march(prepareRig(rigOf(pumpOf(0.01, 1), parts), AIR, prepareConstant), 5);
    // Q = 0.01 (5 - 1) = 0.04; 0.04/0.002 = 20; 0.04/0.004 = 10
    expect(point.throughput).toBeCloseTo(0.04, 12);
    expect(point.parts.map((part) => part.upstream)).toEqual([25, 35]);
    expect(point.system).toBeCloseTo(35, 10);
  });

  it('shares the flow of a branch so that every way has the same pressure in front of it', () => {
    const parts = [constantPart('wide', 0.03, { branch: 'm' }), constantPart('small', 0.01, { branch: 'm' })];
    const point = march(prepareRig(rigOf(pumpOf(0.04), parts), AIR, prepareConstant), 10);
    const [wide, small] = point.parts;
    expect(wide?.throughput).toBeCloseTo(0.3, 8);
    expect(small?.throughput).toBeCloseTo(0.1, 8);
    expect(wide?.upstream).toBeCloseTo(20, 7);
    expect(small?.upstream).toBeCloseTo(20, 7);
  });

  it('puts the parts of one leg in series, and its legs in parallel where the branch begins', () => {
    const parts = [
      constantPart('near', 0.1),
      constantPart('left 1', 0.02, { branch: 'm', leg: 'left' }),
      constantPart('right', 0.02, { branch: 'm', leg: 'right' }),
      constantPart('left 2', 0.02, { branch: 'm', leg: 'left' }),
      constantPart('far', 0.1),
    ];
    const point = march(prepareRig(rigOf(pumpOf(0.01), parts), AIR, prepareConstant), 3);
    // left leg 0.01, right leg 0.02: together 0.03; Q = 0.03 gives 0.3 + 1 + 0.3
    expect(point.system).toBeCloseTo(3 + 0.3 + 1 + 0.3, 7);
    expect(point.parts.map((part) => part.stage.part.name)).toEqual(['near', 'left 1', 'left 2', 'right', 'far']);
  });

  it('splits three unlike ways by their conductances', () => {
    const parts = [1, 2, 4].map((c) => constantPart(`c${c}`, c * 1e-3, { branch: 'm' }));
    const point = march(prepareRig(rigOf(pumpOf(0.007), parts), AIR, prepareConstant), 10);
    expect(point.system).toBeCloseTo(20, 6);
    expect(point.parts.map((part) => Number(part.fraction.toFixed(6)))).toEqual([
      Number((1 / 7).toFixed(6)),
      Number((2 / 7).toFixed(6)),
      Number((4 / 7).toFixed(6)),
    ]);
  });

  it('takes two like hoses in a branch for a count of two, from molecular to choked flow', () => {
    const pump = pumpOf(2e-3, 2.7);
    const branched = prepareRig(
      rigOf(pump, [
        hose(4.8e-3, 1.5, { branch: 'm', name: 'left' }),
        hose(4.8e-3, 1.5, { branch: 'm', name: 'right' }),
      ]),
      AIR,
    );
    const counted = prepareRig(rigOf(pump, [hose(4.8e-3, 1.5, { count: 2 })]), AIR);
    for (const excess of [1e-4, 1e-2, 1, 100, 1e4])
      expect(marchFrom(branched, excess).system / marchFrom(counted, excess).system).toBeCloseTo(1, 12);
    expect(march(branched, 10).parts.map((part) => part.stage.part.name)).toEqual(['left', 'right']);
  });

  it('never lets an extra way through a branch raise the pressure in front of it', () => {
    const bore = fc.double({ min: 2e-3, max: 12e-3, noNaN: true });
    fc.assert(
      fc.property(bore, bore, fc.double({ min: -4, max: 4, noNaN: true }), (a, b, lnExcess) => {
        const excess = Math.exp(lnExcess);
        const alone = prepareRig(rigOf(pumpOf(2e-3, 2), [hose(a, 1.5)]), AIR);
        const both = prepareRig(
          rigOf(pumpOf(2e-3, 2), [hose(a, 1.5, { branch: 'm' }), hose(b, 3, { branch: 'm' })]),
          AIR,
        );
        expect(marchFrom(both, excess).system).toBeLessThanOrEqual(marchFrom(alone, excess).system * (1 + 1e-7));
      }),
      { numRuns: 60 },
    );
  });

  it('rises with the pump inlet pressure at every part', () => {
    const rig = prepareRig(rigOf(pumpOf(2e-3, 2), [port(4.7e-3), hose(4.8e-3, 1.5), core(1.6e-3, 6e-3)]), AIR);
    let before = march(rig, 2);
    expect(before.throughput).toBe(0);
    expect(before.system).toBe(2);
    for (let p = 2.1; p < 2e4; p *= 1.3) {
      const point = march(rig, p);
      expect(point.throughput).toBeGreaterThan(before.throughput);
      expect(point.system).toBeGreaterThan(before.system);
      before = point;
    }
  });
});
