import { type DryOut, dryOut, type WetSystem } from './dry-out.ts';
import { type RigSurface, vapourAtPump } from './rig-surface.ts';
import type { Moment } from './stages.ts';

/** A dry-out as points for a chart. SI. */
export interface DryPoint {
  /** s */
  readonly time: number;
  readonly state: Moment['state'];
  /** Pa */
  readonly pressure: number;
  /** liquid and ice, kg */
  readonly water: number;
  /** K, of the water; undefined once it is dry */
  readonly temperature: number | undefined;
  /** partial pressure of vapour at the pump inlet, Pa */
  readonly vapourAtPump: number;
}

/**
 * The dry-out with `points` moments (at least 2) from the start to the end, closer where pressure or water change fast: at
 * even steps of the sum of the parts done of ln(pressure), of the water and of the time.
 */
export function dryOutCurve(
  surface: RigSurface,
  system: WetSystem,
  points: number,
): { readonly result: DryOut; readonly points: readonly DryPoint[] } {
  const way: Moment[] = [];
  const result = dryOut(surface, system, (moment) => way.push(moment));
  const [first] = way;
  const last = way.at(-1);
  if (first === undefined || last === undefined) return { result, points: [] };
  const lnPressure = ({ gas, vapour }: Moment): number => Math.log(gas + vapour);
  const fall = lnPressure(first) - lnPressure(last);
  const done: number[] = [0];
  way.slice(1).forEach((moment, i) => {
    const before = way[i] ?? moment;
    const part =
      Math.abs(lnPressure(moment) - lnPressure(before)) / fall +
      Math.abs(moment.water - before.water) / first.water +
      (moment.time - before.time) / last.time;
    done.push((done[i] ?? 0) + part);
  });
  const whole = done.at(-1) ?? 1;
  let i = 0;
  const chosen = Array.from({ length: points }, (_, k) => {
    if (k === 0) return first;
    if (k === points - 1) return last;
    const wanted = (k * whole) / (points - 1);
    while (i + 2 < done.length && (done[i + 1] ?? 0) <= wanted) i++;
    const share = (wanted - (done[i] ?? 0)) / ((done[i + 1] ?? 1) - (done[i] ?? 0));
    return between(way[i] ?? first, way[i + 1] ?? last, share);
  });
  return { result, points: chosen.map((moment) => pointOf(surface, moment)) };
}

/** A straight line between two moments of one stage. */
function between(a: Moment, b: Moment, share: number): Moment {
  const mean = (of: (moment: Moment) => number): number => of(a) + share * (of(b) - of(a));
  return {
    time: mean(({ time }) => time),
    state: b.state,
    gas: mean(({ gas }) => gas),
    vapour: mean(({ vapour }) => vapour),
    water: mean(({ water }) => water),
    ice: mean(({ ice }) => ice),
    temperature: mean(({ temperature }) => temperature),
  };
}

function pointOf(surface: RigSurface, { time, state, gas, vapour, water, temperature }: Moment): DryPoint {
  const pressure = gas + vapour;
  return {
    time,
    state,
    pressure,
    water,
    temperature: state === 'dry' ? undefined : temperature,
    vapourAtPump: vapourAtPump(surface, pressure, vapour / pressure),
  };
}
