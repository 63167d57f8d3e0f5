import type { Crew, Job } from '../../../src/engine/estimate/crew.ts';
import type { RiskRow } from '../../../src/engine/estimate/risk.ts';

/** One technician with one set of gear from 08:00 to 16:00, pulls going on over night. */
export const crew = (over: Partial<Crew> = {}): Crew => ({
  name: 'one',
  technicians: 1,
  rigs: 1,
  start: 480,
  dayStart: 480,
  dayEnd: 960,
  overnight: true,
  ...over,
});

/** A unit that is set up, pulled down without looks, and packed up; minutes. */
export const jobOf = (kind: number, setUp: number, pull: number, packUp: number, area = ''): Job => ({
  kind,
  area,
  steps: [
    { kind: 'attended', minutes: setUp },
    { kind: 'waiting', minutes: pull, checkInterval: 0, checkMinutes: 0 },
    { kind: 'attended', minutes: packUp },
  ],
});

/** A row of units with no work but what is given. */
export const riskRow = (over: Partial<RiskRow>): RiskRow => ({
  count: 1,
  group: 0,
  steady: 0,
  fixed: 0,
  checkInterval: 0,
  checkMinutes: 0,
  hold: 0,
  pull: [0],
  ...over,
});
