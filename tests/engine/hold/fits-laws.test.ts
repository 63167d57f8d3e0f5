import { describe, expect, it } from 'vitest';
import { fitAll, fitShape, fittedPressure, type HoldData, ROUNDING } from '../../../src/engine/hold/fits.ts';
import { holdShapes, type Shape } from '../../../src/engine/hold/shapes.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;
const SHAPES = holdShapes(SATURATION);
const shapeOf = (name: string): Shape => {
  const shape = SHAPES.find((each) => each.name === name);
  if (shape === undefined) throw new Error(`no shape "${name}"`);
  return shape;
};
const LEVEL = shapeOf('level');
const STRAIGHT = shapeOf('straight rise');
const SATURATING = shapeOf('rise to the saturation pressure');
const LEVELLING = shapeOf('rise that levels off');

/** Readings at even times, all with the same expected noise unless told otherwise. */
function dataOf(
  pressure: readonly number[],
  { seconds = 3600, size = 1, resolution = 1e-6, noise = pressure.map((): number => size) } = {},
): HoldData {
  const gap = seconds / (pressure.length - 1);
  return {
    time: Float64Array.from(pressure, (_, i) => i * gap),
    pressure: Float64Array.from(pressure),
    warmth: Float64Array.from(pressure, () => 1),
    wetness: undefined,
    noise: Float64Array.from(noise),
    resolution,
  };
}
const along = (law: (t: number) => number, points = 31, seconds = 3600): HoldData =>
  dataOf(
    Array.from({ length: points }, (_, i) => law((i * seconds) / (points - 1))),
    { seconds },
  );
const sum = (values: readonly number[]): number => values.reduce((all, one) => all + one, 0);

describe('the fit of a shape', () => {
  it('is the mean of the readings for a level, weighted by one over the square of the noise', () => {
    const p = [50, 52, 49, 53, 51];
    const even = fitShape(LEVEL, dataOf(p));
    expect(even?.weights[0]).toBeCloseTo(51, 12);
    expect(even?.errors[0]).toBeCloseTo(1 / Math.sqrt(5), 12);
    expect(even?.sum).toBeCloseTo(10, 12);
    const noise = [1, 2, 1, 0.5, 4];
    const uneven = fitShape(LEVEL, dataOf(p, { noise }));
    const weight = noise.map((size) => size ** -2);
    const mean = sum(p.map((one, i) => one * (weight[i] ?? 0))) / sum(weight);
    expect(uneven?.weights[0]).toBeCloseTo(mean, 12);
    expect(uneven?.errors[0]).toBeCloseTo(1 / Math.sqrt(sum(weight)), 12);
    expect(uneven?.sum).toBeCloseTo(sum(p.map((one, i) => (weight[i] ?? 0) * (one - mean) ** 2)), 12);
  });

  it('is the regression line for a straight rise, with the textbook errors', () => {
    const p = [50, 53, 54, 58, 60, 62];
    const { time } = dataOf(p);
    const middle = sum([...time]) / 6;
    const square = sum([...time].map((t) => (t - middle) ** 2));
    const slope = sum(p.map((one, i) => one * ((time[i] ?? 0) - middle))) / square;
    const fit = fitShape(STRAIGHT, dataOf(p, { size: 2 }));
    expect(fit?.weights[1]).toBeCloseTo(slope, 12);
    expect(fit?.weights[0]).toBeCloseTo(sum(p) / 6 - slope * middle, 10);
    expect(fit?.errors[1]).toBeCloseTo(2 / Math.sqrt(square), 12);
    expect(fit?.constant).toBe(0);
  });

  it('finds weights and time constant of a law that the readings follow, anywhere in the range', () => {
    // the range of an hour's log with 31 readings is 120 to 3600 s
    for (const tau of [121, 150, 400, 1000, 2500, 3590]) {
      const levelling = fitShape(
        LEVELLING,
        along((t) => 60 + 400 * (1 - Math.exp(-t / tau))),
      );
      expect((levelling?.constant ?? 0) / tau).toBeCloseTo(1, 4);
      expect((levelling?.weights[0] ?? 0) / 60).toBeCloseTo(1, 3);
      expect((levelling?.weights[1] ?? 0) / 400).toBeCloseTo(1, 3);
      const to = fitShape(
        SATURATING,
        along((t) => SATURATION - (SATURATION - 60) * Math.exp(-t / tau)),
      );
      expect((to?.constant ?? 0) / tau).toBeCloseTo(1, 4);
      expect((to?.weights[0] ?? 0) / 60).toBeCloseTo(1, 2);
      expect(to?.sum).toBeLessThan(0.01);
    }
  });

  it('keeps the time constant within its range', () => {
    const faster = fitShape(
      LEVELLING,
      along((t) => 60 + 400 * (1 - Math.exp(-t / 40))),
    );
    const slower = fitShape(
      LEVELLING,
      along((t) => 60 + 1e3 * (1 - Math.exp(-t / 9000))),
    );
    expect(faster?.constant).toBeGreaterThanOrEqual(120 * (1 - 1e-12));
    expect(faster?.constant).toBeLessThan(120.1);
    expect(slower?.constant).toBeLessThanOrEqual(3600 * (1 + 1e-12));
    expect(slower?.constant).toBeGreaterThan(3599);
  });

  it('is not there where nothing that makes sense is near', () => {
    const falling = along((t) => 600 - 0.1 * t);
    expect(fitShape(STRAIGHT, falling)).toBeUndefined();
    expect(fitShape(LEVELLING, falling)).toBeUndefined();
    expect(fitAll(SHAPES, falling).map(({ shape }) => shape.cause)).toContain('tight');
    expect(fitAll(SHAPES, falling).map(({ shape }) => shape.cause)).not.toContain('leak');
    // a range that is a point or the wrong way round is none
    const data = along((t) => 60 + 400 * (1 - Math.exp(-t / 150)));
    for (const range of [
      [150, 150],
      [200, 100],
    ] as const)
      expect(fitShape({ ...LEVELLING, range: () => range }, data)).toBeUndefined();
    expect(fitShape({ ...LEVELLING, range: () => [100, 200] }, data)?.constant).toBeCloseTo(150, 2);
    // readings of one moment have no rise
    expect(fitShape(STRAIGHT, { ...dataOf([50, 51, 52]), time: new Float64Array(3) })).toBeUndefined();
  });

  it('looks for the time constant between limits that the whole log and the mean gap give', () => {
    const asked: number[][] = [];
    const range = (span: number, gap: number): undefined => {
      asked.push([span, gap]);
      return undefined;
    };
    const shape: Shape = { ...LEVEL, range };
    fitShape(shape, dataOf([1, 2, 3, 4, 5]));
    fitShape(shape, { ...dataOf([1, 2, 3, 4, 5]), time: Float64Array.of(100, 200, 300, 400, 1300) });
    fitShape(shape, { ...dataOf([1, 2]), time: Float64Array.of(0), pressure: Float64Array.of(1) });
    expect(asked).toEqual([
      [3600, 900],
      [1200, 300],
      [0, 0],
    ]);
  });
});

describe('what a fit says of itself', () => {
  // five readings one size of noise off the mean, four up and down and one on it: residuals squared sum to 4
  const FIVE = [51, 49, 51, 49, 50];

  it('has the size of the noise with a prior of two readings at half the expected size', () => {
    const fit = fitShape(LEVEL, dataOf(FIVE));
    expect(fit?.sum).toBeCloseTo(4, 12);
    // one unknown of five readings: four are free, and two of the prior
    expect(fit?.scale).toBeCloseTo(Math.sqrt((4 + 2 * 0.25) / (4 + 2)), 12);
    expect(fit?.deviance).toBeCloseTo(7 * Math.log(4.5 / 7), 12);
  });

  it('has the criterion of Akaike with the correction for few readings (Hurvich and Tsai 1989, from memory)', () => {
    const corrected = (deviance: number, k: number, n: number): number =>
      deviance + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
    const five = fitShape(LEVEL, dataOf(FIVE));
    // level and size of the noise are two unknowns
    expect(five?.aicc).toBeCloseTo(corrected(five?.deviance ?? 0, 2, 5), 12);
    const line = fitShape(STRAIGHT, dataOf([50, 53, 54, 58, 60, 62]));
    expect(line?.aicc).toBeCloseTo(corrected(line?.deviance ?? 0, 3, 6), 12);
    expect(fitShape(LEVEL, dataOf([50, 51, 52, 53]))?.aicc).toBeLessThan(50);
    expect(fitShape(LEVEL, dataOf([50, 51, 52]))?.aicc).toBe(Number.POSITIVE_INFINITY);
    expect(fitShape(STRAIGHT, dataOf([50, 51, 53, 54]))?.aicc).toBe(Number.POSITIVE_INFINITY);
  });

  it('counts one free reading at least', () => {
    const fit = fitShape(STRAIGHT, dataOf([50, 52]));
    expect(fit?.scale).toBeCloseTo(Math.sqrt(0.5 / 3), 9);
  });

  it('never thinks the noise less than the rounding of the gauge, its step over the root of 12', () => {
    expect(ROUNDING).toBeCloseTo(0.2886751345948129, 14);
    // gauge steps of 4 Pa: rounding of 1.1547 Pa on readings with 1 and 2 Pa of noise
    const noise = [1, 2, 1, 2, 2];
    const fit = fitShape(LEVEL, dataOf([50, 50, 50, 50, 50], { noise, resolution: 4 }));
    const finest = sum(noise.map((size) => 16 / 12 / size ** 2)) / 5;
    expect(fit?.scale).toBeCloseTo(Math.sqrt(finest), 12);
    expect(fit?.deviance).toBeCloseTo(7 * Math.log(finest), 12);
  });
});

describe('the pressure of a fit', () => {
  it('goes on beyond the readings as its law does', () => {
    const beyond = { time: Float64Array.of(0, 7200), warmth: Float64Array.of(1, 1), wetness: undefined };
    const to = fitShape(
      SATURATING,
      along((t) => SATURATION - (SATURATION - 60) * Math.exp(-t / 3000)),
    );
    const line = fitShape(
      STRAIGHT,
      along((t) => 60 + 0.1 * t),
    );
    if (to === undefined || line === undefined) throw new Error('no fit');
    expect(fittedPressure(line, beyond)[1]).toBeCloseTo(780, 9);
    expect((fittedPressure(to, beyond)[1] ?? 0) / (SATURATION - (SATURATION - 60) * Math.exp(-2.4))).toBeCloseTo(1, 5);
  });
});
