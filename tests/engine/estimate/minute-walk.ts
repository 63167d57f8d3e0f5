import type { CrewSite, Job, Placement } from '../../../src/engine/estimate/crew.ts';

/**
 * The list rule walked through minute by minute, written from its description and without its code: no next events, no lists that know what
 * fits. All times must be whole minutes.
 */
export interface Walk {
  readonly placements: readonly Placement[];
  readonly checks: number;
  readonly travel: number;
}

interface Person {
  free: number;
  area: string;
}

interface Rig {
  readonly job: number;
  readonly begun: number;
  /** how many steps are done or run by themselves */
  done: number;
  ready: number;
  look: number;
}

export function minuteWalk(
  jobs: readonly Job[],
  order: readonly number[],
  { crews, travel }: CrewSite,
  rule: { readonly beginFirst?: boolean; readonly longestAtNight?: boolean } = {},
  choose?: (options: number) => number,
): Walk {
  const way = new Set(jobs.map(({ area }) => area).filter((area) => area !== '')).size > 1 ? travel : 0;
  const people = crews.map(({ technicians }) =>
    Array.from({ length: technicians }, (): Person => ({ free: 0, area: '' })),
  );
  const rigs: Rig[][] = crews.map(() => []);
  const left = [...order];
  const placements: Placement[] = [];
  let checks = 0;
  let travelled = 0;
  let now = 0;

  const stepsOf = (job: number) => jobs[job]?.steps ?? [];
  const minutesOf = (job: number): number => stepsOf(job).reduce((sum, { minutes }) => sum + minutes, 0);
  const who = (crew: number, area: string): Person | undefined => {
    const free = (people[crew] ?? []).filter((one) => one.free <= now);
    return free.find((one) => one.area === area) ?? free.find((one) => one.area === '') ?? free[0];
  };
  const walkOf = (person: Person, area: string): number =>
    person.area === '' || area === '' || person.area === area ? 0 : way;
  const left24 = (crew: number): number => (crews[crew]?.dayEnd ?? 0) - (now % 1440);
  const send = (person: Person, area: string, minutes: number): number => {
    const walk = walkOf(person, area);
    travelled += walk;
    person.free = now + walk + minutes;
    if (area !== '') person.area = area;
    return person.free;
  };

  /** Does the next step of a rig, and lets the pull or hold behind it run. */
  const doStep = (crew: number, rig: Rig, person: Person): void => {
    const steps = stepsOf(rig.job);
    const end = send(person, jobs[rig.job]?.area ?? '', steps[rig.done]?.minutes ?? 0);
    rig.done += 1;
    rig.ready = end;
    rig.look = Number.POSITIVE_INFINITY;
    const next = steps[rig.done];
    if (next === undefined) {
      const nights = Math.floor((end - 1) / 1440) - Math.floor(rig.begun / 1440);
      placements.push({ job: rig.job, crew, start: rig.begun, finish: end, overnight: nights > 0 });
    } else if (next.kind === 'waiting') {
      rig.done += 1;
      rig.ready = end + next.minutes;
      if (next.checkInterval > 0) rig.look = end + next.checkInterval;
    }
  };
  /** What must still fit into the day to do a rig's next step. */
  const stepNeed = (crew: number, { job, done }: Rig): number => {
    const [step, next] = [stepsOf(job)[done], stepsOf(job)[done + 1]];
    const pull = next?.kind === 'waiting' && crews[crew]?.overnight !== true ? next.minutes : 0;
    return (step?.minutes ?? 0) + pull;
  };
  const goOn = (crew: number): boolean => {
    const due = (rigs[crew] ?? []).filter((rig) => rig.ready <= now).sort((a, b) => a.ready - b.ready);
    for (const rig of due) {
      const area = jobs[rig.job]?.area ?? '';
      const person = who(crew, area);
      if (person === undefined || walkOf(person, area) + stepNeed(crew, rig) > left24(crew)) continue;
      doStep(crew, rig, person);
      return true;
    }
    return false;
  };
  const look = (crew: number): boolean => {
    for (const rig of rigs[crew] ?? []) {
      const area = jobs[rig.job]?.area ?? '';
      const person = who(crew, area);
      const step = stepsOf(rig.job)[rig.done - 1];
      // none at the very end of a pull, nor after it
      if (person === undefined || step?.kind !== 'waiting' || rig.look > now || rig.look >= rig.ready) continue;
      if (rig.ready <= now || walkOf(person, area) + step.checkMinutes > left24(crew)) continue;
      send(person, area, step.checkMinutes);
      checks += step.checkMinutes;
      while (rig.look <= now) rig.look += step.checkInterval;
      return true;
    }
    return false;
  };
  /** Whether a crew may begin a job now: by its day as a whole, by what is left of today, with all of it today where `today`. */
  const mayBegin = (crew: number, job: number, today: boolean): boolean => {
    const site = crews[crew];
    const person = who(crew, jobs[job]?.area ?? '');
    if (site === undefined || person === undefined) return false;
    const day = site.dayEnd - site.dayStart;
    const attended = stepsOf(job).map((step) => (step.kind === 'attended' ? step.minutes : 0));
    if (Math.max(...attended) + way > day || (!site.overnight && minutesOf(job) + way > day)) return false;
    const need = today || !site.overnight ? minutesOf(job) : (stepsOf(job)[0]?.minutes ?? 0);
    return walkOf(person, jobs[job]?.area ?? '') + need <= left24(crew);
  };
  const toBegin = (crew: number): number | undefined => {
    if (rule.longestAtNight !== true) return left.find((job) => mayBegin(crew, job, false));
    const today = left.find((job) => mayBegin(crew, job, true));
    if (today !== undefined) return today;
    const may = left.filter((job) => mayBegin(crew, job, false));
    const kindsInTurn = [...new Set(jobs.map(({ kind }) => kind))];
    const turn = (job: number): number => kindsInTurn.indexOf(jobs[job]?.kind ?? -1);
    may.sort((a, b) => minutesOf(b) - minutesOf(a) || turn(a) - turn(b) || left.indexOf(a) - left.indexOf(b));
    const noWay = may.find((job) => {
      const area = jobs[job]?.area ?? '';
      const person = who(crew, area);
      return person !== undefined && walkOf(person, area) === 0;
    });
    return noWay ?? may[0];
  };
  const hasRig = (crew: number): boolean => (rigs[crew] ?? []).length < (crews[crew]?.rigs ?? 0);
  const begin = (crew: number, job = hasRig(crew) ? toBegin(crew) : undefined): boolean => {
    const person = job === undefined ? undefined : who(crew, jobs[job]?.area ?? '');
    if (job === undefined || person === undefined) return false;
    left.splice(left.indexOf(job), 1);
    const rig: Rig = { job, begun: now, done: 0, ready: now, look: Number.POSITIVE_INFINITY };
    rigs[crew]?.push(rig);
    doStep(crew, rig, person);
    return true;
  };

  /** One of all that may be done, as chosen: go on with a rig, begin a unit of some kind, or leave both and look after pumps. */
  const asChosen = (crew: number, pick: (options: number) => number): boolean => {
    const options: (() => boolean)[] = [];
    const own = rigs[crew] ?? [];
    for (const rig of own) {
      const area = jobs[rig.job]?.area ?? '';
      const person = who(crew, area);
      if (person === undefined || rig.ready > now || walkOf(person, area) + stepNeed(crew, rig) > left24(crew))
        continue;
      options.push(() => {
        doStep(crew, rig, person);
        return true;
      });
    }
    const firsts = [...new Set(jobs.map(({ kind }) => kind))].map((kind) =>
      left.find((job) => jobs[job]?.kind === kind),
    );
    for (const job of hasRig(crew) ? firsts : [])
      if (job !== undefined && mayBegin(crew, job, false)) options.push(() => begin(crew, job));
    if (options.length === 0) return look(crew);
    // where nothing is under way that may change something, waiting is of no use
    const underWay = own.some(({ ready }) => ready > now) || people[crew]?.some(({ free }) => free > now) === true;
    if (underWay || crews.length > 1) options.push(() => look(crew));
    return options[pick(options.length)]?.() ?? false;
  };
  const work = (crew: number): boolean => {
    const { start, dayStart, dayEnd } = crews[crew] ?? { start: 0, dayStart: 0, dayEnd: 0 };
    if (now < start || now % 1440 < dayStart || now % 1440 > dayEnd) return false;
    if (!(people[crew] ?? []).some(({ free }) => free <= now)) return false;
    rigs[crew] = (rigs[crew] ?? []).filter((rig) => rig.done < stepsOf(rig.job).length || rig.ready > now);
    if (choose !== undefined) return asChosen(crew, choose);
    if (rule.beginFirst === true) return begin(crew) || goOn(crew) || look(crew);
    return goOn(crew) || look(crew) || begin(crew);
  };
  /** Choices are asked for only when something has come about: someone is free, a step is over, a look is due, a day begins. */
  const something = (): boolean =>
    crews.some(
      ({ start, dayStart }, crew) =>
        now === start ||
        now % 1440 === dayStart ||
        people[crew]?.some(({ free }) => free === now) === true ||
        rigs[crew]?.some(({ ready, look }) => ready === now || look === now) === true,
    );

  for (; placements.length < order.length; now++) {
    if (now > 100 * 1440) throw new Error('the walk does not end');
    if (choose !== undefined && !something()) continue;
    for (let busy = true; busy; ) {
      busy = false;
      for (let crew = 0; crew < crews.length; crew++) while (work(crew)) busy = true;
    }
  }
  placements.sort((a, b) => a.start - b.start || a.crew - b.crew || a.job - b.job);
  return { placements, checks, travel: travelled };
}
