import { raise } from '../../faults/issue.ts';
import { type GasLoad, lastingLoad, NO_LOAD } from '../evacuate/load.ts';
import { checkPullDown, lowestPressure } from '../evacuate/pulldown.ts';
import { saturationPressure } from '../gas/water.ts';
import { CURVE_TOP } from '../rig/curve.ts';
import { checkWater } from './check-water.ts';
import { stateAtRest } from './pool.ts';
import { quickDryOut } from './quick/quick.ts';
import type { RigSurface } from './rig-surface.ts';
import {
  type Balance,
  dryStage,
  FINE,
  heldEnthalpy,
  type Moment,
  type Surroundings,
  vapourPerPascal,
} from './stages.ts';
import { keptWay, untilDry, vapourOf } from './way.ts';

/** A wet system and what is asked of it. SI. */
export interface WetSystem {
  /** m3; gas fills all of it, the water's own volume is not taken off */
  readonly volume: number;
  /** kg, liquid or ice, above 0; the vapour over it comes on top */
  readonly water: number;
  /** W/K from the surroundings to the water, above 0 */
  readonly heat: number;
  /** J/K of metal that is as cold as the water; default 0 */
  readonly metal?: number;
  /** Pa */
  readonly start: number;
  readonly target: number;
  readonly load?: GasLoad;
  /** true: the balances of water and energy are kept as well, which takes twice as long */
  readonly balances?: boolean;
  /** true: for tables of many units; the times are less than 1e-3 off, the lowest temperature less than 0.05 K. See `quick/` */
  readonly quick?: boolean;
}

export interface DryOut {
  /** s until the last of the water is vapour */
  readonly dry: number;
  /** s from then to the target pressure; 0 where the pressure is there already */
  readonly toTarget: number;
  /** Pa at the moment when it is dry */
  readonly pressureWhenDry: number;
  /** lowest temperature of the water, K */
  readonly coldest: number;
  /** true where there was ice */
  readonly froze: boolean;
  /** largest vapour pressure at the pump inlet, Pa */
  readonly vapourAtPump: number;
  /** true where that is above the pump's water limit; undefined for a pump that states none */
  readonly overWaterLimit: boolean | undefined;
  /** what the balances miss: of the water, as a part of all water; of energy, as a part of what went off with the vapour */
  readonly misses: { readonly mass: number; readonly energy: number } | undefined;
}

/** Moments that a watcher is given within each step. */
const PLACES = 4;

/**
 * Dries a system out and pulls it to the target.
 *
 * Gas and vapour in the volume are well mixed and at the temperature of the surface, which is that of the surroundings. It
 * starts at the start pressure with saturated vapour. While there is water the vapour stands at the saturation pressure of
 * the water's temperature; vapour and gas leave through the rig in proportion to their mole fractions; UA (T - T_pool) and
 * the water's own heat pay for the evaporation; at 273.16 K the water freezes before it gets colder.
 *
 * @param watch is given every moment of the way
 * @throws faults for more water than the volume holds, no heat, a start pressure at or below that of the vapour, a target
 * that is not below the start or out of reach, and water that is not gone within a year
 */
export function dryOut(surface: RigSurface, system: WetSystem, watch?: (moment: Moment) => void): DryOut {
  const { volume, water, heat, metal = 0, start, target, load = NO_LOAD } = system;
  const ambient = surface.temperature;
  const state = stateAtRest(ambient);
  const vapour = saturationPressure(ambient);
  const lowest = check(surface, system, vapour);
  const balancing = system.balances === true;
  if (system.quick === true && watch === undefined && !balancing) {
    const gas = start - vapour;
    const quick = quickDryOut(surface, { volume, water, heat, metal, load, state, gas, vapour, target, lowest });
    if (quick !== undefined) {
      const { dry, toTarget, pressureWhenDry, coldest, froze, vapourAtPump: wet } = quick;
      const overWaterLimit = over(surface, wet);
      return { dry, toTarget, pressureWhenDry, coldest, froze, vapourAtPump: wet, overWaterLimit, misses: undefined };
    }
  }
  const around: Surroundings = { surface, volume, heat, metal, load, tolerance: FINE };
  const ice = state === 'ice' ? water : 0;
  const first: Moment = { time: 0, state, gas: start - vapour, vapour, water, ice, temperature: ambient };
  const balance: Balance | undefined = balancing ? { carriedOff: 0, heatIn: 0, enthalpyOff: 0 } : undefined;

  const places = watch === undefined ? 1 : PLACES;
  const way = balancing ? untilDry(around, first, places, balance) : keptWay(around, first, places);
  if (way === undefined) return raiseNeverDry();
  for (const moment of watch === undefined ? [] : way.moments) watch?.(moment);
  const { last: moment, coldest, froze } = way;
  let { wettest } = way;
  const see = (passed: Moment): void => {
    wettest = Math.max(wettest, vapourOf(surface, passed));
    watch?.(passed);
  };
  const end = dryStage(around, moment, target, { places, see });
  if (end === undefined) return raiseTooDeep(surface, target, load);

  return {
    dry: moment.time,
    toTarget: end.time - moment.time,
    pressureWhenDry: moment.gas + moment.vapour,
    coldest,
    froze,
    vapourAtPump: wettest,
    overWaterLimit: over(surface, wettest),
    misses: balance === undefined ? undefined : missesOf(around, balance, first, moment),
  };
}

function over({ rig }: RigSurface, vapour: number): boolean | undefined {
  const limit = rig.pump.waterLimit;
  return limit === undefined ? undefined : vapour > limit;
}

function missesOf(around: Surroundings, balance: Balance, from: Moment, to: Moment): { mass: number; energy: number } {
  const perPascal = vapourPerPascal(around);
  const all = from.water + perPascal * from.vapour;
  const held = heldEnthalpy(around, from) - heldEnthalpy(around, to);
  return {
    mass: (all - balance.carriedOff - perPascal * to.vapour) / all,
    energy: (held + balance.heatIn - balance.enthalpyOff) / balance.enthalpyOff,
  };
}

/** The lowest pressure last asked for, by rig: the units of a table share their load. */
const lowestKept = new WeakMap<RigSurface, { readonly lasting: number; readonly lowest: number }>();

function lowestOf(surface: RigSurface, load: GasLoad): number {
  const lasting = lastingLoad(load);
  const known = lowestKept.get(surface);
  if (known?.lasting === lasting) return known.lowest;
  const lowest = lowestPressure(surface.dry, load);
  lowestKept.set(surface, { lasting, lowest });
  return lowest;
}

/** Raises the fault of a system that cannot be dried; the lowest pressure that the rig reaches, Pa. */
function check(
  surface: RigSurface,
  { volume, water, heat, start, target, load = NO_LOAD }: WetSystem,
  vapour: number,
): number {
  const ambient = surface.temperature;
  const lowest = lowestOf(surface, load);
  if (!(volume > 0 && target > lowest && target < start)) checkPullDown(surface.dry, volume, start, target, load);
  if (start > CURVE_TOP)
    raise({ kind: 'limit', argument: 'Start pressure', value: start, rule: 'at most', limit: CURVE_TOP, unit: 'Pa' });
  if (!(water > 0)) raise({ kind: 'limit', argument: 'Water', value: water, rule: 'above', limit: 0, unit: 'kg' });
  checkWater(volume, water, heat, start, ambient, vapour);
  // a load carries vapour off with it, so that only the pump itself can stand in the way
  if (vapour <= surface.ultimate)
    raise({
      kind: 'no-solution',
      reason: `the ice never dries: at Ambient its vapour has ${Number(vapour.toPrecision(4))} Pa, and the rig does not pull lower than ${Number(surface.ultimate.toPrecision(4))} Pa`,
      todo: 'Warm the system, or take a pump with a lower ultimate pressure.',
    });
  return lowest;
}

function raiseNeverDry(): never {
  return raise({
    kind: 'no-solution',
    reason: 'the water is not gone within a year of pumping',
    todo: 'Give more Heat, take a wider rig, or drain the water first.',
  });
}

function raiseTooDeep(surface: RigSurface, target: number, load: GasLoad): never {
  return raise({
    kind: 'out-of-reach',
    targetPa: target,
    lowestPa: lowestPressure(surface.dry, load),
    because: 'outgassing keeps the pressure above the target for more than a year',
  });
}
