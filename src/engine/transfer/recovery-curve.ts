import { recover } from './recovery.ts';
import type { RecoveryGear, RecoveryTask } from './recovery-gear.ts';
import type { RecoveryMoment } from './recovery-stages.ts';

/**
 * The recovery as `points` moments (at least 2) from the start to the level, closer where pressure or mass change fast: at
 * even steps of the sum of the parts done of the pressure's, the mass's and the time's way. SI.
 */
export function recoveryCurve(gear: RecoveryGear, task: RecoveryTask, points: number): readonly RecoveryMoment[] {
  const way: RecoveryMoment[] = [];
  recover(gear, task, (moment) => way.push(moment));
  const [first] = way;
  const last = way.at(-1);
  if (first === undefined || last === undefined) return [];
  const steps = way.slice(1).map((moment, i) => {
    const before = way[i] ?? moment;
    return {
      pressure: Math.abs(Math.log(moment.pressure / before.pressure)),
      mass: Math.abs(moment.mass - before.mass),
      time: moment.time - before.time,
    };
  });
  const whole = { pressure: 0, mass: 0, time: 0 };
  for (const step of steps) {
    whole.pressure += step.pressure;
    whole.mass += step.mass;
    whole.time += step.time;
  }
  const part = (value: number, all: number): number => (all > 0 ? value / all : 0);
  const done = [0];
  steps.forEach((step, i) => {
    const more = part(step.pressure, whole.pressure) + part(step.mass, whole.mass) + part(step.time, whole.time);
    done.push((done[i] ?? 0) + more);
  });
  const all = done.at(-1) ?? 0;
  let i = 0;
  return Array.from({ length: points }, (_, k) => {
    if (k === 0) return first;
    if (k === points - 1 || !(all > 0)) return last;
    const wanted = (k * all) / (points - 1);
    while (i + 2 < done.length && (done[i + 1] ?? 0) <= wanted) i++;
    const width = (done[i + 1] ?? 0) - (done[i] ?? 0);
    return between(way[i] ?? first, way[i + 1] ?? last, width > 0 ? (wanted - (done[i] ?? 0)) / width : 0);
  });
}

/** A straight line between two moments. */
function between(a: RecoveryMoment, b: RecoveryMoment, share: number): RecoveryMoment {
  const mean = (of: (moment: RecoveryMoment) => number): number => of(a) + share * (of(b) - of(a));
  return {
    time: mean(({ time }) => time),
    state: b.state,
    pressure: mean(({ pressure }) => pressure),
    mass: mean(({ mass }) => mass),
    liquid: mean(({ liquid }) => liquid),
    temperature: mean(({ temperature }) => temperature),
    flow: mean(({ flow }) => flow),
    suction: mean(({ suction }) => suction),
  };
}
