import { describe, expect, it } from 'vitest';
import { type Spread, spreadOf } from '../../../src/engine/estimate/spread.ts';
import { Fault } from '../../../src/faults/issue.ts';
import { FINE_ROWS, pullResponse, responseScores } from '../../../src/functions/estimate/pull-response.ts';
import type { UnitJobs } from '../../../src/functions/estimate/unit-job.ts';
import type { UnitRow } from '../../../src/tables/units.ts';

const UNIT = { name: 'cold room', rig: 'wide', row: 3, count: 1 } as unknown as UnitRow;
const [WATER, AMBIENT] = [0.02, 290];
/** Even factors, so that ln of the water and the temperature are straight in the scores. */
const water = spreadOf('factor', 0.5, 1, 2);
const ambient = spreadOf('shift', -5, 0, 5);
/** Standard score of the 90th percentile. Source: tables of the normal distribution, from memory. */
const SCORE = 1.2815515655446004;
/** A standard deviation of each: of ln of the water, and K. */
const [LN, KELVIN] = [Math.log(2) / SCORE, 5 / SCORE];

/** ln(minutes) straight in both, with a product of both; what was asked for is counted. */
function stand(law: { readonly w: number; readonly t: number; readonly wt: number }, own = WATER) {
  const asked = { pulls: 0 };
  const jobs = {
    waterOf: () => own,
    ambientOf: () => AMBIENT,
    pull(unit: UnitRow): number {
      asked.pulls++;
      const x = own > 0 ? Math.log((unit.water ?? own) / WATER) : 0;
      const y = (unit.ambient ?? AMBIENT) - AMBIENT;
      return Math.exp(3 + law.w * x + law.t * y + law.wt * x * y);
    },
  } as unknown as UnitJobs;
  return { jobs, asked };
}
const LAW = { w: 0.8, t: -0.05, wt: 0.012 };
const minutesAt = (w: number, a: number): number =>
  Math.exp(3 + LAW.w * w * LN + LAW.t * a * KELVIN + LAW.wt * w * LN * a * KELVIN);

function response(spreads: { water?: Spread; ambient?: Spread }, wetRows: number, own = WATER) {
  const { jobs, asked } = stand(LAW, own);
  const scores = responseScores(spreads.water, spreads.ambient, wetRows);
  const minutes = pullResponse(UNIT, jobs, scores);
  if (minutes instanceof Fault) throw minutes;
  return { minutes: [...Array.from(minutes)], scores, pulls: asked.pulls };
}

describe('how the pull of a row answers to its water and to Ambient', () => {
  it.each([
    [1, 9 + 4 * 9],
    [FINE_ROWS, 9 + 4 * 9],
    [FINE_ROWS + 1, 5 + 2 * 3],
  ])(
    'is met to rounding where ln(minutes) is straight in each and has their product, for %d rows in %d pulls',
    (rows, pulls) => {
      const found = response({ water, ambient }, rows);
      expect(found.pulls).toBe(pulls);
      const { fine: ws } = found.scores.water;
      const { fine: as } = found.scores.ambient;
      expect(found.minutes).toHaveLength(ws.length * as.length);
      ws.forEach((w, i) => {
        as.forEach((a, j) => {
          expect((found.minutes[i * as.length + j] ?? 0) / minutesAt(w, a)).toBeCloseTo(1, 9);
        });
      });
    },
  );

  it('takes what Ambient does between the two waters beside, whatever it does to others', () => {
    // Ambient acts with the water above its median alone: a bend at one of the places that are worked out
    const bent = {
      waterOf: () => WATER,
      ambientOf: () => AMBIENT,
      pull: (unit: UnitRow) => {
        const x = Math.log((unit.water ?? WATER) / WATER);
        return Math.exp(3 + 0.8 * x + 0.03 * Math.max(0, x) * ((unit.ambient ?? AMBIENT) - AMBIENT));
      },
    } as unknown as UnitJobs;
    const scores = responseScores(water, ambient, 1);
    const minutes = pullResponse(UNIT, bent, scores);
    if (minutes instanceof Fault) throw minutes;
    const width = scores.ambient.fine.length;
    scores.water.fine.forEach((w, i) => {
      scores.ambient.fine.forEach((a, j) => {
        const x = w * LN;
        const theirs = Math.exp(3 + 0.8 * x + 0.03 * Math.max(0, x) * a * KELVIN);
        expect((minutes[i * width + j] ?? 0) / theirs).toBeCloseTo(1, 9);
      });
    });
  });

  it('is a line where one of them spreads, and one number where none does', () => {
    const wet = response({ water }, 1);
    expect(wet.minutes).toHaveLength(wet.scores.water.fine.length);
    wet.scores.water.fine.forEach((w, i) => {
      expect((wet.minutes[i] ?? 0) / minutesAt(w, 0)).toBeCloseTo(1, 9);
    });
    const air = response({ ambient }, 1);
    air.scores.ambient.fine.forEach((a, i) => {
      expect((air.minutes[i] ?? 0) / minutesAt(0, a)).toBeCloseTo(1, 9);
    });
    const still = response({}, 1);
    expect(still.minutes).toEqual([expect.closeTo(Math.exp(3), 9)]);
    expect(still.pulls).toBe(1);
    // a spread of no width is none
    expect(response({ water: spreadOf('factor', 1, 1, 1) }, 1).minutes).toHaveLength(1);
  });

  it('is the same for all water in a row that has none, and moves with Ambient alone', () => {
    const { minutes, scores } = response({ water, ambient }, 1, 0);
    const width = scores.ambient.fine.length;
    scores.ambient.fine.forEach((a, j) => {
      for (const i of [0, 20, 40]) expect((minutes[i * width + j] ?? 0) / minutesAt(0, a)).toBeCloseTo(1, 9);
    });
  });

  it('is met with widths of their own below and above at the scores that are worked out', () => {
    const uneven = spreadOf('factor', 0.8, 1, 4);
    const { minutes, scores } = response({ water: uneven }, 1);
    const at = (w: number): number => minutes[scores.water.fine.indexOf(w)] ?? Number.NaN;
    expect(at(0)).toBeCloseTo(Math.exp(3), 9);
    const first = scores.water.fine[0] ?? 0;
    const last = scores.water.fine.at(-1) ?? 0;
    // beyond the ends of what is worked out it goes straight on
    expect(at(last) / Math.exp(3 + (LAW.w * last * Math.log(4)) / SCORE)).toBeCloseTo(1, 9);
    expect(at(first) / Math.exp(3 - (LAW.w * first * Math.log(0.8)) / SCORE)).toBeCloseTo(1, 9);
  });

  it('tells with what a row has no answer that has one by itself', () => {
    const fault = new Fault({ kind: 'no-solution', reason: 'it never dries', todo: 'Warm it.' });
    const failing = (when: (unit: UnitRow) => boolean) =>
      ({
        waterOf: () => WATER,
        ambientOf: () => AMBIENT,
        pull: (unit: UnitRow) => (when(unit) ? fault : 20),
      }) as unknown as UnitJobs;
    const told = (jobs: UnitJobs): unknown => {
      const found = pullResponse(UNIT, jobs, responseScores(water, ambient, 1));
      return found instanceof Fault ? { ...found.issue, place: found.place } : found;
    };
    expect(told(failing((unit) => (unit.ambient ?? AMBIENT) < AMBIENT - 9))).toMatchObject({
      kind: 'no-solution',
      reason: expect.stringMatching(
        /^"cold room" has no answer with [\d.]+ times its water and Ambient -9\.36 °C, which its factors allow: it never dries$/i,
      ),
      todo: 'Narrow the factor, or mend the row. Warm it.',
      place: { table: 'units', row: 3 },
    });
    expect(told(failing((unit) => (unit.ambient ?? AMBIENT) > AMBIENT + 9))).toMatchObject({
      reason: expect.stringContaining('and Ambient +9.36 °C'),
    });
    expect(told(failing((unit) => (unit.water ?? WATER) > 2 * WATER))).toMatchObject({
      reason: expect.stringMatching(/has no answer with [\d.]+ times its water, which/),
    });
  });
});
