import { raise } from '../../faults/issue.ts';
import { LIQUID_DENSITY, saturationPressure, VAPOUR_GAS_CONSTANT } from '../gas/water.ts';

/** What lifts the pressure of a system that is valved off. SI. */
export interface HoldLoad {
  /** Pa m3/s, steady */
  readonly leak: number;
  /** Pa m3/s one hour after pumping began, which is taken as the moment of valving off */
  readonly outgassing: number;
  /** power of time with which the outgassing falls; 0 is steady */
  readonly exponent: number;
  /** kg of water left in the system */
  readonly water: number;
  /** K, of the walls and of the vapour */
  readonly ambient: number;
  /** Pa of the air around the system */
  readonly ambientPressure: number;
}

const HOUR = 3600;

/**
 * Share of the pressure around up to which a leak of air is steady: it is choked, or close to it. The critical ratio of
 * air by ideal-gas theory is 0.528; viscous leaks change by a quarter at most up to there.
 */
export const STEADY_SHARE = 0.5;

/** Gas given off (Pa m3) in a time after valving off, Q1 (1 h/(1 h + t))^n integrated. */
function givenOff(outgassing: number, exponent: number, time: number): number {
  const ratio = Math.log1p(time / HOUR);
  if (exponent === 1) return outgassing * HOUR * ratio;
  return (outgassing * HOUR * Math.expm1((1 - exponent) * ratio)) / (1 - exponent);
}

/** What evaporates (Pa): until the vapour is saturated at the walls' temperature, or until the water is used up. */
function moisturePart(volume: number, start: number, water: number, ambient: number): number {
  if (water <= 0) return 0;
  if (water / LIQUID_DENSITY >= volume)
    raise({
      kind: 'wrong',
      argument: 'Water',
      found: `more than the volume holds (${Number((volume * LIQUID_DENSITY).toPrecision(4))} kg)`,
      allowed: 'less than the volume',
      todo: 'Check the unit of Water and of the volume.',
    });
  const room = Math.max(saturationPressure(ambient) - start, 0);
  return Math.min(room, (water * VAPOUR_GAS_CONSTANT * ambient) / volume);
}

/**
 * Pressure (Pa) of an isolated volume (m3) some time (s) after valving off at `start` (Pa):
 *
 *   p = start + Q_leak t/V + (1/V) int Q1 (1 h/(1 h + t))^n dt + moisture
 *
 * Moisture is the most that it can come to: all water that can evaporate has done so, up to the saturation pressure at
 * Ambient, the gas at the start counted as vapour. In truth that takes minutes to hours, as fast as heat reaches it.
 *
 * @throws limit; wrong (more water than room); model-range where a leak would lift the pressure above half of that around
 */
export function pressureAfterHold(volume: number, time: number, start: number, load: HoldLoad): number {
  if (!(volume > 0)) raise({ kind: 'limit', argument: 'Volume', value: volume, rule: 'above', limit: 0, unit: 'm3' });
  const leaked = (load.leak * time) / volume;
  const outgassed = givenOff(load.outgassing, load.exponent, time) / volume;
  const end = start + leaked + outgassed + moisturePart(volume, start, load.water, load.ambient);
  const steady = STEADY_SHARE * load.ambientPressure;
  if (load.leak > 0 && end > steady)
    raise({
      kind: 'model-range',
      model: 'a steady leak',
      argument: 'The pressure at the end',
      value: end,
      min: 0,
      max: steady,
      unit: 'Pa',
    });
  return end;
}
