import { raise } from '../../faults/issue.ts';
import { bracketAbove, findRoot } from '../../numerics/root.ts';
import type { GasState } from '../gas/state.ts';
import { boreOf, withBore } from './change.ts';
import { systemPressureAt } from './march.ts';
import { type PreparedRig, prepareRig } from './prepare.ts';
import { pumpThroughputAt } from './pump.ts';
import type { Rig } from './rig.ts';

/** Bores that a fit looks between, m: a pinhole to a wide suction hose. */
export const LEAST_BORE = 0.2e-3;
export const WIDEST_BORE = 60e-3;
/** Width at which searches for a logarithm stop. */
const TOLERANCE = 1e-10;

/** The index of the part that a fit may widen; raises where it has no bore. */
export function fittablePart(rig: Rig, name: string): number {
  const key = name.trim().toLowerCase();
  const index = rig.parts.findIndex((part) => part.name.trim().toLowerCase() === key);
  const part = rig.parts[index];
  if (part === undefined)
    raise({ kind: 'unknown', what: 'part', value: name, known: rig.parts.map((each) => each.name) });
  if (boreOf(part) === undefined)
    raise({
      kind: 'wrong',
      argument: 'Part',
      found: `"${part.name}", which is given by a flow coefficient`,
      allowed: 'a part with a bore',
      todo: 'Name a hose, tube, port, core, depressor or manifold that has a bore.',
    });
  return index;
}

/** Throughput (Pa m3/s) that a prepared rig draws from a system pressure (Pa), found without the rig's curve. */
export function throughputFrom(rig: PreparedRig, systemPressure: number): number {
  const whole = systemPressure - rig.ultimate;
  if (!(whole > 0)) return 0;
  const miss = (v: number): number => Math.log((systemPressureAt(rig, Math.exp(v)) - rig.ultimate) / whole);
  const high = Math.log(whole);
  // no drop at all, as far as the digits tell
  if (miss(high) <= 0) return pumpThroughputAt(rig.pump, rig.ultimate, whole);
  const below = bracketAbove((down) => -miss(high - down), 0, 1);
  const v = Number.isNaN(below) ? below : findRoot(miss, high - below, high, { absolute: TOLERANCE, relative: 0 });
  // no root: the rig is so narrow that nothing gets through
  return Number.isNaN(v) ? 0 : pumpThroughputAt(rig.pump, rig.ultimate, Math.exp(v));
}

/**
 * Effective bore (m) of one part with which a free-air meter on the open end of the rig reads `reading` (m3/s at
 * ambient pressure). The reading rises with the bore, so there is one answer or none.
 *
 * @throws no-solution with the range of readings between the least and the widest bore
 */
export function fitBoreToReading(
  rig: Rig,
  gas: GasState,
  partIndex: number,
  reading: number,
  ambientPressure: number,
): number {
  if (!(reading > 0))
    raise({ kind: 'limit', argument: 'Reading', value: reading, rule: 'above', limit: 0, unit: 'm3/s' });
  const readingAt = (lnBore: number): number =>
    throughputFrom(prepareRig(withBore(rig, partIndex, Math.exp(lnBore)), gas), ambientPressure) / ambientPressure;
  const low = Math.log(LEAST_BORE);
  const high = Math.log(WIDEST_BORE);
  const least = readingAt(low);
  const most = readingAt(high);
  if (!(reading >= least && reading <= most))
    raise({
      kind: 'no-solution',
      reason: `the meter reads between ${litres(least)} L/s (bore ${LEAST_BORE * 1e3} mm) and ${litres(most)} L/s (bore ${
        WIDEST_BORE * 1e3
      } mm), whatever the bore of this part; it was to read ${litres(reading)} L/s`,
      todo: 'Check the reading and its unit, the speed of the pump, and the bores of the other parts.',
    });
  return Math.exp(findRoot((x) => Math.log(readingAt(x) / reading), low, high, { absolute: 1e-8, relative: 0 }));
}

function litres(speed: number): number {
  return Number((speed * 1e3).toPrecision(3));
}
