import { describe, expect, it } from 'vitest';
import {
  isLarge,
  NO_EVACUATION,
  recoveryLevel,
  SMALL_APPLIANCE,
  SMALL_APPLIANCE_CHARGE,
} from '../../../src/engine/refrigerant/recovery-level.ts';

/** kg */
const LB = 0.45359237;
/** Pa absolute under a vacuum counted from 29.9 inHg; conventional inch of mercury, 25.4 mm x 13595.1 kg/m3 x g */
const under = (inches: number): number => (29.9 - inches) * 0.0254 * 13_595.1 * 9.80665;

describe('the level to which an appliance is evacuated (40 CFR 82.156 Table 1, EPA-01 to EPA-11)', () => {
  it.each([
    ['very high', 10, true, 0],
    ['very high', 10, false, 0],
    ['very high', 300, true, 0],
    ['very high', 300, false, 0],
    ['high', 10, true, 0],
    ['high', 10, false, 0],
    ['high', 300, true, 4],
    ['high', 300, false, 10],
    ['medium', 10, true, 4],
    ['medium', 10, false, 10],
    ['medium', 300, true, 4],
    ['medium', 300, false, 15],
  ] as const)('of %s pressure, %d lb, old machine %s, is %d inHg', (pressureClass, pounds, old, inches) => {
    const level = recoveryLevel(pressureClass, pounds * LB, old);
    expect(level.vacuum).toBe(inches);
    expect(level.pressure / under(inches)).toBeCloseTo(1, 6);
  });

  it('of low pressure is 25 mmHg absolute whatever the charge and the machine', () => {
    for (const charge of [1, 300]) {
      for (const old of [true, false]) {
        const level = recoveryLevel('low', charge, old);
        expect(level.vacuum).toBeUndefined();
        // EPA-11: 3.333 kPa
        expect(level.pressure).toBeCloseTo(3333.06, 1);
      }
    }
  });

  it('changes at a full charge of 200 lb, which is 200 lb as well where it was typed in kilograms', () => {
    for (const charge of [200 * LB, 90.718474, 90.718474 * (1 - 5e-10), 201 * LB]) expect(isLarge(charge)).toBe(true);
    for (const charge of [199.9 * LB, 200 * LB * (1 - 1e-8), 0]) expect(isLarge(charge)).toBe(false);
    expect(recoveryLevel('high', 200 * LB, false).vacuum).toBe(10);
    expect(recoveryLevel('high', 199.9 * LB, false).vacuum).toBe(0);
  });

  it('is 0 psig where a repair is minor, and 4 inHg or a share of the charge for small appliances', () => {
    // EPA-12 to EPA-15
    expect(NO_EVACUATION).toEqual({ pressure: 101_325, vacuum: 0 });
    expect(SMALL_APPLIANCE).toMatchObject({ level: { vacuum: 4 }, running: 0.9, notRunning: 0.8 });
    expect(SMALL_APPLIANCE.level.pressure / under(4)).toBeCloseTo(1, 6);
    expect(SMALL_APPLIANCE_CHARGE).toBeCloseTo(2.268, 3);
  });

  it('is never deeper for an old machine, and never deeper for a small charge', () => {
    for (const pressureClass of ['very high', 'high', 'medium', 'low'] as const) {
      const of = (charge: number, old: boolean): number => recoveryLevel(pressureClass, charge, old).pressure;
      for (const charge of [10, 300]) expect(of(charge, true)).toBeGreaterThanOrEqual(of(charge, false));
      for (const old of [true, false]) expect(of(10, old)).toBeGreaterThanOrEqual(of(300, old));
    }
  });
});
