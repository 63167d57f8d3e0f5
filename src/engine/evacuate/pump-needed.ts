import { raise } from '../../faults/issue.ts';
import { findRoot } from '../../numerics/root.ts';
import { preparedWithPumpSpeed } from '../rig/change.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import { rigCurve } from '../rig/sweep.ts';
import { type GasLoad, NO_LOAD } from './load.ts';
import { checkPullDown, secondsTo } from './pulldown.ts';

/** Pump speed that stands for "any pump, however large", m3/s: far above every hose's conductance. */
export const ENDLESS_PUMP = 1e3;
/** Slowest pump looked at, m3/s. */
const LEAST_PUMP = 1e-9;
/** Width at which the search for ln(speed) stops. */
const TOLERANCE = 1e-6;

export interface PumpDemand {
  readonly volume: number;
  readonly start: number;
  readonly target: number;
  /** s */
  readonly time: number;
  readonly load?: GasLoad;
}

/**
 * Smallest pump speed (m3/s) with which a rig reaches the target in time, its ultimate pressure unchanged.
 *
 * @throws out-of-reach where no pump of this ultimate pressure reaches the target; no-solution where the rig alone,
 * behind an endless pump, takes longer than there is
 */
export function pumpNeeded(rig: PreparedRig, demand: PumpDemand): number {
  const { volume, start, target, time, load = NO_LOAD } = demand;
  if (!(time > 0))
    raise({ kind: 'limit', argument: 'Minutes', value: time / 60, rule: 'above', limit: 0, unit: 'min' });
  const secondsWith = (speed: number): number =>
    secondsTo(rigCurve(preparedWithPumpSpeed(rig, speed)), volume, start, target, load);
  checkPullDown(rigCurve(preparedWithPumpSpeed(rig, ENDLESS_PUMP)), volume, start, target, load);
  const fastest = secondsWith(ENDLESS_PUMP);
  if (fastest > time)
    raise({
      kind: 'no-solution',
      reason: `no pump can: this rig alone takes ${roundedMinutes(fastest)} min`,
      todo: 'Allow more minutes, or swap the part with the largest share of the loss (RIG.PROFILE).',
    });
  // Rate against rate stays finite where a small pump never gets there.
  const surplus = (lnSpeed: number): number => 1 / secondsWith(Math.exp(lnSpeed)) - 1 / time;
  let low = Math.log(rig.pump.speed);
  let high = low;
  while (surplus(high) < 0 && high < Math.log(ENDLESS_PUMP)) high = Math.min(Math.log(ENDLESS_PUMP), high + 1.5);
  while (surplus(low) > 0 && low > Math.log(LEAST_PUMP)) low -= 1.5;
  if (low === high) return Math.exp(low);
  return Math.exp(findRoot(surplus, low, high, { absolute: TOLERANCE, relative: 0 }));
}

/** Minutes as read aloud: three figures. */
function roundedMinutes(seconds: number): number {
  return Number((seconds / 60).toPrecision(3));
}
