import { describe, expect, it } from 'vitest';
import type { HoldReading } from '../../../src/engine/hold/prepare.ts';
import { type HoldVerdict, readHold, TIGHT_RISE } from '../../../src/engine/hold/read.ts';
import { issueOf } from '../../issue-of.ts';
import { lineThrough, normalBelow, switchOf } from './regression.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;
const SETTINGS = { volume: 0.02, saturation: SATURATION, resolution: 1e-3 };
const MICRON = 0.133322387415;

/** Up and down and up again, in halves that mirror each other: no slope and hardly a bend of its own. */
const UPS = [1, -1, -1, 1];
function logOf(law: (share: number) => number, { points = 12, seconds = 3600, size = 0.1 } = {}): HoldReading[] {
  return Array.from({ length: points }, (_, i) => ({
    time: (seconds * i) / (points - 1),
    pressure: law(i / (points - 1)) + size * (UPS[i % 4] ?? 0),
  }));
}
const read = (log: readonly HoldReading[], more: Partial<typeof SETTINGS> = {}): HoldVerdict =>
  readHold(log, { ...SETTINGS, ...more });
const NONE = { level: undefined, constant: undefined };

describe('a log with too little in it', () => {
  it('asks for six readings at the pace so far, and for five minutes at least', () => {
    const rising = (points: number, seconds: number): HoldVerdict =>
      read(logOf((x) => 50 + 100 * x, { points, seconds }));
    // two more at ten minutes apart; one more at 450 s
    expect(rising(5, 1800)).toMatchObject({ cause: undefined, doubt: 'few', leaning: 'leak', ...NONE });
    expect(rising(4, 1800).moreTime).toBeCloseTo(1200, 9);
    expect(rising(5, 1800).moreTime).toBeCloseTo(450, 9);
    // three readings in a minute: three more would be there in 90 s, five minutes in 240 s
    expect(rising(3, 60).moreTime).toBeCloseTo(240, 9);
    expect(rising(6, 1800).doubt).not.toBe('few');
    expect(rising(5, 1800).probability).toBeLessThanOrEqual(0.5);
  });

  it('leans to a leak or to tight by the trend where there is no fit to weigh: three readings', () => {
    expect(read(logOf((x) => 50 + 100 * x, { points: 3, seconds: 1800 }))).toMatchObject({
      leaning: 'leak',
      probability: 0.5,
    });
    expect(read(logOf(() => 50, { points: 3, seconds: 1800, size: 1 }))).toMatchObject({
      leaning: 'tight',
      probability: 0.5,
      weights: [],
    });
  });

  it('asks for the rest of five minutes', () => {
    const short = read(logOf((x) => 50 + 100 * x, { seconds: 299 }));
    expect(short).toMatchObject({ cause: undefined, doubt: 'short', leaning: 'leak', probability: 0.5 });
    expect(short.moreTime).toBeCloseTo(1, 9);
    expect(read(logOf((x) => 50 + 100 * x, { seconds: 300 })).doubt).not.toBe('short');
  });

  it('asks for the time in which 100 micron an hour make a step of the gauge, where all lies within one', () => {
    // 50 micron: half an hour, by hand
    const step = 50 * MICRON;
    const flat = (seconds: number, top = 0): HoldVerdict =>
      read(
        logOf((x) => 50 + (x > 0.6 ? top : 0), { seconds, size: 0 }),
        { resolution: step },
      );
    expect(flat(1799)).toMatchObject({ doubt: 'resolution', leaning: 'tight', resolution: step, last: 50 });
    expect(flat(1799).moreTime).toBeCloseTo(1, 6);
    expect(flat(1801).doubt).not.toBe('resolution');
    expect(flat(1200, step).doubt).toBe('resolution');
    expect(flat(1200, 1.0005 * step).doubt).toBe('resolution');
    expect(flat(1200, 1.002 * step).doubt).not.toBe('resolution');
    expect(flat(1200, -step).doubt).toBe('resolution');
    expect(flat(1200).probability).toBeLessThanOrEqual(0.5);
  });

  it('is of a volume above nothing', () => {
    for (const volume of [0, -1, Number.NaN])
      expect(
        issueOf(() =>
          read(
            logOf(() => 50),
            { volume },
          ),
        ),
      ).toEqual({
        kind: 'limit',
        argument: 'Volume',
        value: volume,
        rule: 'above',
        limit: 0,
        unit: 'm3',
      });
  });
});

describe('a level log', () => {
  it('is tight to 100 micron an hour, half of what a guide specification allows', () => {
    expect(TIGHT_RISE).toBeCloseTo((100 * MICRON) / 3600, 12);
  });

  it('is tight where the slope and 95 % of what the noise hides are under that, and tells the sum of both', () => {
    for (const [points, rise] of [
      [12, 0],
      [12, 0.2],
      [20, 0.4],
      [12, -0.3],
    ] as const) {
      const log = logOf((x) => 50 + rise * x, { points, size: 0.5, seconds: 7200 });
      const { slope, error } = lineThrough(log);
      const verdict = read(log);
      // the one-sided limit of the normal distribution, 1.645, and of Student's with few readings, close to 1.9/(n - 2) more
      const most = Math.max(slope, 0) + (1.645 + 1.9 / (points - 2)) * error;
      expect(verdict).toMatchObject({
        cause: 'tight',
        doubt: undefined,
        leaning: 'tight',
        moreTime: undefined,
        ...NONE,
      });
      expect(verdict.rise / most).toBeCloseTo(1, 9);
      expect(verdict.rate).toBeCloseTo(0.02 * verdict.rise, 15);
      expect(verdict.probability).toBeCloseTo(Math.min(normalBelow((TIGHT_RISE - slope) / error), 0.999), 6);
      expect(verdict).toMatchObject({ span: 7200, resolution: 1e-3, badTime: undefined });
      expect(verdict.last).toBe(log.at(-1)?.pressure);
    }
  });

  it('tells a step of the gauge where that hides more than the noise', () => {
    const verdict = read(
      logOf(() => 50, { size: 0.01, seconds: 7200 }),
      { resolution: 10 },
    );
    expect(verdict.cause).toBe('tight');
    expect(verdict.rise).toBeCloseTo(10 / 7200, 12);
    expect(verdict.probability).toBe(0.999);
  });

  it('is not tight where the noise hides more, and says how much longer by the power 3/2 of time', () => {
    for (const [size, rise] of [
      [5, 0],
      [5, 3],
      [5, -3],
      [4, 0],
    ] as const) {
      const log = logOf((x) => 100 + rise * x, { size, seconds: 1200 });
      const { slope, error } = lineThrough(log);
      const reach = (1.645 + 0.19) * error;
      const room = Math.max(TIGHT_RISE - Math.max(slope, 0), 0.25 * TIGHT_RISE);
      const verdict = read(log);
      expect(verdict).toMatchObject({ cause: undefined, doubt: 'noise', leaning: 'tight' });
      expect((verdict.moreTime ?? 0) / 1200).toBeCloseTo(Math.max((reach / room) ** (2 / 3), 1.25) - 1, 8);
      expect(verdict.probability).toBeCloseTo(Math.min(normalBelow((TIGHT_RISE - slope) / error), 0.95), 6);
      expect(verdict.rise).toBeCloseTo(slope, 12);
      expect(verdict.rate).toBeCloseTo(0.02 * slope, 12);
    }
  });

  it('turns from noise to tight just where slope and reach come to 100 micron an hour', () => {
    const log = (size: number): HoldReading[] => logOf((x) => 100 + x, { size, seconds: 3600 });
    const at = switchOf((size) => read(log(size)).cause === 'tight', 0.4, 10);
    const { slope, error } = lineThrough(log(at));
    expect(slope + (1.645 + 0.19) * error).toBeCloseTo(TIGHT_RISE, 8);
  });
});

describe('a pressure that no cause explains', () => {
  it('falls where the slope is more than three standard errors down', () => {
    const log = (rise: number): HoldReading[] => logOf((x) => 50 + rise * x, { size: 0.5 });
    const at = switchOf((rise) => read(log(rise)).doubt === 'falling', -6, 0);
    const { slope, error } = lineThrough(log(at));
    expect(slope / error).toBeCloseTo(-3, 6);
    const falling = read(log(-3));
    expect(falling).toMatchObject({ cause: undefined, leaning: 'tight', probability: 0.5, moreTime: undefined });
    expect(falling.rise / lineThrough(log(-3)).slope).toBeCloseTo(1, 9);
    expect(falling.rate).toBeCloseTo(0.02 * falling.rise, 15);
  });

  it('speeds up where it bends upwards by more than three and a half standard errors', () => {
    const log = (bend: number): HoldReading[] => logOf((x) => 50 + 2 * x + bend * x * x, { size: 0.25, points: 20 });
    const at = switchOf((bend) => read(log(bend)).doubt === 'speeding up', 20, 0);
    // which shape has the least noise is not known here: the line's is an upper bound, within a third
    expect(lineThrough(log(at)).bend).toBeGreaterThan(2.2);
    expect(lineThrough(log(at)).bend).toBeLessThan(3.6);
    expect(read(log(20))).toMatchObject({ cause: undefined, doubt: 'speeding up', leaning: 'leak', probability: 0.5 });
    expect(read(log(20)).moreTime).toBeUndefined();
  });
});
