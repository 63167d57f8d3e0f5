import { Fault } from '../../faults/issue.ts';
import type { RigCurve } from '../rig/curve.ts';
import { limitingPart } from '../rig/profile.ts';
import { effectiveSpeed, meterReading } from '../rig/speed.ts';
import type { GasLoad } from './load.ts';
import { lowestPressure, pullDownTime } from './pulldown.ts';

/** What a person compares rigs by. SI. */
export interface RigFigures {
  /** free-air meter on the open end, m3/s */
  readonly meter: number;
  /** at the target, m3/s; 0 where the target is at or below the ultimate pressure */
  readonly speedAtTarget: number;
  /** s; undefined where the target is out of reach */
  readonly time: number | undefined;
  readonly lowest: number;
  readonly worst: { readonly name: string; readonly share: number } | undefined;
}

export interface PullDownTask {
  readonly volume: number;
  readonly start: number;
  readonly target: number;
  readonly load: GasLoad;
}

/** Seconds of a pull-down, or undefined where the target is out of reach; other faults are raised. */
export function timeIfReached(curve: RigCurve, task: PullDownTask): number | undefined {
  try {
    return pullDownTime(curve, task.volume, task.start, task.target, task.load);
  } catch (error) {
    if (error instanceof Fault && error.issue.kind === 'out-of-reach') return undefined;
    throw error;
  }
}

export function rigFigures(curve: RigCurve, task: PullDownTask, ambientPressure: number): RigFigures {
  const time = timeIfReached(curve, task);
  return {
    meter: meterReading(curve, ambientPressure),
    speedAtTarget: effectiveSpeed(curve, task.target),
    time,
    lowest: lowestPressure(curve, task.load),
    worst: task.target > curve.ultimate ? limitingPart(curve, task.target) : undefined,
  };
}
