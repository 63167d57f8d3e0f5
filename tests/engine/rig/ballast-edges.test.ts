import { describe, expect, it } from 'vitest';
import { saturationPressure } from '../../../src/engine/gas/water.ts';
import { ballastWaterLimit } from '../../../src/engine/rig/ballast.ts';
import { issueOf } from '../../issue-of.ts';

describe('the edges of the water limit', () => {
  it('are a speed above nothing', () => {
    for (const value of [0, -1e-3, Number.NaN])
      expect(issueOf(() => ballastWaterLimit(value, 1e-4, 343))).toEqual({
        kind: 'limit',
        argument: 'Speed',
        value,
        rule: 'above',
        limit: 0,
        unit: 'm3/s',
      });
  });

  it('are a ballast of nothing or more', () => {
    for (const value of [-1e-6, Number.NaN])
      expect(issueOf(() => ballastWaterLimit(1e-3, value, 343))).toEqual({
        kind: 'limit',
        argument: 'Gas ballast',
        value,
        rule: 'at least',
        limit: 0,
        unit: 'm3/s',
      });
    expect(issueOf(() => ballastWaterLimit(1e-3, 0, 343))).toBeUndefined();
  });

  it('are an outlet pressure above that of saturation: at it nothing condenses, ballast or not', () => {
    const outlet = saturationPressure(350);
    for (const ballast of [0, 1e-4])
      expect(ballastWaterLimit(1e-3, ballast, 350, 0, outlet)).toBe(Number.POSITIVE_INFINITY);
    expect(ballastWaterLimit(1e-3, 0, 350, 0, outlet * 1.001)).toBe(0);
  });

  it('are a standard atmosphere to blow into, where no other is given', () => {
    // p_s(70 C) = 31201 Pa (steam tables); 0.25 x 101325 x 31201/(101325 - 31201), by hand 11271 Pa
    expect(ballastWaterLimit(2e-3, 5e-4, 343.15) / 11271).toBeCloseTo(1, 3);
    expect(ballastWaterLimit(2e-3, 5e-4, 343.15)).toBe(ballastWaterLimit(2e-3, 5e-4, 343.15, 0, 101325));
  });
});
