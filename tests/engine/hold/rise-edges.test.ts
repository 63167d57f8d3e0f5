import { describe, expect, it } from 'vitest';
import { leakRate, massFlowOf } from '../../../src/engine/hold/leak.ts';
import { type HoldLoad, pressureAfterHold } from '../../../src/engine/hold/rise.ts';
import { issueOf } from '../../issue-of.ts';
import { NOTHING } from './nothing.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;

describe('the sum of all that lifts the pressure', () => {
  it('is that of each alone', () => {
    const each: readonly Partial<HoldLoad>[] = [{ leak: 1e-4 }, { outgassing: 2e-4, exponent: 0.5 }, { water: 1e-5 }];
    const rise = (load: Partial<HoldLoad>): number => pressureAfterHold(0.02, 900, 40, { ...NOTHING, ...load }) - 40;
    const [leak = {}, outgassing = {}, water = {}] = each;
    const alone = rise(leak) + rise(outgassing) + rise(water);
    expect(rise({ ...leak, ...outgassing, ...water })).toBeCloseTo(alone, 9);
    // 1e-4 Pa m3/s into 20 L for 900 s; 2 Q1 h (sqrt(1 + t/h) - 1)/V; m R T/(M V), by hand
    expect(rise(leak)).toBeCloseTo(4.5, 9);
    expect(rise(outgassing)).toBeCloseTo((2 * 2e-4 * 3600 * (Math.sqrt(1.25) - 1)) / 0.02, 9);
    expect(rise(water)).toBeCloseTo((1e-5 * (8.314462618 / 0.01801527) * 293.15) / 0.02, 6);
    expect(rise({})).toBe(0);
  });

  it('has no vapour from water where the start is at or above saturation, and never falls there', () => {
    for (const start of [SATURATION * 1.001, 5000])
      expect(pressureAfterHold(0.02, 900, start, { ...NOTHING, water: 1e-3 })).toBe(start);
    const nearly = pressureAfterHold(0.02, 900, SATURATION - 10, { ...NOTHING, water: 1e-3 });
    expect(nearly / SATURATION).toBeCloseTo(1, 3);
  });

  it('has nothing from water below nothing', () => {
    expect(pressureAfterHold(0.02, 900, 40, { ...NOTHING, water: -1 })).toBe(40);
  });
});

describe('what an isolated volume can hold', () => {
  it('is water below its own volume at 998.2 kg/m3, and the fault says how much', () => {
    // density of water at 20 C. Source: IAPWS-95
    const at = (water: number) => issueOf(() => pressureAfterHold(0.02, 60, 40, { ...NOTHING, water }));
    expect(at(19.963)).toBeUndefined();
    expect(at(0.02 * 998.2 * (1 + 1e-12))).toEqual({
      kind: 'wrong',
      argument: 'Water',
      found: 'more than the volume holds (19.96 kg)',
      allowed: 'less than the volume',
      todo: 'Check the unit of Water and of the volume.',
    });
    // 1 L of it in 1 L
    expect(issueOf(() => pressureAfterHold(1, 60, 40, { ...NOTHING, water: 998.2 }))?.kind).toBe('wrong');
  });

  it('is a leak up to half the pressure around, where air chokes no more', () => {
    // 0.5 Pa m3/s lifts 0.02 m3 by 25 Pa a second; half of the air is at 50662.5 Pa
    const load = { ...NOTHING, leak: 0.5 };
    expect(pressureAfterHold(0.02, 2000, 662.5, load)).toBeCloseTo(50662.5, 9);
    expect(issueOf(() => pressureAfterHold(0.02, 2000, 662.6, load))).toEqual({
      kind: 'model-range',
      model: 'a steady leak',
      argument: 'The pressure at the end',
      value: 50662.6,
      min: 0,
      max: 50662.5,
      unit: 'Pa',
    });
    // without a leak nothing comes from the air around
    expect(pressureAfterHold(0.02, 2000, 60000, { ...NOTHING, outgassing: 0.5 })).toBeCloseTo(110000, 6);
  });

  it('is nothing without a volume or a time, said in full', () => {
    const limit = { kind: 'limit', rule: 'above', limit: 0 };
    for (const value of [0, -1, Number.NaN]) {
      const volume = { ...limit, argument: 'Volume', value, unit: 'm3' };
      expect(issueOf(() => pressureAfterHold(value, 60, 40, NOTHING))).toEqual(volume);
      expect(issueOf(() => leakRate(value, 1, 60))).toEqual(volume);
      expect(issueOf(() => leakRate(1, 1, value))).toEqual({ ...limit, argument: 'Time', value, unit: 's' });
    }
    expect(leakRate(0.02, 30, 600)).toBeCloseTo(1e-3, 15);
  });

  it('is gas of so many kilograms a second: Q M/(R T)', () => {
    // 1 Pa m3/s of R-134a (102.03 g/mol) at 20 C, by hand
    expect(massFlowOf(1, 0.10203, 293.15)).toBeCloseTo(0.10203 / (8.314462618 * 293.15), 15);
    expect(massFlowOf(3, 0.10203, 293.15) / massFlowOf(1, 0.10203, 293.15)).toBeCloseTo(3, 12);
  });
});
