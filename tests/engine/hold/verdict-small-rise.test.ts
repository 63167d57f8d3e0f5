import { describe, expect, it } from 'vitest';
import type { HoldReading } from '../../../src/engine/hold/prepare.ts';
import { type HoldVerdict, readHold, TIGHT_RISE } from '../../../src/engine/hold/read.ts';
import { lineThrough, switchOf } from './regression.ts';

/** Vapour pressure of water at 20 C. Source: IAPWS-95, row PL-06 of the reference file. */
const SATURATION = 2339.32;
const UPS = [1, -1, -1, 1];
/** Ten hours, so that a rise far below 100 micron an hour shows. */
const logOf = (points: number, rise: number): HoldReading[] =>
  Array.from({ length: points }, (_, i) => ({
    time: (36000 * i) / (points - 1),
    pressure: 50 + (rise * i) / (points - 1) + 0.5 * (UPS[i % 4] ?? 0),
  }));
const read = (log: readonly HoldReading[]): HoldVerdict =>
  readHold(log, { volume: 0.02, saturation: SATURATION, resolution: 1e-3 });

describe('a rise that shows, however small', () => {
  it('is not called tight from two and a half standard errors on', () => {
    for (const points of [6, 7, 8, 12]) {
      const at = switchOf((rise) => read(logOf(points, rise)).cause === 'tight', 0.5, 3);
      const { slope, error } = lineThrough(logOf(points, at));
      // a bent shape may have a little less noise than the line, whose standard error is then too large
      expect(slope / error, `${points} readings`).toBeGreaterThan(2.3);
      expect(slope / error, `${points} readings`).toBeLessThan(2.501);
      expect(slope).toBeLessThan(0.2 * TIGHT_RISE);
    }
  });

  it('has no verdict where too few readings still like the level better, and asks for a quarter more', () => {
    for (const points of [6, 7]) {
      const verdict = read(logOf(points, 2));
      expect(lineThrough(logOf(points, 2)).slope / lineThrough(logOf(points, 2)).error).toBeGreaterThan(2.6);
      expect(verdict).toMatchObject({ cause: undefined, doubt: 'noise', leaning: 'tight', probability: 0.95 });
      expect(verdict.weights[0]?.[0]).toBe('tight');
      expect(verdict.moreTime).toBeCloseTo(9000, 6);
    }
  });

  it('is weighed against other causes with more readings', () => {
    for (const points of [8, 12])
      expect(read(logOf(points, 2))).toMatchObject({ cause: undefined, doubt: 'alike', leaning: 'leak' });
  });
});
