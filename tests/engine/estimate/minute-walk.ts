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
  readonly crew: number;
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
  const people = crews.map(({ technicians }, crew) =>
    Array.from({ length: technicians }, (): Person => ({ crew, free: 0, area: '' })),
  );
  const rigs: Rig[][] = crews.map(() => []);
  const left = [...order];
  const placements: Placement[] = [];
  let checks = 0;
  let travelled = 0;
  let now = 0;

  const stepsOf = (job: number) => jobs[job]?.steps ?? [];
  const minutesOf = (job: number): number => stepsOf(job).reduce((sum, { minutes }) => sum + minutes, 0);
  const hasWay = (person: Person, area: string): boolean =>
    way > 0 && person.area !== '' && area !== '' && person.area !== area;
  /** When somebody who sets off as soon as he is free and the way fits into the day is in another area. */
  const arrival = ({ crew, free }: Person): number => {
    const { dayStart, dayEnd } = crews[crew] ?? { dayStart: 0, dayEnd: 0 };
    let leaves = free;
    while (leaves % 1440 < dayStart || (leaves % 1440) + way > dayEnd) leaves += 1;
    return leaves + way;
  };
  const walkOf = (person: Person, area: string): number =>
    hasWay(person, area) ? Math.max(0, arrival(person) - now) : 0;
  const idle = (crew: number): Person[] => (people[crew] ?? []).filter((one) => one.free <= now);
  const who = (crew: number, area: string): Person | undefined => {
    const free = idle(crew);
    const there = free.filter((one) => one.area === area).sort((a, b) => b.free - a.free)[0];
    const fresh = free.find((one) => one.area === '');
    return there ?? fresh ?? free.sort((a, b) => arrival(a) - arrival(b))[0];
  };
  const mixed = way > 0 && jobs.some(({ area }) => area === '');
  /** Who may be sent where it is chosen: where some units have no area, one from each area. */
  const anyWho = (crew: number, area: string): Person[] => {
    const first = who(crew, area);
    if (first === undefined) return [];
    const areas = [...new Set([first, ...(mixed ? idle(crew) : [])].map((one) => one.area))];
    return areas.map(
      (place) =>
        idle(crew)
          .filter((one) => one.area === place)
          .sort((a, b) => b.free - a.free)[0] ?? first,
    );
  };
  const left24 = (crew: number): number => (crews[crew]?.dayEnd ?? 0) - (now % 1440);
  const send = (person: Person, area: string, minutes: number): number => {
    if (hasWay(person, area)) travelled += way;
    person.free = now + walkOf(person, area) + minutes;
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
  const canDo = (crew: number, job: number): boolean => {
    const { dayStart, dayEnd, overnight } = crews[crew] ?? { dayStart: 0, dayEnd: 0, overnight: false };
    const attended = stepsOf(job).map((step) => (step.kind === 'attended' ? step.minutes : 0));
    const longest = overnight ? Math.max(...attended) : minutesOf(job);
    return Math.max(longest, ...attended) + way <= dayEnd - dayStart;
  };
  /** Whether a crew may begin a job now: by its day as a whole, by what is left of today, with all of it today where `today`. */
  const mayBegin = (crew: number, job: number, today: boolean, person = who(crew, jobs[job]?.area ?? '')): boolean => {
    const site = crews[crew];
    if (site === undefined || person === undefined) return false;
    if (!canDo(crew, job)) return false;
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
  const begin = (
    crew: number,
    job = hasRig(crew) ? toBegin(crew) : undefined,
    person = job === undefined ? undefined : who(crew, jobs[job]?.area ?? ''),
  ): boolean => {
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
    let putOff = false;
    for (const rig of own) {
      const area = jobs[rig.job]?.area ?? '';
      for (const person of rig.ready > now ? [] : anyWho(crew, area)) {
        if (walkOf(person, area) + stepNeed(crew, rig) > left24(crew)) {
          putOff ||= way > 0;
          continue;
        }
        options.push(() => {
          doStep(crew, rig, person);
          return true;
        });
      }
    }
    const firsts = [...new Set(jobs.map(({ kind }) => kind))].map((kind) =>
      left.find((job) => jobs[job]?.kind === kind),
    );
    const couldBegin = hasRig(crew) ? firsts.filter((job) => job !== undefined).filter((job) => canDo(crew, job)) : [];
    let [begins, leaves] = [0, 0];
    for (const job of couldBegin)
      for (const person of anyWho(crew, jobs[job]?.area ?? '')) {
        if (mayBegin(crew, job, false, person)) {
          options.push(() => begin(crew, job, person));
          begins += 1;
        } else leaves += 1;
      }
    if (options.length === 0) return look(crew);
    // a unit that does not fit today may want the rig in the morning, and somebody there
    if (leaves > 0 && (begins > 0 || way > 0)) putOff = true;
    // where nothing is under way or put off that may change something, waiting is of no use
    const underWay = own.some(({ ready }) => ready > now) || people[crew]?.some(({ free }) => free > now) === true;
    if (putOff || underWay || crews.length > 1) options.push(() => look(crew));
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
