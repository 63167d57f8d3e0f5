import { describe, expect, it } from 'vitest';
import { refrigerantByName } from '../../../src/engine/refrigerant/by-name.ts';
import { CLASS_WITHOUT_TABLE, pressureClassOf } from '../../../src/engine/refrigerant/pressure-class.ts';
import type { Refrigerant } from '../../../src/engine/refrigerant/refrigerant.ts';

/** Pa: pound-force by the inch squared, 0.45359237 kg x 9.80665 m/s2 / (0.0254 m)^2 */
const PSIA = (0.45359237 * 9.80665) / 0.0254 ** 2;
/** K, 104 F */
const HOT = (104 - 32) / 1.8 + 273.15;

/** A refrigerant whose liquid stands under a pressure (Pa) at 104 F and nowhere else. */
function standingAt(pressure: number, highest = 350): Refrigerant {
  const bubblePressure = (temperature: number): number => {
    expect(temperature).toBeCloseTo(HOT, 9);
    return pressure;
  };
  return { ...refrigerantByName('R-22'), highest, bubblePressure };
}

describe('the pressure class of an appliance (40 CFR 82.152: 45, 170 and 355 psia at 104 F, EPA-17)', () => {
  it.each([
    [44.9, 'low'],
    [45.1, 'medium'],
    [169.9, 'medium'],
    [170.1, 'high'],
    [354.9, 'high'],
    [355.1, 'very high'],
  ] as const)('at %d psia is %s', (psia, pressureClass) => {
    const pressure = psia * PSIA;
    expect(pressureClassOf(standingAt(pressure))).toEqual({ pressureClass, pressure, close: true });
  });

  it.each([
    [45, 'medium'],
    [170, 'medium'],
    [355, 'high'],
  ] as const)(
    'is at the limit itself, %d psia, %s: low is below 45, the others go to their limit',
    (psia, expected) => {
      // psi to Pa with the digits of NIST SP 811 and more, so that the limit is met to the last bit
      expect(pressureClassOf(standingAt(psia * 6894.757293168)).pressureClass).toBe(expected);
    },
  );

  it('says that a limit is close within 3 % of it on either side (common practice, no source)', () => {
    for (const limit of [45, 170, 355]) {
      for (const [off, close] of [
        [-0.031, false],
        [-0.029, true],
        [0, true],
        [0.029, true],
        [0.031, false],
      ] as const)
        expect(pressureClassOf(standingAt(limit * (1 + off) * PSIA)).close, `${limit} ${off}`).toBe(close);
    }
    expect(pressureClassOf(standingAt(20 * PSIA)).close).toBe(false);
    expect(pressureClassOf(standingAt(100 * PSIA)).close).toBe(false);
    expect(pressureClassOf(standingAt(800 * PSIA)).close).toBe(false);
  });

  it('is very high without a pressure where there is no liquid at 104 F, and by its pressure where there just is', () => {
    const nothing = { pressureClass: 'very high', pressure: undefined, close: false };
    expect(pressureClassOf(standingAt(100 * PSIA, 313.14))).toEqual(nothing);
    expect(pressureClassOf(standingAt(100 * PSIA, 313.15)).pressureClass).toBe('medium');
    expect(pressureClassOf(refrigerantByName('R-744'))).toEqual(nothing);
  });

  // psia of saturated liquid at 40 C as charts of the trade print them, to 1 psi or so; from memory
  it.each([
    ['R-600a', 77, 'medium', false],
    ['R-1234yf', 147, 'medium', false],
    ['R-134a', 147, 'medium', false],
    ['R-290', 199, 'high', false],
    ['R-22', 222, 'high', false],
    ['R-404A', 265, 'high', false],
    ['R-410A', 351, 'high', true],
    ['R-32', 360, 'very high', true],
  ] as const)('of %s follows from %d psia', (name, psia, pressureClass, close) => {
    const found = pressureClassOf(refrigerantByName(name));
    expect(found).toMatchObject({ pressureClass, close });
    expect(Math.abs((found.pressure ?? 0) / PSIA / psia - 1)).toBeLessThan(0.015);
  });

  it('of the old refrigerants without a table is given by name, and none of them has a table', () => {
    // the classes as lists of the trade have them, from memory
    for (const name of ['R-11', 'R-113', 'R-123', 'R-245fa', 'R-1233zd(E)'])
      expect(CLASS_WITHOUT_TABLE.get(name)).toBe('low');
    for (const name of ['R-12', 'R-114', 'R-124', 'R-500']) expect(CLASS_WITHOUT_TABLE.get(name)).toBe('medium');
    expect(CLASS_WITHOUT_TABLE.get('R-502')).toBe('high');
    for (const name of ['R-13', 'R-23']) expect(CLASS_WITHOUT_TABLE.get(name)).toBe('very high');
    expect(CLASS_WITHOUT_TABLE.size).toBe(12);
    for (const name of CLASS_WITHOUT_TABLE.keys()) expect(() => refrigerantByName(name)).toThrow();
  });
});
