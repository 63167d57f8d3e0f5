import { describe, expect, it } from 'vitest';
import { bestOf, cleanLog, readingsAndFits, trendOf } from '../../../src/engine/hold/bad-reading.ts';
import { fitAll, type HoldData } from '../../../src/engine/hold/fits.ts';
import { prepareHold } from '../../../src/engine/hold/prepare.ts';
import { holdShapes, type Shape } from '../../../src/engine/hold/shapes.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;
const SHAPES = holdShapes(SATURATION);
/** Readings a minute apart on a gauge of a step so small that the noise of 1 % decides. */
const logOf = (pressures: readonly number[]): HoldData =>
  prepareHold(
    pressures.map((pressure, i) => ({ time: 60 * i, pressure })),
    1e-3,
  );
const level = (n: number, size = 0): number[] => Array.from({ length: n }, (_, i) => 50 + (i % 2 === 0 ? size : -size));
const withOne = (pressures: readonly number[], index: number, value: number): number[] =>
  pressures.map((p, i) => (i === index ? value : p));
const sum = (values: readonly number[]): number => values.reduce((all, one) => all + one, 0);

describe('one bad reading', () => {
  it('is left out wherever it stands, above the others or below', () => {
    for (const value of [40, 60])
      for (const index of [0, 1, 5, 10, 11]) {
        const { bad, data, fits } = cleanLog(SHAPES, logOf(withOne(level(12, 0.1), index, value)));
        expect(bad, `${value} Pa at ${index}`).toBe(index);
        expect(data.pressure).toHaveLength(11);
        expect([...data.pressure].every((p) => Math.abs(p - 50) < 1)).toBe(true);
        expect(fits[0]?.weights[0]).toBeCloseTo(50, 1);
      }
  });

  it('is left out of a rise whose law goes on through it, at either end as well', () => {
    const rise = Array.from({ length: 12 }, (_, i) => 200 + 20 * i);
    const bent = Array.from({ length: 12 }, (_, i) => 200 + 900 * (1 - Math.exp(-i / 4)));
    // the first reading of a bent rise is no other than a smaller rise
    const places = [
      [rise, [0, 6, 11]],
      [bent, [3, 6, 11]],
    ] as const;
    for (const [law, indices] of places)
      for (const index of indices) {
        const { bad } = cleanLog(SHAPES, logOf(withOne(law, index, 1.6 * (law[index] ?? 0))));
        expect(bad, `reading ${index} of ${law}`).toBe(index);
      }
  });

  it('stays in a log of six readings, and goes from one of seven', () => {
    expect(cleanLog(SHAPES, logOf(withOne(level(6, 0.1), 3, 500))).bad).toBeUndefined();
    expect(cleanLog(SHAPES, logOf(withOne(level(7, 0.1), 3, 500))).bad).toBe(3);
  });

  it('is none where two readings are off alike, or where the noise is large', () => {
    const two = withOne(withOne(level(12, 0.1), 3, 60), 8, 60);
    const data = logOf(two);
    const kept = cleanLog(SHAPES, data);
    expect(kept.bad).toBeUndefined();
    expect(kept.data).toBe(data);
    expect(kept.fits.length).toBeGreaterThan(0);
    // looked at, yet only four sizes of the noise off: it stays with all that was read
    const half = level(14, 0.5);
    const near = logOf([...half, 50 + 4.4 * 0.5, ...half.map((p) => 100 - p)]);
    const even = { ...near, noise: near.noise.map(() => 0.5) };
    const few = logOf(withOne(level(6, 0.1), 3, 500));
    for (const log of [even, few]) {
      const whole = cleanLog(SHAPES, log);
      expect(whole.bad).toBeUndefined();
      expect(whole.data).toBe(log);
      expect(whole.fits).toHaveLength(fitAll(SHAPES, log).length);
    }
    expect(cleanLog(SHAPES, logOf(level(12, 5))).bad).toBeUndefined();
    expect(cleanLog(SHAPES, logOf(level(12))).bad).toBeUndefined();
  });

  it('is looked at, goes and pays from where the three measures of it say', () => {
    // readings around one that is off, up and down by one size of even noise: the residuals are known by hand
    const size = 0.5;
    const off = (others: number, sizes: number): number | undefined => {
      const half = level(others / 2, size);
      const data = logOf([...half, 50 + sizes * size, ...half.map((p) => 100 - p)]);
      return cleanLog(SHAPES, { ...data, noise: data.noise.map(() => size) }).bad;
    };
    // the least that is left out, in sizes of noise
    const least = (others: number): number => {
      let low = 2;
      let high = 9;
      for (let i = 0; i < 34; i++) {
        const middle = 0.5 * (low + high);
        if (off(others, middle) === undefined) low = middle;
        else high = middle;
      }
      return high;
    };
    // the prior counts as two readings with squares of a quarter; one unknown
    const scaleOf = (squares: number, n: number): number => Math.sqrt((squares + 0.5) / (n - 1 + 2));
    const all = (others: number, d: number): number => scaleOf(others + (d * d * others) / (others + 1), others + 1);
    const mid = least(14);
    expect(mid / scaleOf(14, 14)).toBeCloseTo(5, 6);
    const few = least(10);
    expect((few * 10) / 11 / all(10, few)).toBeCloseTo(2.8, 6);
    expect(few / scaleOf(10, 10)).toBeGreaterThan(5.2);
    const many = least(40);
    expect(all(40, many) / scaleOf(40, 40)).toBeCloseTo(1.4, 6);
    expect(many / scaleOf(40, 40)).toBeGreaterThan(5.2);
  });
});

describe('where the others put the one that is off', () => {
  /** How far off, in sizes of its noise, a reading must be to be left out, above its law and below; the others lie on it. */
  function bounds(
    law: readonly number[],
    index: number,
    change: Partial<HoldData> = {},
    shapes: readonly Shape[] = SHAPES,
  ): number[] {
    // its own noise is three times that of the others, so that it hardly pulls the fit
    const noise = Float64Array.from(law, (_, i) => (i === index ? 1.5 : 0.5));
    const bad = (sizes: number): number | undefined => {
      const pressure = withOne(law, index, (law[index] ?? 0) + 1.5 * sizes);
      return cleanLog(shapes, { ...logOf(pressure), pressure: Float64Array.from(pressure), noise, ...change }).bad;
    };
    return [1, -1].map((sign) => {
      let low = 0;
      let high = 4;
      for (let i = 0; i < 34; i++) {
        const middle = 0.5 * (low + high);
        if (bad(sign * middle) === undefined) low = middle;
        else high = middle;
      }
      return high;
    });
  }
  // nothing is left of the others but the prior, two readings with squares of a quarter
  const size = (others: number, unknowns: number): number => Math.sqrt(0.5 / (others - unknowns + 2));

  it('is on the line through them, before the first of them as well', () => {
    const line = Array.from({ length: 15 }, (_, i) => 50 + 2 * i);
    for (const bound of bounds(line, 5)) expect(bound / size(14, 2)).toBeCloseTo(5, 4);
    // below the line it may be the start of a bend
    expect((bounds(line, 0)[0] ?? 0) / size(14, 2)).toBeCloseTo(5, 4);
  });

  it('follows a saturation pressure that swings, with all that came before', () => {
    const wetness = Float64Array.from({ length: 15 }, (_, i) => 1 + 0.08 * Math.sin(0.9 * i + 0.4));
    // on a straight line at the readings in question, so that the others tell all of it
    for (const i of [5, 11]) wetness[i] = 0.5 * ((wetness[i - 1] ?? 0) + (wetness[i + 1] ?? 0));
    // p' = (s - p)/300 s by small steps, s straight between the readings a minute apart
    const law = [700];
    for (let i = 0; i + 1 < wetness.length; i++) {
      let p = law[i] ?? 0;
      for (let k = 0; k < 2000; k++) {
        const share = (k + 0.5) / 2000;
        const s = SATURATION * ((1 - share) * (wetness[i] ?? 0) + share * (wetness[i + 1] ?? 0));
        const middle = p + (0.015 * (s - p)) / 300;
        p += (0.03 * (s - middle)) / 300;
      }
      law.push(p);
    }
    const drifting = holdShapes(SATURATION, false, true).filter(({ name }) => name.endsWith('of each moment'));
    expect(drifting).toHaveLength(1);
    for (const index of [0, 5, 11])
      for (const bound of bounds(law, index, { wetness }, drifting))
        expect(Math.abs(bound / size(14, 2) - 5), `reading ${index}`).toBeLessThan(0.015);
  });

  it('follows the temperature as shut-in gas does', () => {
    const warmth = Float64Array.from({ length: 15 }, (_, i) => 1 + 0.04 * Math.sin(i));
    const gas = [...warmth].map((w) => 50 * w);
    for (const bound of bounds(gas, 5, { warmth })) expect(bound / size(14, 1)).toBeCloseTo(5, 4);
  });
});

describe('the fit that is best', () => {
  it('has the least criterion, the first of equals, and is none of none', () => {
    const fits = fitAll(SHAPES, logOf(Array.from({ length: 12 }, (_, i) => 50 + 20 * i)));
    const least = Math.min(...fits.map(({ aicc }) => aicc));
    expect(bestOf(fits)?.aicc).toBe(least);
    expect(bestOf([...fits].reverse())?.aicc).toBe(least);
    expect(bestOf([])).toBeUndefined();
    const [one] = fits;
    if (one === undefined) throw new Error('no fit');
    const twin = { ...one };
    expect(bestOf([one, twin])).toBe(one);
  });
});

describe('the kind of noise', () => {
  const ups = (law: (i: number) => number, size: (p: number) => number): number[] =>
    Array.from({ length: 20 }, (_, i) => law(i) + (i % 2 === 0 ? 1 : -1) * size(law(i)));

  it('is even where the readings show that, and in proportion to them where they show that', () => {
    const rise = (i: number): number => 50 + 30 * i;
    const even = readingsAndFits(SHAPES, logOf(ups(rise, () => 2)));
    expect(new Set(even.data.noise).size).toBe(1);
    const share = readingsAndFits(SHAPES, logOf(ups(rise, (p) => 0.01 * p)));
    expect(share.data.noise[19]).toBeGreaterThan(5 * (share.data.noise[0] ?? 0));
  });

  it('is in proportion where the readings are too near each other to tell: the highest under 1.3 of the lowest', () => {
    // up and down at the lower end alone, which even noise fits better by far
    const logTo = (top: number): HoldData =>
      logOf(
        Array.from({ length: 20 }, (_, i) => 50 + ((top - 50) * i) / 19 + (i < 10 ? ([0.9, -0.9][i % 2] ?? 0) : 0)),
      );
    let near = 55;
    let far = 80;
    for (let i = 0; i < 40; i++) {
      const middle = 0.5 * (near + far);
      if (new Set(readingsAndFits(SHAPES, logTo(middle)).data.noise).size === 1) far = middle;
      else near = middle;
    }
    const { pressure } = logTo(near);
    expect(Math.max(...pressure) / Math.min(...pressure)).toBeCloseTo(1.3, 6);
  });

  it('is even only where its likelihood is better by two in -2 ln L', () => {
    for (const mix of [0, 0.2, 0.4, 0.5, 0.6, 0.8, 1]) {
      const law = (i: number): number => 50 + 10 * i;
      const log = logOf(ups(law, (p) => (1 - mix) * 0.01 * p + mix * 1.4));
      const clean = readingsAndFits(SHAPES, log);
      const geometric = Math.exp(sum([...log.noise].map(Math.log)) / 20);
      const deviance = (data: HoldData): number => Math.min(...fitAll(SHAPES, data).map((fit) => fit.deviance));
      const gain = deviance(log) - deviance({ ...log, noise: log.noise.map(() => geometric) });
      expect(new Set(clean.data.noise).size === 1, `mix ${mix}, gain ${gain}`).toBe(gain > 2);
    }
  });
});

describe('the trend of a log', () => {
  it('is the slope of the regression line with its standard error', () => {
    const pressures = [50, 53, 51, 55, 57, 56, 60];
    const n = pressures.length;
    const data = { ...logOf(pressures), noise: Float64Array.from(pressures, () => 2) };
    const mean = 60 * ((n - 1) / 2);
    const square = sum(pressures.map((_, i) => (60 * i - mean) ** 2));
    const slope = sum(pressures.map((p, i) => p * (60 * i - mean))) / square;
    const trend = trendOf(data, 1.5);
    expect(trend.slope).toBeCloseTo(slope, 12);
    expect(trend.slopeError).toBeCloseTo((2 * 1.5) / Math.sqrt(square), 12);
  });

  it('has the bend in its standard errors: the quadratic orthogonal polynomial of even steps', () => {
    // seven readings: 5, 0, -3, -4, -3, 0, 5 (Fisher's tables, from memory), whose squares sum to 84
    const poly = [5, 0, -3, -4, -3, 0, 5];
    const pressures = [50, 53, 51, 55, 57, 56, 60];
    const data = { ...logOf(pressures), noise: Float64Array.from(pressures, () => 2) };
    const contrast = sum(pressures.map((p, i) => p * (poly[i] ?? 0)));
    expect(trendOf(data, 1.5).bendSize).toBeCloseTo(contrast / (2 * 1.5 * Math.sqrt(84)), 9);
    expect(trendOf(data, 0).bendSize).toBe(0);
  });

  it('is none where all readings are of one moment', () => {
    const data = { ...logOf([50, 51, 52]), time: new Float64Array(3) };
    expect(trendOf(data, 1)).toEqual({ slope: 0, slopeError: 0, bendSize: 0 });
  });

  it('is none in gas that follows its temperature, whose weight each reading has', () => {
    const warmth = Float64Array.from({ length: 7 }, (_, i) => 1 + 0.01 * i);
    const data = { ...logOf([...warmth].map((w) => 50 * w)), warmth, noise: Float64Array.from(warmth, (w) => w) };
    const trend = trendOf(data, 1);
    expect(trend.slope).toBeCloseTo(0, 12);
    // with noise that goes with the warmth as well each reading counts alike
    const square = 3600 * 28;
    expect(trend.slopeError).toBeCloseTo(1 / Math.sqrt(square), 12);
    expect(trend.bendSize).toBeCloseTo(0, 6);
  });
});
