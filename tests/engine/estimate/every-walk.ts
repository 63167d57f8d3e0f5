import type { Crew, CrewSite, Job } from '../../../src/engine/estimate/crew.ts';

/**
 * The soonest finish of all plans of one crew, ways between areas included: every sequence of attended steps, each by every technician, each
 * as early as it can be when the steps before it in the sequence stand. A way is begun as soon as whoever goes is free, in working hours and
 * without a break. No looks at pumps. Written without the list rule, without moments at which things are chosen; of use for two or three units.
 */
export function soonestWithWays(jobs: readonly Job[], { crews, travel }: CrewSite): number {
  const crew = crews[0];
  if (crew === undefined || crews.length > 1) throw new Error('one crew');
  const way = new Set(jobs.map(({ area }) => area).filter((area) => area !== '')).size > 1 ? travel : 0;
  let best = Number.POSITIVE_INFINITY;
  const go = (state: State): void => {
    if (state.latest >= best) return;
    if (state.units.every(({ done }, job) => done >= (jobs[job]?.steps.length ?? 0))) {
      best = state.latest;
      return;
    }
    jobs.forEach((job, index) => {
      const { done } = state.units[index] ?? { done: 0 };
      // with every rig taken a unit is to be packed up first
      if (done >= job.steps.length || (done === 0 && !state.rigs.some(Number.isFinite))) return;
      for (let who = 0; who < crew.technicians; who++) go(after(state, job, index, who, crew, way));
    });
  };
  go({
    people: Array.from({ length: crew.technicians }, () => ({ free: crew.start, area: '' })),
    rigs: Array.from({ length: crew.rigs }, () => crew.start),
    units: jobs.map(() => ({ done: 0, due: crew.start })),
    latest: crew.start,
  });
  return best;
}

interface State {
  readonly people: readonly { readonly free: number; readonly area: string }[];
  /** when each rig comes free; never, while a unit holds it */
  readonly rigs: readonly number[];
  readonly units: readonly { readonly done: number; readonly due: number }[];
  readonly latest: number;
}

/** The first moment from one on at which so many minutes of the working day are left. */
function opening({ dayStart, dayEnd }: Crew, from: number, minutes: number): number {
  const midnight = from - (from % 1440);
  if (from < midnight + dayStart) return midnight + dayStart;
  return from + minutes <= midnight + dayEnd ? from : midnight + 1440 + dayStart;
}

/** The next attended step of a unit, and what runs by itself behind it. */
function after(state: State, job: Job, index: number, who: number, crew: Crew, way: number): State {
  const { done, due } = state.units[index] ?? { done: 0, due: 0 };
  const { free, area } = state.people[who] ?? { free: 0, area: '' };
  const rigs = [...state.rigs].sort((a, b) => a - b);
  const waits = job.steps[done + 1]?.kind === 'waiting' ? (job.steps[done + 1]?.minutes ?? 0) : 0;
  const minutes = job.steps[done]?.minutes ?? 0;
  let need = minutes;
  if (!crew.overnight) need += done === 0 ? job.steps.slice(1).reduce((sum, step) => sum + step.minutes, 0) : waits;
  const walks = way > 0 && area !== '' && job.area !== '' && area !== job.area;
  const there = walks ? opening(crew, free, way) + way : free;
  const start = opening(crew, Math.max(there, done === 0 ? (rigs[0] ?? 0) : due), need);
  const end = start + minutes;
  const next = done + (job.steps[done + 1]?.kind === 'waiting' ? 2 : 1);
  if (done === 0) rigs[0] = Number.POSITIVE_INFINITY;
  if (next >= job.steps.length) rigs[rigs.lastIndexOf(Number.POSITIVE_INFINITY)] = end;
  return {
    people: state.people.map((one, at) => (at === who ? { free: end, area: job.area === '' ? area : job.area } : one)),
    rigs,
    units: state.units.map((one, at) => (at === index ? { done: next, due: end + waits } : one)),
    latest: Math.max(state.latest, end),
  };
}
