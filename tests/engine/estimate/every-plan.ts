import type { Crew, Job } from '../../../src/engine/estimate/crew.ts';

/**
 * The soonest finish of all plans of one crew that may run rigs overnight, by trying every sequence of attended steps, each as early as it
 * can be: deliberate waiting included, since a step put off is one that comes later in the sequence. No checks, no ways. Written without
 * the list rule; of use for four or five units.
 */
export function soonestOfAll(jobs: readonly Job[], { technicians, rigs, start, dayStart, dayEnd }: Crew): number {
  interface Task {
    readonly attended: readonly number[];
    readonly waits: readonly number[];
  }
  const tasks = jobs.map(({ steps }): Task => {
    const attended: number[] = [];
    const waits: number[] = [];
    for (const step of steps)
      if (step.kind === 'attended') {
        attended.push(step.minutes);
        waits.push(0);
      } else waits[waits.length - 1] = (waits.at(-1) ?? 0) + step.minutes;
    return { attended, waits };
  });
  const done = tasks.map(() => 0);
  const ready = tasks.map(() => start);
  const over = tasks.map(() => Number.POSITIVE_INFINITY);
  const free = Array.from({ length: technicians }, () => start);
  let best = Number.POSITIVE_INFINITY;
  const inDay = (moment: number, minutes: number): number => {
    const clock = ((moment % 1440) + 1440) % 1440;
    if (clock < dayStart) return moment + dayStart - clock;
    return clock + minutes <= dayEnd ? moment : moment - clock + 1440 + dayStart;
  };
  const go = (left: number, from: number, latest: number): void => {
    if (latest >= best) return;
    if (left === 0) {
      best = latest;
      return;
    }
    tasks.forEach(({ attended, waits }, j) => {
      const step = done[j] ?? 0;
      const minutes = attended[step];
      if (minutes === undefined) return;
      let when = Math.max(from, ready[j] ?? 0);
      if (step === 0) {
        // with all rigs taken, the next set-up waits for the first that comes free
        const ends = over.filter((_, i) => (done[i] ?? 0) > 0).sort((a, b) => b - a);
        if (ends.length >= rigs) when = Math.max(when, ends[rigs - 1] ?? 0);
      }
      if (!Number.isFinite(when)) return;
      let who = 0;
      free.forEach((moment, t) => {
        if (moment < (free[who] ?? 0)) who = t;
      });
      const was = [free[who] ?? 0, ready[j] ?? 0, over[j] ?? 0] as const;
      when = inDay(Math.max(when, was[0]), minutes);
      const end = when + minutes;
      free[who] = end;
      ready[j] = end + (waits[step] ?? 0);
      done[j] = step + 1;
      if (step + 1 === attended.length) over[j] = end;
      go(left - 1, when, Math.max(latest, end));
      done[j] = step;
      [free[who], ready[j], over[j]] = was;
    });
  };
  go(
    tasks.reduce((sum, { attended }) => sum + attended.length, 0),
    start,
    start,
  );
  return best;
}
