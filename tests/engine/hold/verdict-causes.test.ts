import { describe, expect, it } from 'vitest';
import { fitAll } from '../../../src/engine/hold/fits.ts';
import { type HoldReading, prepareHold } from '../../../src/engine/hold/prepare.ts';
import { type HoldVerdict, readHold } from '../../../src/engine/hold/read.ts';
import { type Cause, holdShapes } from '../../../src/engine/hold/shapes.ts';
import { switchOf } from './regression.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;
const SETTINGS = { volume: 0.02, saturation: SATURATION, resolution: 1e-3 };
type Law = (t: number) => number;

const UPS = [1, -1, -1, 1];
/** An hour from half a minute after valving off, readings up and down by a part of themselves. */
function logOf(law: Law, { points = 24, seconds = 3450, part = 0.005 } = {}): HoldReading[] {
  return Array.from({ length: points }, (_, i) => {
    const t = (seconds * i) / (points - 1);
    return { time: 30 + t, pressure: law(t) * (1 + part * (UPS[i % 4] ?? 0)) };
  });
}
const read = (log: readonly HoldReading[]): HoldVerdict => readHold(log, SETTINGS);

/** The least criterion of each cause, by the fits themselves. */
function criteria(log: readonly HoldReading[], slow: readonly boolean[]): (cause: Cause) => number {
  const data = prepareHold(log, SETTINGS.resolution);
  const fits = slow.flatMap((each) => fitAll(holdShapes(SATURATION, each), data));
  return (cause) => Math.min(...fits.filter(({ shape }) => shape.cause === cause).map(({ aicc }) => aicc));
}

const exp = (t: number, tau: number): number => 1 - Math.exp(-t / tau);
const LEAK: Law = (t) => 60 + 0.1 * t;
const MOIST: Law = (t) => 60 + 400 * exp(t, 600);
const OUT: Law = (t) => 60 + 60 * Math.log1p(t / 200);

describe('a clear log', () => {
  // name, law, cause, and by hand: rate at the end, level, time constant
  const clear: readonly (readonly [string, Law, Cause, number, (number | undefined)?, number?])[] = [
    ['a leak', LEAK, 'leak', 0.1],
    ['moisture that levels off', MOIST, 'moisture', (400 / 600) * Math.exp(-3450 / 600), 460, 600],
    [
      'moisture on its way to saturation',
      (t) => SATURATION - (SATURATION - 60) * Math.exp(-t / 1200),
      'moisture',
      ((SATURATION - 60) / 1200) * Math.exp(-3450 / 1200),
      SATURATION,
      1200,
    ],
    ['outgassing by the logarithm', OUT, 'outgassing', 60 / (200 + 3450), undefined, 200],
    [
      'outgassing by the root',
      (t) => 60 * Math.sqrt(1 + t / 200),
      'outgassing',
      60 / (400 * Math.sqrt(1 + 3450 / 200)),
      undefined,
      200,
    ],
    // what stays of both is the leak
    ['a leak with moisture', (t) => 60 + 0.1 * t + 200 * exp(t, 300), 'leak and moisture', 0.1, undefined, 300],
  ];
  for (const [name, law, cause, rise, level, constant] of clear)
    it(`has all numbers of its law: ${name}`, () => {
      const log = logOf(law, { part: 0 });
      const verdict = read(log);
      expect(verdict).toMatchObject({
        cause,
        doubt: undefined,
        leaning: cause,
        probability: 0.999,
        moreTime: undefined,
        badTime: undefined,
        resolution: 1e-3,
      });
      expect(verdict.span).toBeCloseTo(3450, 9);
      expect(verdict.last).toBe(log.at(-1)?.pressure);
      expect(verdict.rise / rise).toBeCloseTo(1, 3);
      expect(verdict.rate / (0.02 * rise)).toBeCloseTo(1, 3);
      if (level === undefined) expect(verdict.level).toBeUndefined();
      else expect((verdict.level ?? 0) / level).toBeCloseTo(1, 4);
      if (constant === undefined) expect(verdict.constant).toBeUndefined();
      else expect((verdict.constant ?? 0) / constant).toBeCloseTo(1, 3);
    });

  it('names the time of the one bad reading from the first one, and has the last reading as it was read', () => {
    for (const index of [9, 23]) {
      const log = logOf(LEAK, { part: 0 }).map((one, i) =>
        i === index ? { ...one, pressure: 2 * one.pressure } : one,
      );
      const verdict = read(log);
      expect(verdict.badTime).toBeCloseTo(150 * index, 9);
      expect(verdict.cause).toBe('leak');
      expect(verdict.rise).toBeCloseTo(0.1, 9);
      expect(verdict.span).toBeCloseTo(index === 23 ? 3300 : 3450, 9);
      expect(verdict.last).toBe(log.at(-1)?.pressure);
    }
  });
});

describe('the weights of the causes', () => {
  it("are Akaike's, exp(-AICc/2) of the best fit of each, by falling weight, and sum to one", () => {
    // Burnham and Anderson, Model Selection and Multimodel Inference (2002), from memory
    for (const law of [LEAK, MOIST, OUT, (t: number) => 60 + 3 * Math.log1p(t / 400), () => 60]) {
      const log = logOf(law, { part: 0.03 });
      const { weights } = read(log);
      const best = criteria(log, [false]);
      const [first] = weights;
      if (first === undefined) throw new Error('no weights');
      expect(weights.reduce((sum, [, weight]) => sum + weight, 0)).toBeCloseTo(1, 9);
      weights.forEach(([cause, weight], i) => {
        if (i > 0) expect(weight).toBeLessThanOrEqual(weights[i - 1]?.[1] ?? 0);
        const odds = Math.exp(0.5 * (best(first[0]) - best(cause)));
        if (odds > 1e-6) expect(weight / first[1] / odds).toBeCloseTo(1, 6);
      });
      expect(weights.map(([cause]) => cause)).not.toContain('leak and moisture');
    }
  });
});

describe('what a verdict takes, by the criterion', () => {
  it('leak with moisture beats each single cause by ten', () => {
    const log = (size: number): HoldReading[] => logOf((t) => 60 + 0.1 * t + size * exp(t, 300));
    const at = switchOf((size) => read(log(size)).weights.some(([cause]) => cause === 'leak and moisture'), 200, 1);
    const best = criteria(log(at), [false]);
    const single = Math.min(best('leak'), best('moisture'), best('outgassing'), best('tight'));
    expect(single - best('leak and moisture')).toBeCloseTo(10, 4);
    expect(read(log(200)).cause).toBe('leak and moisture');
  });

  it('outgassing beats moisture by nine', () => {
    const log = (part: number): HoldReading[] => logOf(OUT, { part });
    const at = switchOf((part) => read(log(part)).cause === 'outgassing', 0.005, 0.1);
    const best = criteria(log(at), [false, true]);
    expect(best('moisture') - best('outgassing')).toBeCloseTo(9, 3);
    expect(read(log(at + 1e-6))).toMatchObject({ cause: undefined, doubt: 'alike' });
  });

  it('a leak has 95 % against slow moisture on its way to saturation, at odds of four to one beforehand', () => {
    const log = (seconds: number): HoldReading[] => logOf((t) => 40 + 0.13 * t, { seconds, points: 20, part: 0.01 });
    const at = switchOf((seconds) => read(log(seconds)).cause === 'leak', 7200, 600);
    const data = prepareHold(log(at), SETTINGS.resolution);
    const slow = fitAll(holdShapes(SATURATION, true), data).filter(
      ({ shape, constant }) => shape.name === 'rise to the saturation pressure' && constant <= 6 * 3600,
    );
    const moist = Math.min(...slow.map(({ aicc }) => aicc));
    const weight = 1 / (1 + Math.exp(0.5 * (criteria(log(at), [false])('leak') - moist)) / 4);
    expect(weight).toBeCloseTo(0.95, 5);
    expect(read(log(at)).probability).toBeCloseTo(0.95, 5);
    const open = read(log(at - 0.01));
    expect(open).toMatchObject({ cause: undefined, doubt: 'alike', leaning: 'leak', constant: undefined });
    expect(open.probability).toBeLessThanOrEqual(0.9);
    expect(open.moreTime).toBeGreaterThan(0);
  });
});
