import { describe, expect, it } from 'vitest';
import { ballastWaterLimit, pumpWaterLimit } from '../../../src/engine/rig/ballast.ts';
import { Fault } from '../../../src/faults/issue.ts';

const CELSIUS = 273.15;

describe('the water limit of a pump with gas ballast', () => {
  it('is that of the handbook arithmetic: a tenth of the speed as ballast in a pump at 70 C', () => {
    // p_s(70 C) = 31201 Pa (steam tables); 0.1 x 101325 x 31201/(101325 - 31201) = 4508 Pa, by hand
    expect(ballastWaterLimit(0.001, 0.0001, 70 + CELSIUS) / 4508).toBeCloseTo(1, 3);
    // humid air of 1300 Pa and an outlet valve at 1333 mbar: 0.1 x 133300 x (31201 - 1300)/(133300 - 31201) = 3904 Pa, by hand
    expect(ballastWaterLimit(0.001, 0.0001, 70 + CELSIUS, 1300, 133300) / 3904).toBeCloseTo(1, 3);
  });

  it('grows in proportion to the ballast and with a warmer pump, and is nothing with the ballast shut', () => {
    const at = (ballast: number, celsius: number): number => ballastWaterLimit(0.002, ballast, celsius + CELSIUS);
    expect(at(2e-4, 60) / at(1e-4, 60)).toBeCloseTo(2, 12);
    expect(at(1e-4, 75)).toBeGreaterThan(at(1e-4, 55));
    expect(at(0, 70)).toBe(0);
  });

  it('keeps the outlet mixture exactly at saturation', () => {
    const speed = 0.003;
    const ballast = 0.0004;
    const limit = ballastWaterLimit(speed, ballast, 65 + CELSIUS, 900);
    const share = (speed * limit + ballast * 900) / (speed * limit + ballast * 101325);
    // p_s(65 C) = 25042 Pa (steam tables)
    expect((share * 101325) / 25042).toBeCloseTo(1, 3);
  });

  it('is none in a pump so hot that nothing condenses, and nothing in air wetter than that', () => {
    expect(ballastWaterLimit(0.002, 1e-4, 101 + CELSIUS)).toBe(Number.POSITIVE_INFINITY);
    expect(ballastWaterLimit(0.002, 1e-4, 20 + CELSIUS, 3000)).toBe(0);
  });

  it('is a fault for a pump without speed and for ballast below nothing', () => {
    expect(() => ballastWaterLimit(0, 1e-4, 343)).toThrow(Fault);
    expect(() => ballastWaterLimit(0.002, -1e-4, 343)).toThrow(Fault);
  });

  it('of a pump with a speed table is at the inlet pressure at which it draws so much vapour', () => {
    // S p_w = 0.0001 x 101325 x 31201/(101325 - 31201) = 4.5084 Pa m3/s by hand (p_s(70 C) = 31201 Pa, steam tables); half-way
    // over ln p the table has 2.25 L/s at 2000 Pa, which is 4.5 Pa m3/s
    const speedTable = [
      [200, 0.5e-3],
      [20_000, 4e-3],
    ] as const;
    const pump = { name: 'pump', speed: 4e-3, ultimate: 0, speedTable };
    const limit = pumpWaterLimit(pump, 0.0001, 70 + CELSIUS);
    // 4.5084/4.5 = 1.00187; d(S p)/dp = S + 3.5 L/s / ln 100 = 3.01 L/s, so p_w = 2000 + 0.0084/0.00301 = 2002.8 Pa
    expect(limit / 2002.8).toBeCloseTo(1, 3);
    expect(pumpWaterLimit({ name: 'pump', speed: 1e-3, ultimate: 0 }, 0.0001, 70 + CELSIUS) / 4508).toBeCloseTo(1, 3);
    expect(pumpWaterLimit(pump, 0, 70 + CELSIUS)).toBe(0);
    expect(pumpWaterLimit(pump, 0.0001, 101 + CELSIUS)).toBe(Number.POSITIVE_INFINITY);
  });
});
