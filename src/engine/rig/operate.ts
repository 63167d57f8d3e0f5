import { raise } from '../../faults/issue.ts';
import { CURVE_TOP, type RigCurve } from './curve.ts';
import { type March, march, marchFrom, raiseBlocked } from './march.ts';
import type { PreparedRig } from './prepare.ts';
import { pumpExcess } from './pump.ts';
import { excessConductance, throughputSlope } from './speed.ts';

/** Largest miss of ln(excess pressure) at a working point. */
const MISS = 1e-10;
const MOST_STEPS = 12;

/**
 * The working point at a system pressure (Pa): the curve gives the flow to start from, Newton steps on the march itself
 * take out what the interpolation misses. At or below the ultimate pressure nothing flows.
 */
export function operateAt(curve: RigCurve, systemPressure: number): March {
  const { rig, ultimate } = curve;
  const excess = systemPressure - ultimate;
  if (!(excess > 0)) return marchFrom(rig, 0);
  const x = Math.log(excess);
  const slope = throughputSlope(curve, x);
  let throughput = excessConductance(curve, x) * excess;
  let point = marchFrom(rig, pumpExcess(rig.pump, throughput));
  for (let i = 0; i < MOST_STEPS; i++) {
    const miss = x - Math.log(point.system - ultimate);
    if (Math.abs(miss) < MISS) break;
    throughput *= Math.exp(slope * miss);
    point = marchFrom(rig, pumpExcess(rig.pump, throughput));
  }
  return point;
}

/**
 * True pressure at the system (Pa) while a gauge at the pump inlet reads `reading` (Pa) during a pull-down.
 *
 * @throws no-solution where the reading is at or below the pump's ultimate pressure; model-range where the system
 * would have to stand above the top of the curve
 */
export function systemPressureBehindGauge(rig: PreparedRig, reading: number): number {
  if (reading <= rig.ultimate)
    raise({
      kind: 'no-solution',
      reason: `the reading is ${shortPa(reading)}, and a gauge at the pump never reads less than the ultimate pressure of the pump, ${shortPa(rig.ultimate)}`,
      todo: 'Check the reading and its unit, and Ultimate in the parts table.',
    });
  const { system } = march(rig, reading);
  if (!Number.isFinite(system)) raiseBlocked(rig, reading - rig.ultimate);
  if (system > CURVE_TOP)
    raise({
      kind: 'model-range',
      model: 'the rig',
      argument: 'Pressure at the system',
      value: system,
      min: rig.ultimate,
      max: CURVE_TOP,
      unit: 'Pa',
    });
  return system;
}

const shortPa = (pressure: number): string => `${Number(pressure.toPrecision(4))} Pa`;
