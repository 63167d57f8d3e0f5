import { preparedWithPumpSpeed } from '../rig/change.ts';
import type { PreparedRig } from '../rig/prepare.ts';
import { rigCurve } from '../rig/sweep.ts';
import type { GasLoad } from './load.ts';
import { timeIfReached } from './rig-figures.ts';

/** Part of the time that twice the pump must save to be called a help; our choice. */
export const HELP = 0.05;
/** A pump is looked for within this factor below and above that of the rig. */
const WIDEST = 4096;
/** The speed is found to this factor. */
const CLOSE = 1.005;

/** A pull-down; SI. The volume cancels out where the load is steady. */
interface Pull {
  readonly start: number;
  readonly target: number;
  readonly load: GasLoad;
}

/**
 * The pump speed from which on a pump of twice the speed shortens the pull-down of one volume by less than `HELP`, the parts and the
 * ultimate pressure staying as they are: 1 - t(2S)/t(S) = HELP.
 *
 * For parts of one conductance C at all pressures t ~ 1/S + 1/C, so that 1 - t(2S)/t(S) = 1/(2(1 + S/C)) and S = C(1/(2 HELP) - 1) = 9 C.
 *
 * @returns m3/s; undefined where doubling helps at any speed (a bare pump) or the target is out of reach
 */
export function helpingSpeed(rig: PreparedRig, { start, target, load }: Pull): number | undefined {
  const helps = (speed: number): boolean | undefined => {
    const slow = timeAt(speed);
    const fast = timeAt(2 * speed);
    if (fast === undefined) return undefined;
    return slow === undefined || 1 - fast / slow >= HELP;
  };
  const timeAt = (speed: number): number | undefined =>
    timeIfReached(rigCurve(preparedWithPumpSpeed(rig, speed)), { volume: 1, start, target, load });
  const own = rig.pump.speed;
  let low = own;
  let high = own;
  const first = helps(own);
  if (first === undefined) return undefined;
  if (first) {
    while (helps(high) === true) {
      low = high;
      high *= 2;
      if (high > WIDEST * own) return undefined;
    }
  } else {
    while (helps(low) === false) {
      high = low;
      low /= 2;
      if (low * WIDEST < own) return low;
    }
  }
  while (high > CLOSE * low) {
    const middle = Math.sqrt(low * high);
    if (helps(middle) === true) low = middle;
    else high = middle;
  }
  return Math.sqrt(low * high);
}
