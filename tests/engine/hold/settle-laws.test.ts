import { describe, expect, it } from 'vitest';
import { fitShape, type HoldData, type HoldFit } from '../../../src/engine/hold/fits.ts';
import { prepareHold } from '../../../src/engine/hold/prepare.ts';
import { secondsToSettle } from '../../../src/engine/hold/settle.ts';
import { holdShapes } from '../../../src/engine/hold/shapes.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SHAPES = holdShapes(2339.32);
function fitOf(name: string, data: HoldData): HoldFit {
  const shape = SHAPES.find((each) => each.name === name);
  const fit = shape === undefined ? undefined : fitShape(shape, data);
  if (fit === undefined) throw new Error(`no fit "${name}"`);
  return fit;
}
/** A rise in a straight line, up and down by a part. */
const logOf = (rise: number, points: number, size = 0.5, seconds = 600): HoldData =>
  prepareHold(
    Array.from({ length: points }, (_, i) => ({
      time: (seconds * i) / (points - 1),
      pressure: 50 + (rise * i) / (points - 1) + size * ([1, -1, -1, 1][i % 4] ?? 0),
    })),
    0.2,
  );

/** Misfit squared of the best level to a straight rise, by hand, at readings as close as so far or at sixty of them. */
function misfitOfLevel(line: HoldFit, data: HoldData, factor: number): number {
  const readings = Math.round(data.time.length * factor);
  const shown = Math.min(readings, 60);
  const span = (data.time.at(-1) ?? 0) * factor;
  const [start = 0, slope = 0] = line.weights;
  const p = Array.from({ length: shown }, (_, i) => start + (slope * span * i) / (shown - 1));
  // 1 % and rounding to steps of 0.2 Pa, in the size that the log shows; a longer log counts by less noise
  const weight = p.map((one) => 1 / ((0.01 * one) ** 2 + 0.04 / 12) / (line.scale ** 2 * (shown / readings)));
  const all = weight.reduce((a, b) => a + b, 0);
  const mean = p.reduce((sum, one, i) => sum + (weight[i] ?? 0) * one, 0) / all;
  return p.reduce((sum, one, i) => sum + (weight[i] ?? 0) * (one - mean) ** 2, 0);
}

describe('the further readings that settle a log', () => {
  // odds of 19 to 1 in -2 ln L, and three for the unknown more
  const OUT = 2 * Math.log(19) + 3;
  const FACTORS = [1.25, 1.5, 2, 2.5, 3, 4, 6, 8, 12];

  for (const [rise, points] of [
    [6, 8],
    [2, 8],
    [1, 8],
    [0.7, 8],
    [0.5, 8],
    [0.3, 8],
    [0.2, 8],
    [0.3, 40],
    [0.1, 40],
    [0.03, 40],
  ] as const)
    it(`come from how a level misfits the rise that is foretold: ${rise} Pa in ${points} readings`, () => {
      const data = logOf(rise, points);
      const line = fitOf('straight rise', data);
      const level = fitOf('level', data);
      const factor = FACTORS.find((each) => misfitOfLevel(line, data, each) > OUT);
      const seconds = secondsToSettle(line, [level], data);
      if (factor === undefined) expect(seconds).toBeUndefined();
      else expect(seconds).toBeCloseTo((factor - 1) * 600, 9);
    });

  it('are as many as the closest rival takes, none where there is none, and never enough against the same shape', () => {
    const data = logOf(2, 8);
    const line = fitOf('straight rise', data);
    const level = fitOf('level', data);
    const bent = fitOf('rise with the root of time', data);
    const alone = [level, bent].map((rival) => secondsToSettle(line, [rival], data) ?? Number.POSITIVE_INFINITY);
    expect(secondsToSettle(line, [level, bent], data) ?? Number.POSITIVE_INFINITY).toBe(Math.max(...alone));
    expect(secondsToSettle(line, [], data)).toBe(150);
    expect(secondsToSettle(line, [line], data)).toBeUndefined();
  });

  it('rule out a rival that no longer makes sense there', () => {
    const data = logOf(6, 8);
    const falling: HoldFit = { ...fitOf('straight rise', data), weights: Float64Array.of(60, -0.02) };
    expect(secondsToSettle(falling, [fitOf('straight rise', data)], data)).toBe(150);
  });
});
