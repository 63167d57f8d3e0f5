import { raise } from '../../faults/issue.ts';
import { saturationPressure } from '../gas/water.ts';
import { pumpExcess, ultimatePressure } from './pump.ts';
import type { Pump } from './rig.ts';

/** Pa: the standard atmosphere, into which a pump without a recovery line blows. */
const OUTLET = 101325;
/** K (70 C): an oil-sealed pump that has warmed up runs at some 60 to 80 C (from memory, vacuum handbooks). */
export const USUAL_PUMP_TEMPERATURE = 343.15;

/**
 * Largest water vapour pressure (Pa) at the inlet of a pump with gas ballast that leaves it without condensing inside:
 * what handbooks call the water vapour tolerance.
 *
 * A pump of speed S takes in vapour alone at p_w, and with it a ballast flow B of air at the outlet pressure p_o, of which
 * p_a is vapour. Both are compressed to p_o at the pump's temperature T, where the vapour must not exceed its saturation
 * pressure p_s(T). Per unit of time (pressure times volume, one temperature)
 *
 *     (S p_w + B p_a)/(S p_w + B p_o) <= p_s/p_o   so that   p_w = (B/S) p_o (p_s - p_a)/(p_o - p_s).
 *
 * @param speed S, m3/s at the inlet
 * @param ballast B, m3/s of air at the outlet pressure; 0 is ballast shut: vapour alone then condenses, the limit is 0
 * @param temperature T, K, of the gas at the outlet
 * @param humidity p_a, Pa of water vapour in the ballast air; 0 is dry air. At 20 C and 60 % humidity it is 1400 Pa, and the
 * limit of a pump at 70 C is 4 % lower than with dry air
 * @param outlet p_o, Pa
 * @returns Pa; Infinity where p_s reaches p_o, since nothing can condense; 0 where the air is wetter than p_s
 *
 * Holds for vapour alone (air that is pumped with it helps), ideal gases, one temperature. Derived here from the
 * saturation pressure of IAPWS SR1-86(1992).
 */
export function ballastWaterLimit(
  speed: number,
  ballast: number,
  temperature: number,
  humidity = 0,
  outlet = OUTLET,
): number {
  if (!(speed > 0)) raise({ kind: 'limit', argument: 'Speed', value: speed, rule: 'above', limit: 0, unit: 'm3/s' });
  if (!(ballast >= 0))
    raise({ kind: 'limit', argument: 'Gas ballast', value: ballast, rule: 'at least', limit: 0, unit: 'm3/s' });
  const saturation = saturationPressure(temperature);
  if (saturation >= outlet) return Number.POSITIVE_INFINITY;
  return ((ballast / speed) * outlet * Math.max(saturation - humidity, 0)) / (outlet - saturation);
}

/**
 * The water limit (Pa) of a pump with dry ballast air. The bound is one on the throughput S p_w, so that a pump with a
 * speed table meets it at the inlet pressure at which it draws so much; without one S is its rated speed.
 */
export function pumpWaterLimit(pump: Pump, ballast: number, temperature: number): number {
  const limit = ballastWaterLimit(pump.speed, ballast, temperature);
  if (pump.speedTable === undefined || limit === 0 || !Number.isFinite(limit)) return limit;
  return ultimatePressure(pump) + pumpExcess(pump, limit * pump.speed);
}
