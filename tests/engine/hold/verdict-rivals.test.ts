import { describe, expect, it } from 'vitest';
import { fitAll, type HoldFit } from '../../../src/engine/hold/fits.ts';
import { type HoldReading, prepareHold } from '../../../src/engine/hold/prepare.ts';
import { type HoldVerdict, readHold, TIGHT_RISE } from '../../../src/engine/hold/read.ts';
import { secondsToSettle } from '../../../src/engine/hold/settle.ts';
import { type Cause, holdShapes } from '../../../src/engine/hold/shapes.ts';
import { lineThrough, normalBelow, switchOf } from './regression.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;
const SETTINGS = { volume: 0.02, saturation: SATURATION, resolution: 1e-3 };
const UPS = [1, -1, -1, 1];
type Law = (t: number) => number;
function logOf(law: Law, { points = 24, seconds = 3450, part = 0.005 } = {}): HoldReading[] {
  return Array.from({ length: points }, (_, i) => {
    const t = (seconds * i) / (points - 1);
    return { time: 30 + t, pressure: law(t) * (1 + part * (UPS[i % 4] ?? 0)) };
  });
}
const read = (log: readonly HoldReading[]): HoldVerdict => readHold(log, SETTINGS);
const share = (t: number, tau: number): number => 1 - Math.exp(-t / tau);

function fitsOf(log: readonly HoldReading[], slow: readonly boolean[]): HoldFit[] {
  const data = prepareHold(log, SETTINGS.resolution);
  return slow.flatMap((each) => fitAll(holdShapes(SATURATION, each), data));
}
const least = (fits: readonly HoldFit[], causes: readonly Cause[], of: 'aicc' | 'deviance' = 'aicc'): number =>
  Math.min(...fits.filter(({ shape }) => causes.includes(shape.cause)).map((fit) => fit[of]));
/** Odds of 95 % in -2 ln L. */
const SURE = 2 * Math.log(19);

describe('where a verdict ends, by the criterion of its closest rival', () => {
  it('a leak ends where leak with moisture is better by a half', () => {
    const log = (size: number): HoldReading[] => logOf((t) => 60 + 0.1 * t + size * share(t, 300), { part: 0.002 });
    const at = switchOf((size) => read(log(size)).cause === 'leak', 0, 30);
    const fits = fitsOf(log(at), [false]);
    expect(least(fits, ['leak']) - least(fits, ['leak and moisture'])).toBeCloseTo(0.5, 5);
  });

  it('a leak ends where a slower bend is better by two', () => {
    for (const tau of [20_000, 40_000]) {
      const log = (size: number): HoldReading[] => logOf((t) => 60 + size * share(t, tau), { part: 0.002 });
      const at = switchOf((size) => read(log(size)).cause === 'leak', 50, 4000);
      const leak = least(fitsOf(log(at), [false]), ['leak']);
      expect(leak - least(fitsOf(log(at), [true]), ['moisture', 'outgassing'])).toBeCloseTo(2, 5);
    }
  });

  it('a leak of seven readings begins where bent shapes fit worse by odds of 95 %, their unknown counted', () => {
    const log = (rise: number): HoldReading[] => logOf((t) => 60 + rise * t, { part: 0.003, points: 7 });
    const at = switchOf((rise) => read(log(rise)).cause === 'leak', 0.3, 0.002);
    const fits = fitsOf(log(at), [false]);
    const worse = least(fits, ['moisture', 'outgassing'], 'deviance') - least(fits, ['leak'], 'deviance');
    expect(worse + 2).toBeCloseTo(SURE, 4);
    expect(read(log(at)).probability).toBeCloseTo(0.95, 5);
    expect(read(log(0.3)).probability).toBeGreaterThan(0.95);
  });

  it('moisture ends where outgassing comes within odds of 95 %', () => {
    for (const points of [24, 12]) {
      const log = (part: number): HoldReading[] => logOf((t) => 60 + 400 * share(t, 600), { part, points });
      const at = switchOf((part) => read(log(part)).cause === 'moisture', 0.005, 0.4);
      const fits = fitsOf(log(at), [false, true]);
      expect(least(fits, ['outgassing']) - least(fits, ['moisture'])).toBeCloseTo(SURE, 3);
      expect(read(log(at)).probability).toBeCloseTo(0.95, 4);
    }
  });

  it('a slow rise is a leak: slower than saturation in six hours, 2339 Pa by 21600 s, is no moisture', () => {
    for (const rise of [0.05, 0.1]) {
      const verdict = read(logOf((t) => 20 + rise * t, { part: 0.03, seconds: 1800 }));
      expect(verdict).toMatchObject({ cause: 'leak', probability: 0.999 });
    }
    // a little faster it might be
    expect(read(logOf((t) => 20 + 0.13 * t, { part: 0.03, seconds: 1800 })).probability).toBeLessThan(0.99);
  });
});

describe('a log without a verdict between causes', () => {
  /** First, rivals and weights of all that were fitted, the combination aside. */
  function ranking(fits: readonly HoldFit[]): (readonly [HoldFit, number])[] {
    const single = fits.filter(({ shape }) => shape.cause !== 'leak and moisture');
    const best = [...new Set(single.map(({ shape }) => shape.cause))].map((cause) =>
      single.filter(({ shape }) => shape.cause === cause).reduce((a, b) => (b.aicc < a.aicc ? b : a)),
    );
    const top = Math.min(...best.map(({ aicc }) => aicc));
    const raw = best.map((fit) => [fit, Math.exp(0.5 * (top - fit.aicc))] as const);
    const all = raw.reduce((sum, [, weight]) => sum + weight, 0);
    return raw.map(([fit, weight]) => [fit, weight / all] as const).sort((a, b) => b[1] - a[1]);
  }

  const cases: readonly (readonly [string, HoldReading[], readonly boolean[]])[] = [
    // slow moisture has its say against a leak
    ['a fast straight rise', logOf((t) => 40 + 0.13 * t, { seconds: 900, points: 16, part: 0.01 }), [false, true]],
    ['moisture in much noise', logOf((t) => 60 + 400 * share(t, 600), { part: 0.2 }), [false]],
    ['outgassing in much noise', logOf((t) => 60 + 60 * Math.log1p(t / 200), { part: 0.08 }), [false]],
    [
      'moisture soon after the start',
      logOf((t) => 60 + 100 * share(t, 900), { seconds: 600, points: 12 }),
      [false, true],
    ],
    [
      'outgassing so slow that nothing within the log bends as little',
      logOf((t) => 60 + 1000 * Math.log1p(t / 42_000), { seconds: 1800, part: 0.001 }),
      [false, true],
    ],
    // slow shapes have no say where moisture on its way to saturation is ruled out by itself
    [
      'a rise that hardly bends',
      logOf((t) => 60 + 300 * share(t, 10_000), { seconds: 900, points: 10, part: 0.01 }),
      [false],
    ],
    [
      'moisture that bends',
      logOf((t) => 60 + 1000 * share(t, 1300), { seconds: 1800, points: 7, part: 0.05 }),
      [false],
    ],
    // a rival of less than two in a hundred might never be told apart
    [
      'a few readings of a rise',
      logOf((t) => 60 + 46 * Math.log1p(t / 11_300), { seconds: 1800, points: 7, part: 0.02 }),
      [false],
    ],
  ];
  for (const [name, log, slow] of cases)
    it(`has the weights of all that was weighed, and the time until the first is alone: ${name}`, () => {
      const verdict = read(log);
      expect(verdict).toMatchObject({ cause: undefined, doubt: 'alike', level: undefined, constant: undefined });
      const ranked = ranking(fitsOf(log, slow));
      const [first, second, ...rest] = ranked;
      if (first === undefined || second === undefined) throw new Error('nothing to weigh');
      expect(verdict.leaning).toBe(first[0].shape.cause);
      expect(verdict.probability).toBeCloseTo(Math.min(first[1], 0.9), 9);
      ranked.forEach(([fit, weight], i) => {
        expect(verdict.weights[i]?.[0]).toBe(fit.shape.cause);
        expect(verdict.weights[i]?.[1]).toBeCloseTo(weight, 9);
      });
      const rivals = [second, ...rest.filter(([, weight]) => weight > 0.02)].map(([fit]) => fit);
      const data = prepareHold(log, SETTINGS.resolution);
      expect(verdict.moreTime).toBe(secondsToSettle(first[0], rivals, data));
      const { slope } = lineThrough(log);
      expect(verdict.rise / slope).toBeCloseTo(1, 6);
      expect(verdict.rate).toBeCloseTo(0.02 * verdict.rise, 12);
    });

  it('is one that a bend betrays where no slope shows: better than a level by four', () => {
    // within its first readings it rises, and stays there
    const log = (sizes: number): HoldReading[] => logOf((t) => 60 * (1 + 0.01 * sizes * share(t, 115)), { part: 0.01 });
    const at = switchOf((sizes) => read(log(sizes)).cause === 'tight', 3, 4);
    const { slope, error } = lineThrough(log(at));
    expect(slope / error).toBeLessThan(2);
    const fits = fitsOf(log(at), [false]);
    expect(least(fits, ['tight']) - least(fits, ['moisture', 'outgassing', 'leak'])).toBeCloseTo(4, 4);
    expect(read(log(at + 1e-6))).toMatchObject({ cause: undefined, doubt: 'alike', leaning: 'moisture' });
  });

  it('tells how likely it is tight where the trend is above 100 micron an hour, yet hidden in noise', () => {
    const log = Array.from({ length: 12 }, (_, i) => ({
      time: (1200 * i) / 11,
      pressure: 100 + (6 * i) / 11 + 5 * (UPS[i % 4] ?? 0),
    }));
    const { slope, error } = lineThrough(log);
    expect(slope).toBeGreaterThan(TIGHT_RISE);
    const verdict = read(log);
    expect(verdict).toMatchObject({ cause: undefined, doubt: 'noise', leaning: 'tight' });
    expect(verdict.probability).toBeCloseTo(normalBelow((TIGHT_RISE - slope) / error), 6);
  });
});

describe('what stays when both causes are at work', () => {
  it('is the rate of the leak though the moisture still rises', () => {
    const verdict = read(logOf((t) => 60 + 0.1 * t + 200 * share(t, 900), { part: 0 }));
    expect(verdict.cause).toBe('leak and moisture');
    // at the end the moisture still adds 200/900 exp(-3450/900) Pa/s, a twentieth of it
    expect(verdict.rise).toBeCloseTo(0.1, 4);
    expect((verdict.constant ?? 0) / 900).toBeCloseTo(1, 3);
  });
});

describe('moisture in a logged temperature that swings', () => {
  it('is read by the law that it follows: expanding as a gas on its way to saturation', () => {
    const kelvin = (i: number): number => 293.15 + 2 * Math.sin((2 * Math.PI * i) / 23);
    const log = logOf((t) => SATURATION - (SATURATION - 60) * Math.exp(-t / 900), { part: 0 }).map((one, i) => ({
      ...one,
      pressure: (one.pressure * kelvin(i)) / 293.15,
      temperature: kelvin(i),
    }));
    const verdict = read(log);
    expect(verdict).toMatchObject({ cause: 'moisture', level: SATURATION });
    expect((verdict.constant ?? 0) / 900).toBeCloseTo(1, 3);
    // without the temperatures the law is no longer met so well
    const blind = read(log.map(({ time, pressure }) => ({ time, pressure })));
    expect(Math.abs((blind.constant ?? 0) / 900 - 1)).toBeGreaterThan(1e-3);
  });
});
