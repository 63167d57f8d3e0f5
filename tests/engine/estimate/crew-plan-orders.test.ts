import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Crew, Job, Schedule } from '../../../src/engine/estimate/crew.ts';
import { planCrews } from '../../../src/engine/estimate/crew-plan.ts';
import { listSchedule } from '../../../src/engine/estimate/list-schedule.ts';
import { crew as oneCrew } from './simple.ts';

const crew = (over: Partial<Crew> = {}): Crew => oneCrew({ rigs: 2, ...over });
const RULES = [false, true].flatMap((beginFirst) =>
  [false, true].map((longestAtNight) => ({ beginFirst, longestAtNight })),
);
const mark = ({ finish, travel, placements }: Schedule): number[] => [
  finish,
  travel,
  placements.reduce((sum, one) => sum + one.finish, 0),
];
const compare = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((found, value, i) => (found === 0 ? value - (b[i] ?? 0) : found), 0);

const unit = fc.tuple(
  fc.integer({ min: 5, max: 40 }),
  fc.integer({ min: 20, max: 500 }),
  fc.integer({ min: 5, max: 30 }),
  fc.constantFrom('hall', 'roof', 'yard'),
);
/** Crews that differ in what holds them up: hands, rigs or the night. */
const GEAR = [
  { technicians: 1, rigs: 2, overnight: false },
  { technicians: 1, rigs: 7, overnight: true },
  { technicians: 1, rigs: 4, overnight: true },
  { technicians: 3, rigs: 2, overnight: true },
  { technicians: 2, rigs: 7, overnight: true },
];
/** 12,000 placed units are 17 plans: the order given and the simple ones. */
const UNITS = 705;

describe('a plan of a long table', () => {
  it('is the best of the order given, longest first, shortest first and area by area, by every rule', () => {
    const tables = fc.sample(fc.array(unit, { minLength: UNITS, maxLength: UNITS }), { numRuns: 5, seed: 3 });
    tables.forEach((units, table) => {
      const gear = GEAR[table] ?? { overnight: true };
      const jobs = units.map(
        ([setUp, pull, packUp, area], i): Job => ({
          kind: i,
          area,
          steps: [
            { kind: 'attended', minutes: setUp },
            {
              kind: 'waiting',
              minutes: Math.min(pull, gear.overnight ? 500 : 300),
              checkInterval: 60,
              checkMinutes: 3,
            },
            { kind: 'attended', minutes: packUp },
          ],
        }),
      );
      const site = { crews: [crew(gear)], travel: 12 };
      const given = [...jobs.keys()];
      const minutes = (i: number): number => jobs[i]?.steps.reduce((sum, step) => sum + step.minutes, 0) ?? 0;
      const areas = [...new Set(jobs.map(({ area }) => area))];
      const area = (i: number): number => areas.indexOf(jobs[i]?.area ?? '');
      const orders = [
        given,
        [...given].sort((a, b) => minutes(a) - minutes(b)),
        [...given].sort((a, b) => minutes(b) - minutes(a)),
        [...given].sort((a, b) => area(a) - area(b) || minutes(a) - minutes(b)),
        [...given].sort((a, b) => area(a) - area(b) || minutes(b) - minutes(a)),
      ];
      const marks = orders.flatMap((order) => RULES.map((rule) => mark(listSchedule(jobs, order, site, rule))));
      const { schedule, tried } = planCrews(jobs, site);
      expect([mark(schedule), tried]).toEqual([marks.sort(compare)[0], 17]);
    });
  }, 60_000);
});
