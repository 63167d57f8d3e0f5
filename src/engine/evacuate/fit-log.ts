import { raise } from '../../faults/issue.ts';
import { goldenMinimum } from '../../numerics/golden.ts';
import type { GasState } from '../gas/state.ts';
import { withBore } from '../rig/change.ts';
import { LEAST_BORE, WIDEST_BORE } from '../rig/fit.ts';
import { prepareRig } from '../rig/prepare.ts';
import type { Rig } from '../rig/rig.ts';
import { rigCurve } from '../rig/sweep.ts';
import { pressureAfter } from './pulldown.ts';

/** Readings of a pull-down: s and Pa at the system. */
export interface PullDownLog {
  readonly time: readonly number[];
  readonly pressure: readonly number[];
}

const COARSE_POINTS = 24;
/** Width of ln(bore) at which the search stops. */
const TOLERANCE = 1e-6;

/**
 * Effective bore (m) of one part with which the rig pulls a volume (m3) down as logged: least squares of ln p over the
 * rows after the first, whose pressure is the start. A coarse look over all bores finds the valley, golden-section
 * steps its bottom.
 *
 * @throws wrong under three readings; no-solution where the best bore lies at an end of the range
 */
export function fitBoreToLog(rig: Rig, gas: GasState, partIndex: number, volume: number, log: PullDownLog): number {
  if (!(volume > 0)) raise({ kind: 'limit', argument: 'Volume', value: volume, rule: 'above', limit: 0, unit: 'm3' });
  if (log.time.length < 3)
    raise({
      kind: 'wrong',
      argument: 'Reading',
      found: `a log of ${log.time.length} readings`,
      allowed: 'a log of at least three readings',
      todo: 'Give more rows of Minutes and Pressure.',
    });
  const [t0 = 0] = log.time;
  const [p0 = 0] = log.pressure;
  const misses = (lnBore: number): number => {
    const curve = rigCurve(prepareRig(withBore(rig, partIndex, Math.exp(lnBore)), gas));
    let sum = 0;
    for (let i = 1; i < log.time.length; i++) {
      const model = pressureAfter(curve, volume, p0, (log.time[i] ?? t0) - t0);
      sum += Math.log(model / (log.pressure[i] ?? model)) ** 2;
    }
    return sum;
  };
  const low = Math.log(LEAST_BORE);
  const step = (Math.log(WIDEST_BORE) - low) / (COARSE_POINTS - 1);
  const coarse = Array.from({ length: COARSE_POINTS }, (_, i) => misses(low + i * step));
  const best = coarse.indexOf(Math.min(...coarse));
  if (best <= 0 || best >= COARSE_POINTS - 1)
    raise({
      kind: 'no-solution',
      reason: `no bore of this part between ${LEAST_BORE * 1e3} and ${WIDEST_BORE * 1e3} mm pulls down as the log says: it fits best at ${
        best <= 0 ? 'the narrow' : 'the wide'
      } end`,
      todo: 'Check the volume, the speed of the pump, the bores of the other parts and the log.',
    });
  return Math.exp(goldenMinimum(misses, low + (best - 1) * step, low + (best + 1) * step, TOLERANCE));
}
