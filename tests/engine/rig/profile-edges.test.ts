import { describe, expect, it } from 'vitest';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import { limitingPart, rigProfile } from '../../../src/engine/rig/profile.ts';
import type { Pump, RigPart } from '../../../src/engine/rig/rig.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { AIR, constantPart, port, prepareConstant, pumpOf, rigOf } from './fakes.ts';

const curveOf = (pump: Pump, parts: readonly RigPart[] = []) =>
  rigCurve(prepareRig(rigOf(pump, parts), AIR, prepareConstant));

/** m/s in air of 20 C: textbooks (343 m/s at 20 C) */
const SOUND = 343.2;
/** Stand-in parts have a bore of 5 mm, m2 */
const AREA = (Math.PI * 0.005 * 0.005) / 4;

describe('a part in a profile', () => {
  it('has the conductance that it was given, all its like passages together', () => {
    const curve = curveOf(pumpOf(1e-3, 2), [constantPart('one', 1e-3), constantPart('two', 1e-3, { count: 2 })]);
    const [one, two] = rigProfile(curve, 500).parts;
    expect(one?.conductance).toBeCloseTo(1e-3, 12);
    expect(two?.conductance).toBeCloseTo(2e-3, 12);
    expect(one?.share).toBeCloseTo(2 / 3, 9);
    expect(two?.share).toBeCloseTo(1 / 3, 9);
  });

  it('has no conductance where it has no resistance', () => {
    const [part] = rigProfile(curveOf(pumpOf(1e-3), [constantPart('open', Number.POSITIVE_INFINITY)]), 500).parts;
    expect(part?.conductance).toBeUndefined();
    expect(part?.share).toBe(0);
  });

  it('has the gas at the speed of its volume flow over its area at the downstream end', () => {
    for (const count of [1, 3]) {
      const curve = curveOf(pumpOf(1e-3), [constantPart('c', 1e-3, { count })]);
      const profile = rigProfile(curve, 500);
      // Q/p at the pump inlet is the speed of the pump, 1e-3 m3/s
      expect(profile.parts[0]?.velocity).toBeCloseTo(1e-3 / (AREA * count), 8);
    }
  });

  it('has the gas at the speed of sound where it would have to be faster', () => {
    const velocity = rigProfile(curveOf(pumpOf(1), [constantPart('c', 1)]), 500).parts[0]?.velocity ?? 0;
    expect(Math.abs(velocity / SOUND - 1)).toBeLessThan(2e-3);
    const real = rigCurve(prepareRig(rigOf(pumpOf(10), [port(2e-3)]), AIR));
    expect(Math.abs((rigProfile(real, 1e5).parts[0]?.velocity ?? 0) / SOUND - 1)).toBeLessThan(2e-3);
  });

  it('has its Knudsen number at the mean of its two pressures', () => {
    const [part] = rigProfile(curveOf(pumpOf(1e-3), [constantPart('c', 1e-3)]), 500).parts;
    expect(part).toMatchObject({ name: 'c', kind: 'hose' });
    expect(part?.downstream).toBeCloseTo(250, 6);
    expect(part?.upstream).toBeCloseTo(500, 6);
    // mean free path of air at 20 C: 6.6 to 6.8 mm Pa (vacuum handbooks, from memory); mean pressure 375 Pa
    expect(Math.abs((part?.knudsen ?? 0) / (6.7e-3 / 375 / 0.005) - 1)).toBeLessThan(0.03);
    expect(part?.regime).toBe('slip');
  });

  it('is in the regime of its mean pressure, not of one end', () => {
    // the limit of 0.1 is at 6.7e-3/(0.1 x 0.005) = 13.4 Pa; from 5 to 30 Pa the mean is 17.5 Pa
    const [part] = rigProfile(curveOf(pumpOf(5e-3), [constantPart('c', 1e-3)]), 30).parts;
    expect(part?.downstream).toBeCloseTo(5, 6);
    expect(part?.regime).toBe('slip');
  });
});

describe('the pump in a profile', () => {
  it('runs at the speed of its inlet pressure', () => {
    const profile = rigProfile(curveOf(pumpOf(2e-3, 5), [constantPart('c', 1e-3)]), 35);
    // the excess of 30 Pa falls by resistances of 1000 and 500: 10 Pa above the ultimate at the inlet
    expect(profile.pumpInlet).toBeCloseTo(15, 8);
    expect(profile.throughput).toBeCloseTo(2e-3 * 10, 10);
    expect(profile.pumpSpeed).toBeCloseTo(2e-3 * (1 - 5 / 15), 10);
    expect(profile.system).toBeCloseTo(35, 8);
  });

  it('runs at no speed where nothing flows, even with nothing at its inlet', () => {
    for (const pump of [pumpOf(2e-3), pumpOf(2e-3, 5)]) {
      const profile = rigProfile(curveOf(pump, [constantPart('c', 1e-3)]), 0);
      expect(profile.pumpSpeed).toBe(0);
      expect(profile.throughput).toBe(0);
      expect(profile.parts[0]).toMatchObject({ share: 0, velocity: 0, conductance: undefined });
    }
  });
});

describe('the part that limits', () => {
  const tight = constantPart('tight', 1e-3);
  const middling = constantPart('middling', 2e-3);
  const easy = constantPart('easy', 4e-3);

  it('is the one with the largest share, wherever it stands', () => {
    for (const parts of [
      [tight, middling, easy],
      [easy, tight, middling],
      [easy, middling, tight],
    ]) {
      const limiting = limitingPart(curveOf(pumpOf(1e-3, 3), parts), 700);
      expect(limiting?.name).toBe('tight');
      // resistances 1000, 500 and 250
      expect(limiting?.share).toBeCloseTo(1000 / 1750, 9);
    }
  });

  it('is the one nearer to the pump where nothing flows, and none of a bare pump', () => {
    const curve = curveOf(pumpOf(1e-3, 3), [easy, tight]);
    expect(limitingPart(curve, 3)).toEqual({ name: 'easy', share: 0 });
    expect(limitingPart(curveOf(pumpOf(1e-3, 3)), 700)).toBeUndefined();
  });
});
