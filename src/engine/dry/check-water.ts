import { raise } from '../../faults/issue.ts';
import { ICE_DENSITY, LIQUID_DENSITY } from '../gas/water.ts';
import { stateAtRest } from './pool.ts';

const GRAMS = 1e3;

/**
 * Water (kg) that a system of a volume (m3) can hold and that heat (W/K) can dry, under a start pressure above its `vapour` pressure
 * at Ambient (Pa, K).
 *
 * @throws limit for more water than the volume holds, no-solution without heat, order for a start pressure at or below the vapour's
 */
export function checkWater(
  volume: number,
  water: number,
  heat: number,
  start: number,
  ambient: number,
  vapour: number,
): void {
  const holds = volume * (stateAtRest(ambient) === 'ice' ? ICE_DENSITY : LIQUID_DENSITY);
  if (!(water < holds))
    raise({
      kind: 'limit',
      argument: 'Water',
      value: water * GRAMS,
      rule: 'below',
      limit: holds * GRAMS,
      unit: 'g',
      todo: 'The volume does not hold more: drain it first, or check both units.',
    });
  if (!(heat > 0))
    raise({
      kind: 'no-solution',
      reason:
        'Heat of the conditions is 0 or not given: without heat from outside the water cools, freezes and never dries',
      todo: 'Give Heat, the heat conductance from the surroundings to the water, such as "1 W/K".',
    });
  if (!(start > vapour))
    raise({
      kind: 'order',
      upper: 'Start pressure',
      upperValue: start,
      lower: 'the vapour pressure of water at Ambient',
      lowerValue: vapour,
      unit: 'Pa',
    });
}
