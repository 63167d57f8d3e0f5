import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { limitingPart, rigProfile } from '../../../src/engine/rig/profile.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { AIR, constantPart, core, hose, port, prepareConstant, pumpOf, rigOf } from './fakes.ts';

describe('the profile of a rig', () => {
  it('gives each part of a series its part of the pressure difference, as by hand', () => {
    const parts = [constantPart('tight', 1e-3), constantPart('easy', 4e-3)];
    const curve = rigCurve(prepareRig(rigOf(pumpOf(1e-3), parts), AIR, prepareConstant));
    const profile = rigProfile(curve, 900);
    // resistances 1000, 250 and the pump's 1000: the flow is 900/2250 = 0.4
    expect(profile.throughput).toBeCloseTo(0.4, 6);
    expect(profile.pumpInlet).toBeCloseTo(400, 4);
    expect(profile.parts.map((part) => Number(part.share.toFixed(6)))).toEqual([0.8, 0.2]);
    expect(limitingPart(curve, 900)?.name).toBe('tight');
  });

  it('counts the loss of a branch once, shared by the flow of each way', () => {
    const parts = [
      constantPart('in front', 2e-3),
      constantPart('left', 1e-3, { branch: 'm' }),
      constantPart('right', 3e-3, { branch: 'm' }),
    ];
    const curve = rigCurve(prepareRig(rigOf(pumpOf(1), parts), AIR, prepareConstant));
    const shares = rigProfile(curve, 100).parts.map((part) => part.share);
    // resistances 500 and 250: two thirds in front, the branch's third split 1 to 3
    expect(shares[0]).toBeCloseTo(2 / 3, 6);
    expect(shares[1]).toBeCloseTo(1 / 12, 6);
    expect(shares[2]).toBeCloseTo(3 / 12, 6);
  });

  it('has shares that add up to one at any pressure above the ultimate', () => {
    const parts = [
      hose(4.8e-3, 1.5),
      hose(6e-3, 1, { branch: 'm' }),
      hose(4e-3, 1, { branch: 'm' }),
      core(1.6e-3, 6e-3),
    ];
    const curve = rigCurve(prepareRig(rigOf(pumpOf(2e-3, 2.7), parts), AIR));
    fc.assert(
      fc.property(fc.double({ min: Math.log(3), max: Math.log(2e5), noNaN: true }), (lnP) => {
        const { parts: rows, system } = rigProfile(curve, Math.exp(lnP));
        expect(rows.reduce((sum, part) => sum + part.share, 0)).toBeCloseTo(1, 6);
        expect(system / Math.exp(lnP)).toBeCloseTo(1, 8);
        for (const part of rows) expect(part.upstream).toBeGreaterThan(part.downstream);
      }),
      { numRuns: 40 },
    );
  });

  it('shows no flow and no loss at the ultimate pressure', () => {
    const curve = rigCurve(prepareRig(rigOf(pumpOf(2e-3, 2.7), [port(4e-3)]), AIR));
    const profile = rigProfile(curve, 2);
    expect(profile.throughput).toBe(0);
    expect(profile.parts.map((part) => [part.share, part.velocity, part.conductance])).toEqual([[0, 0, undefined]]);
  });

  it('never shows gas that is faster than sound', () => {
    const curve = rigCurve(prepareRig(rigOf(pumpOf(1, 0), [port(2e-3)]), AIR));
    const sound = Math.sqrt(1.4 * 287.06 * 293.15);
    expect(rigProfile(curve, 1e5).parts[0]?.velocity).toBeLessThan(sound * 1.01);
  });

  it('goes from viscous to molecular flow as the pressure falls', () => {
    const curve = rigCurve(prepareRig(rigOf(pumpOf(5e-3), [hose(4.8e-3, 1.5)]), AIR));
    const regimes = [1e5, 200, 5, 1e-2].map((p) => rigProfile(curve, p).parts[0]?.regime);
    expect(regimes).toEqual(['viscous', 'slip', 'transitional', 'molecular']);
  });
});
