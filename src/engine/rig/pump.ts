import { raise } from '../../faults/issue.ts';
import type { Pump } from './rig.ts';

/** Inlet pressure (Pa) and the speed at it (m3/s). */
export type SpeedPoint = readonly [pressure: number, speed: number];

/**
 * What a pump draws at its inlet. SI: pressures Pa, speeds m3/s, throughput Pa m3/s.
 *
 * Without a table the speed falls towards the ultimate pressure as S(p) = S0 (1 - pu/p), the usual closed form of
 * vacuum textbooks, so the throughput S(p) p = S0 (p - pu) is a straight line. A speed table is taken as given, between
 * its points in a straight line over ln p and level outside them; where its lowest point still has some speed and the
 * pump states an ultimate pressure, the same factor (1 - pu/p) brings it to zero there.
 */

/** The inlet pressure at which the pump moves nothing, Pa. */
export function ultimatePressure(pump: Pump): number {
  const table = pump.speedTable;
  if (table === undefined || table.length === 0) return pump.ultimate;
  let blank = 0;
  for (const [pressure, speed] of table) {
    if (speed > 0) break;
    blank = pressure;
  }
  return Math.max(blank, tableFades(pump) ? pump.ultimate : 0);
}

/** True where the table stops above zero speed, so that the stated ultimate pressure must end it. */
function tableFades(pump: Pump): boolean {
  const first = pump.speedTable?.[0];
  return first !== undefined && first[1] > 0;
}

function tableSpeed(table: readonly SpeedPoint[], pressure: number): number {
  let below = table[0];
  if (below === undefined) return 0;
  if (pressure <= below[0]) return below[1];
  for (const point of table) {
    if (pressure <= point[0]) {
      const [p0, s0] = below;
      const [p1, s1] = point;
      if (p0 <= 0) return s0 + ((s1 - s0) * (pressure - p0)) / (p1 - p0);
      return s0 + ((s1 - s0) * Math.log(pressure / p0)) / Math.log(p1 / p0);
    }
    below = point;
  }
  return below[1];
}

/** Volume flow rate (pumping speed) at the inlet pressure, m3/s; zero at and below the ultimate pressure. */
export function pumpSpeed(pump: Pump, pressure: number): number {
  const ultimate = ultimatePressure(pump);
  if (pressure <= ultimate) return 0;
  return pumpThroughputAt(pump, ultimate, pressure - ultimate) / pressure;
}

/**
 * Throughput when the inlet stands `excess` (Pa, >= 0) above the ultimate pressure. The excess is asked for, not the
 * pressure, since close to the ultimate their difference would lose its digits.
 */
export function pumpThroughputAt(pump: Pump, ultimate: number, excess: number): number {
  const table = pump.speedTable;
  if (table === undefined || table.length === 0) return pump.speed * excess;
  const speed = tableSpeed(table, ultimate + excess);
  return tableFades(pump) ? speed * excess : speed * (ultimate + excess);
}

/** Excess of the inlet pressure over the ultimate (Pa) at which the pump draws `throughput`. */
export function pumpExcess(pump: Pump, throughput: number): number {
  if (throughput <= 0) return 0;
  const table = pump.speedTable;
  if (table === undefined || table.length === 0) return throughput / pump.speed;
  const ultimate = ultimatePressure(pump);
  const fastest = Math.max(...table.map(([, speed]) => speed));
  let low = Math.max(0, throughput / fastest - ultimate);
  let high = Math.max(low, 1e-6);
  while (pumpThroughputAt(pump, ultimate, high) < throughput && high < 1e12) high *= 2;
  for (let i = 0; i < 200 && high - low > 1e-14 * (ultimate + high); i++) {
    const middle = 0.5 * (low + high);
    if (pumpThroughputAt(pump, ultimate, middle) < throughput) low = middle;
    else high = middle;
  }
  return 0.5 * (low + high);
}

/**
 * Index of the first point of a table up to which the throughput S p falls as the pressure rises, at the point or before
 * it; undefined where it never does. Within a piece S is straight over ln p, so that d(S p)/dp = S + dS/d(ln p) is least
 * at the end of a piece with falling speed: between two points of one throughput there is a hump, which `checkPump`,
 * which looks at the points alone, lets through.
 */
export function fallingAt(table: readonly SpeedPoint[]): number | undefined {
  for (let i = 1; i < table.length; i++) {
    const [p0, s0] = table[i - 1] ?? [0, 0];
    const [p1, s1] = table[i] ?? [0, 0];
    if (s1 + Math.min((s1 - s0) / Math.log(p1 / p0), 0) < 0) return i;
  }
  return undefined;
}

/**
 * A pump that can drive a rig: a speed above zero and, where it has a table, a throughput that never falls as the inlet
 * pressure rises (else one system pressure would have two flows).
 */
export function checkPump(pump: Pump): void {
  const table = pump.speedTable;
  if (table === undefined || table.length === 0) {
    if (!(pump.speed > 0) || !Number.isFinite(pump.speed))
      raise({ kind: 'limit', argument: 'Speed', value: pump.speed, rule: 'above', limit: 0, unit: 'm3/s' });
  } else {
    let last = 0;
    for (const [pressure, speed] of table) {
      const throughput = pressure * speed;
      if (throughput < last)
        raise({
          kind: 'wrong',
          argument: 'Speed',
          found: `a speed of ${speed} m3/s at ${pressure} Pa`,
          allowed: 'a table in which speed times pressure never falls as the pressure rises',
          todo: 'Check the points of the speed table.',
        });
      last = throughput;
    }
    if (!(last > 0)) raise({ kind: 'limit', argument: 'Speed', value: last, rule: 'above', limit: 0, unit: 'm3/s' });
  }
  if (!(pump.ultimate >= 0) || !Number.isFinite(pump.ultimate))
    raise({ kind: 'limit', argument: 'Ultimate', value: pump.ultimate, rule: 'at least', limit: 0, unit: 'Pa' });
}
