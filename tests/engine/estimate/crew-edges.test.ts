import { describe, expect, it } from 'vitest';
import {
  crewCannot,
  DAY,
  fitsNowhere,
  inDay,
  type Job,
  longestAttended,
  nextWorking,
  stretch,
} from '../../../src/engine/estimate/crew.ts';
import { jobList } from '../../../src/engine/estimate/job-list.ts';
import { spreadAt } from '../../../src/engine/estimate/spread.ts';
import { crew } from './simple.ts';

const job = (setUp: number, pull: number, packUp: number): Job => ({
  kind: 1,
  area: '',
  steps: [
    { kind: 'attended', minutes: setUp },
    { kind: 'waiting', minutes: pull, checkInterval: 0, checkMinutes: 0 },
    { kind: 'attended', minutes: packUp },
  ],
});

describe('a moment', () => {
  it('lies in its day as a clock shows it', () => {
    expect(inDay(0)).toBe(0);
    expect(inDay(1439)).toBe(1439);
    expect(inDay(1440)).toBe(0);
    expect(inDay(3 * 1440 + 485)).toBe(485);
  });
});

describe('the next moment to work', () => {
  it('is now where the work ends by the end of the day, to the minute', () => {
    expect(nextWorking(crew(), 500, 460)).toBe(500);
    expect(nextWorking(crew(), DAY + 500, 460)).toBe(DAY + 500);
    // sums of minutes need not be exact: a millionth of a minute over is no overtime
    expect(nextWorking(crew(), 500, 460 + 5e-7)).toBe(500);
  });

  it('is tomorrow morning where it would end later', () => {
    expect(nextWorking(crew(), 500, 461)).toBe(DAY + 480);
    expect(nextWorking(crew(), DAY + 961, 0)).toBe(2 * DAY + 480);
  });

  it('is this morning before the day begins', () => {
    expect(nextWorking(crew({ start: 0 }), 100, 30)).toBe(480);
    expect(nextWorking(crew(), 2 * DAY, 30)).toBe(2 * DAY + 480);
    expect(nextWorking(crew(), 480, 30)).toBe(480);
  });

  it('is never before the crew comes', () => {
    expect(nextWorking(crew({ start: DAY + 600 }), 0, 30)).toBe(DAY + 600);
    expect(nextWorking(crew({ start: DAY + 950 }), 0, 30)).toBe(2 * DAY + 480);
  });
});

describe('what a unit asks of a day', () => {
  it('is its longest attended step where pumps may run over night, and all of it where not', () => {
    expect(longestAttended(job(30, 500, 45))).toBe(45);
    expect(longestAttended(job(50, 500, 45))).toBe(50);
    expect(stretch(job(30, 500, 45).steps)).toBe(575);
  });

  it('fits exactly, and a minute more does not', () => {
    const day = crew({ overnight: false });
    expect(crewCannot(job(480, 9999, 10), crew(), 0)).toBeUndefined();
    expect(crewCannot(job(481, 9999, 10), crew(), 0)).toBe('attended');
    expect(crewCannot(job(30, 430, 20), day, 0)).toBeUndefined();
    expect(crewCannot(job(30, 431, 20), day, 0)).toBe('stretch');
    expect(crewCannot(job(480 + 5e-7, 9, 9), crew(), 0)).toBeUndefined();
    expect(crewCannot(job(30, 430 + 5e-7, 20), day, 0)).toBeUndefined();
  });

  it('counts the way there in the day', () => {
    const day = crew({ overnight: false });
    expect(crewCannot(job(460, 9, 10), crew(), 20)).toBeUndefined();
    expect(crewCannot(job(460, 9, 10), crew(), 21)).toBe('attended');
    expect(crewCannot(job(30, 400, 30), day, 20)).toBeUndefined();
    expect(crewCannot(job(30, 400, 30), day, 21)).toBe('stretch');
    expect(fitsNowhere(job(460, 9, 10), { crews: [crew()], travel: 20 })).toBeUndefined();
    expect(fitsNowhere(job(460, 9, 10), { crews: [crew()], travel: 21 })).toBe('attended');
  });

  it('is too much for a site only where it is too much for every crew; a night off is the milder reason', () => {
    const short = crew({ dayEnd: 500 });
    const noNight = crew({ overnight: false });
    const long = job(30, 600, 20);
    expect(fitsNowhere(long, { crews: [short, crew()], travel: 0 })).toBeUndefined();
    expect(fitsNowhere(long, { crews: [short, noNight], travel: 0 })).toBe('stretch');
    expect(fitsNowhere(long, { crews: [short], travel: 0 })).toBe('attended');
  });
});

describe('the list of units still to begin', () => {
  it('is a ring in the given order, with the end as the place after the last and before the first', () => {
    const { after, before, firstOf, sameAfter } = jobList([2, 0, 3, 1], Int32Array.of(1, 0, 1, 0), 3);
    // places 0 to 3 hold the jobs 2, 0, 3, 1 of the kinds 1, 1, 0, 0; place 4 is the end
    expect([...after]).toEqual([1, 2, 3, 4, 0]);
    expect([...before]).toEqual([4, 0, 1, 2, 3]);
    expect([...firstOf]).toEqual([2, 0, 4]);
    expect([...sameAfter]).toEqual([1, 4, 3, 4, 0]);
  });

  it('of no units is its end', () => {
    const { after, before, firstOf } = jobList([], Int32Array.of(), 1);
    expect([[...after], [...before], [...firstOf]]).toEqual([[0], [0], [0]]);
  });
});

describe('a lopsided spread', () => {
  it('has its own width on each side, one standard score either way', () => {
    const shift = { kind: 'shift', median: 10, below: 2, above: 5 } as const;
    expect([-1, 0, 1].map((score) => spreadAt(shift, score))).toEqual([8, 10, 15]);
    const factor = { kind: 'factor', median: 2, below: Math.LN2, above: Math.log(3) } as const;
    expect(spreadAt(factor, -1)).toBeCloseTo(1, 14);
    expect(spreadAt(factor, 1)).toBeCloseTo(6, 14);
  });
});
