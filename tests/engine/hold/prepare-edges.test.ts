import { describe, expect, it } from 'vitest';
import {
  type HoldReading,
  meanTemperature,
  noiseOf,
  ONE_MICRON,
  prepareHold,
  resolutionOf,
  withEvenNoise,
  without,
} from '../../../src/engine/hold/prepare.ts';
import { issueOf } from '../../issue-of.ts';

const ZERO = 273.15;
const readings = (pressures: readonly number[], celsius: readonly (number | undefined)[] = []): HoldReading[] =>
  pressures.map((pressure, i) => {
    const t = celsius[i];
    return { time: 60 * i, pressure, ...(t === undefined ? {} : { temperature: t + ZERO }) };
  });

describe('the step of a gauge as a log shows it', () => {
  it('is the smallest step of a staircase, a log of which a third or more repeats', () => {
    // four values in six readings: just a third repeats
    expect(resolutionOf([30, 30, 10, 20, 20, 50])).toBe(10);
    expect(resolutionOf([30, 10, 10, 18, 50, 18])).toBe(8);
    // five values in seven readings: less than a third
    expect(resolutionOf([30, 30, 10, 20, 20, 50, 60])).toBe(ONE_MICRON);
  });

  it('is one micron where all readings are one value, or the steps are finer than that', () => {
    // a micron of mercury, 133.322387415/1000 Pa. Source: the conventional mmHg, NIST SP 811
    expect(ONE_MICRON).toBeCloseTo(133.322387415e-3, 15);
    expect(resolutionOf([30, 30, 30])).toBe(ONE_MICRON);
    expect(resolutionOf([30, 30, 30.05, 30.05, 30.05])).toBe(ONE_MICRON);
  });
});

describe('a log made ready for the fits', () => {
  it('counts time from the first reading, and expects noise of one percent and of the rounding', () => {
    const data = prepareHold(
      [
        { time: 100, pressure: 30 },
        { time: 160, pressure: 40 },
        { time: 230, pressure: 0 },
      ],
      2,
    );
    expect([...data.time]).toEqual([0, 60, 130]);
    expect([...data.pressure]).toEqual([30, 40, 0]);
    expect([...data.warmth]).toEqual([1, 1, 1]);
    expect(data.wetness).toBeUndefined();
    expect(data.resolution).toBe(2);
    [30, 40, 0].forEach((p, i) => {
      expect(data.noise[i]).toBeCloseTo(Math.sqrt((0.01 * p) ** 2 + 4 / 12), 12);
    });
    expect(noiseOf(Float64Array.of(300), 0)[0]).toBeCloseTo(3, 12);
  });

  it('takes the step from the log where none is told', () => {
    expect(prepareHold(readings([30, 30, 40, 40])).resolution).toBe(10);
    expect(prepareHold(readings([30, 30, 40, 40]), 5).resolution).toBe(5);
  });

  it('keeps 120 readings, and thins a longer log by the medians of neighbours', () => {
    const short = Array.from({ length: 120 }, (_, i) => 30 + i);
    expect([...prepareHold(readings(short)).pressure]).toEqual(short);
    // three in each group, the middle one is kept however far one of them lies off
    const triple = Array.from({ length: 360 }, (_, i) => (i % 3 === 1 ? 9000 : 30 + i));
    const thin = prepareHold(readings(triple));
    expect(thin.pressure).toHaveLength(120);
    expect(thin.time[1]).toBe(180);
    expect([...thin.pressure].every((p, i) => p === 30 + 3 * i + 2)).toBe(true);
    // two in each group: their mean; the first reading is then no reading, and time counts from the first mean
    const pairs = prepareHold(readings(Array.from({ length: 240 }, (_, i) => 30 + i)));
    expect([...pairs.pressure].every((p, i) => p === 30.5 + 2 * i)).toBe(true);
    expect([...pairs.time].every((t, i) => t === 120 * i)).toBe(true);
    // 121 readings: one group of two
    const odd = prepareHold(readings(Array.from({ length: 121 }, (_, i) => 30 + i)));
    expect(odd.pressure).toHaveLength(120);
    expect([odd.pressure[0], odd.pressure[118], odd.pressure[119]]).toEqual([30, 148, 149.5]);
  });

  it('draws straight lines between logged temperatures and holds them at the ends', () => {
    const none = undefined;
    const data = prepareHold(readings([30, 30, 30, 30, 30, 30, 30], [none, 20, none, none, 26, none, none]));
    [20, 20, 22, 24, 26, 26, 26].forEach((t, i) => {
      expect(data.warmth[i]).toBeCloseTo((t + ZERO) / (20 + ZERO), 12);
    });
    const uneven = prepareHold([
      { time: 0, pressure: 30, temperature: 290 },
      { time: 30, pressure: 30 },
      { time: 120, pressure: 30, temperature: 300 },
    ]);
    expect(uneven.warmth[1]).toBeCloseTo(292.5 / 290, 12);
  });

  it('has the saturation pressure of each reading in parts of that at the mean temperature', () => {
    // IAPWS-95, rows PL-04, PL-06, PL-08 of the reference file: 10, 20 and 30 C
    const data = prepareHold(readings([30, 31, 32], [10, 20, 30]));
    [1228.2, 2339.32, 4246.97].forEach((p, i) => {
      expect((data.wetness?.[i] ?? 0) / (p / 2339.32)).toBeCloseTo(1, 4);
    });
  });

  it('counts temperatures less than 0.2 K apart as one', () => {
    expect(prepareHold(readings([30, 31, 32], [20, 20.19, 20])).wetness).toBeUndefined();
    expect(prepareHold(readings([30, 31, 32], [20, 20.21, 20])).wetness).toHaveLength(3);
    const exact = [290, 290.25, 290].map((temperature, i) => ({ time: i, pressure: 30, temperature }));
    expect(prepareHold(exact).wetness).toHaveLength(3);
  });

  it('thins temperature and saturation as it thins the rest', () => {
    const warming = Array.from({ length: 240 }, (_, i) => 20 + i / 24);
    const data = prepareHold(
      readings(
        warming.map(() => 30),
        warming,
      ),
    );
    expect(data.warmth).toHaveLength(120);
    expect(data.wetness).toHaveLength(120);
    expect(data.warmth[1]).toBeCloseTo((20 + 2.5 / 24 + ZERO) / (20 + ZERO), 12);
    // 29.9 C at the last pair, mean 24.98 C: by about 6 % a kelvin
    expect(data.wetness?.[119]).toBeGreaterThan(1.3);
    expect(data.wetness?.[119]).toBeLessThan(1.4);
  });

  it('has the mean of the temperatures that are logged', () => {
    expect(meanTemperature(readings([1, 2, 3], [20, undefined, 23]))).toBeCloseTo(21.5 + ZERO, 12);
    expect(meanTemperature(readings([1, 2, 3]))).toBeUndefined();
  });
});

describe('a log with even noise, or without a reading', () => {
  it('has the geometric mean of the sizes at each reading', () => {
    const data = { ...prepareHold(readings([30, 31, 32])), noise: Float64Array.of(1, 2, 32) };
    const even = withEvenNoise(data);
    for (const size of even.noise) expect(size).toBeCloseTo(4, 12);
    expect([...even.pressure]).toEqual([30, 31, 32]);
  });

  it('loses that reading in all columns, and time counts from the first one left', () => {
    const data = prepareHold(readings([30, 40, 50, 60], [10, 20, 30, 20]));
    const rest = without(data, 0);
    expect([...rest.time]).toEqual([0, 60, 120]);
    expect([...rest.pressure]).toEqual([40, 50, 60]);
    expect([...rest.noise]).toEqual([...data.noise].slice(1));
    expect([...rest.warmth]).toEqual([...data.warmth].slice(1));
    expect([...(rest.wetness ?? [])]).toEqual([...(data.wetness ?? [])].slice(1));
    expect(rest.resolution).toBe(data.resolution);
    expect([...without(data, 2).time]).toEqual([0, 60, 180]);
    expect(without(prepareHold(readings([30, 40, 50, 60])), 1).wetness).toBeUndefined();
  });
});

describe('a log that cannot be read', () => {
  it('says what is wrong with it', () => {
    const few = { kind: 'wrong', argument: 'Log', allowed: 'three readings or more' };
    const todo = 'Read the gauge at least every few minutes, and give a row for each reading.';
    expect(issueOf(() => prepareHold([]))).toEqual({ ...few, found: '0 readings', todo });
    expect(issueOf(() => prepareHold(readings([30])))).toEqual({ ...few, found: '1 reading', todo });
    expect(issueOf(() => prepareHold(readings([30, 31])))).toEqual({ ...few, found: '2 readings', todo });
    expect(issueOf(() => prepareHold(readings([30, 31, 32])))).toBeUndefined();
    for (const value of [-1e-9, Number.NaN])
      expect(issueOf(() => prepareHold(readings([30, value, 32])))).toEqual({
        kind: 'limit',
        argument: 'Pressure',
        value,
        rule: 'at least',
        limit: 0,
        unit: 'Pa',
      });
    const again = [0, 60, 60].map((time) => ({ time, pressure: 30 }));
    const back = [0, 60, 30].map((time) => ({ time, pressure: 30 }));
    for (const log of [again, back])
      expect(issueOf(() => prepareHold(log))).toEqual({
        kind: 'wrong',
        argument: 'Minutes',
        found: 'not later than in the row above',
        allowed: 'rising time',
        todo: 'Sort the rows by time and remove those given twice.',
      });
  });
});
