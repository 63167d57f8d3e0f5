import { at, type Place, raise } from '../../faults/issue.ts';
import { checkWater } from '../dry/check-water.ts';
import { stateAtRest } from '../dry/pool.ts';
import { type GasLoad, NO_LOAD } from '../evacuate/load.ts';
import { mixedGas } from '../gas/mixture.ts';
import type { GasState } from '../gas/state.ts';
import { saturationPressure } from '../gas/water.ts';
import { CURVE_TOP } from '../rig/curve.ts';
import { type Balance, type Contents, heldEnthalpy, type Surroundings, vapourPerPascal } from './contents.ts';
import type { FeedCurve } from './feed.ts';
import type { Outflow } from './outflow.ts';
import { type Done, type KeepPhase, letIn, pull, type Seen, stand } from './steps.ts';

/** A pull, and the break after it if there is one. SI. */
export interface PlanStep {
  /** Pa */
  readonly pullTo: number;
  /** s; a pull that is not at its pressure by then goes on to the break */
  readonly longestPull?: number;
  readonly fill?: {
    /** Pa */
    readonly to: number;
    readonly gas: GasState;
    /** Pa, of the regulated supply */
    readonly supply: number;
    /** s that the gas stands before the next pull */
    readonly wait: number;
    /** W/K while the gas comes in and stands; default that of the system */
    readonly heat?: number;
  };
  /** where faults of this step are told to stand */
  readonly pullPlace?: Place;
  readonly breakPlace?: Place;
}

/** The system and where it starts: saturated with vapour at the surroundings' temperature where there is water. SI. */
export interface BrokenSystem {
  /** m3; gas fills all of it */
  readonly volume: number;
  /** kg; 0 is a system without water and without vapour */
  readonly water: number;
  /** W/K, above 0 with water */
  readonly heat: number;
  /** J/K, default 0 */
  readonly metal?: number;
  /** Pa */
  readonly start: number;
  /** counts during pulls */
  readonly load?: GasLoad;
  /** true: the balances are kept as well */
  readonly balances?: boolean;
}

/** What the rig does with a gas; the caller shares the curves. All at one temperature. */
export interface Gear {
  /** the gas that the system is filled with at first; its temperature is that of everything */
  readonly gas: GasState;
  readonly outflow: (gas: GasState, withVapour: boolean) => Outflow;
  readonly feed: (gas: GasState, supply: number) => FeedCurve | undefined;
  /** may give what a pull through the same outflow was before: the key holds all else that it depends on */
  readonly keep?: KeepPhase;
}

/** One thing done: SI. */
export interface PlanEvent {
  /** number of the step, from 0 */
  readonly step: number;
  readonly what: 'pull' | 'break' | 'wait';
  /** s */
  readonly seconds: number;
  readonly end: Contents;
  readonly reached: boolean;
  readonly seen: Seen;
}

export interface PlanResult {
  readonly start: Contents;
  /** at least one */
  readonly events: readonly PlanEvent[];
  /**
   * what the balances miss: of the first gas and of the water, as parts of what there was and came in; of energy, as a part
   * of what went off with the vapour and came in
   */
  readonly misses: { readonly gas: number; readonly water: number; readonly energy: number } | undefined;
}

/** A part of the first gas below this does not change how the mixture flows; the flow is then that of the fed gas. */
const TRACE = 1e-4;

/**
 * Goes through a plan of pulls and breaks.
 *
 * All gas is well mixed and at the temperature of the surroundings. A pull ends at its pressure, even with water left, or at
 * its cap; the last pull of a plan that ends without a break goes on until no water is left, as a dry-out does. A break
 * lets gas in through the rig's parts from the supply, a wait lets the water warm up.
 *
 * @throws faults for an empty plan, more water than the volume holds, water without heat, a start at or below the vapour's
 * pressure, and, with the place of the step, pressures in the wrong order or out of reach
 */
export function runPlan(gear: Gear, system: BrokenSystem, steps: readonly PlanStep[]): PlanResult {
  if (steps.length === 0) raise({ kind: 'empty-table', table: 'plan' });
  const ambient = gear.gas.temperature;
  const { volume, water, heat, metal = 0, start: pressure, load = NO_LOAD } = system;
  checkSystem(system, ambient);
  const around: Surroundings = { ambient, volume, heat, metal, load };
  const vapour = water > 0 ? saturationPressure(ambient) : 0;
  const state = water > 0 ? stateAtRest(ambient) : 'dry';
  const start: Contents = {
    time: 0,
    state,
    first: pressure - vapour,
    fed: 0,
    vapour,
    water,
    ice: state === 'ice' ? water : 0,
    temperature: ambient,
  };
  const balance: Balance | undefined =
    system.balances === true ? { vapourOff: 0, heatIn: 0, enthalpyOff: 0, firstOff: 0, firstIn: 0 } : undefined;

  const events: PlanEvent[] = [];
  let now = start;
  let fedGas: GasState | undefined;
  const add = (step: number, what: PlanEvent['what'], done: Done): void => {
    events.push({ step, what, seconds: done.end.time - now.time, ...done });
    now = done.end;
  };
  steps.forEach((step, index) => {
    const { pullTo, longestPull, fill, pullPlace, breakPlace } = step;
    within(pullPlace, () => {
      checkPull(step, index === 0 ? pressure : undefined);
      const mixture = mixtureOf(gear.gas, fedGas, now);
      const outflow = gear.outflow(mixture, now.vapour > 0);
      const { keep } = gear;
      const kept: KeepPhase | undefined = keep && ((key, work) => keep(`${JSON.stringify(mixture)} ${key}`, work));
      const toDry = fill === undefined && index === steps.length - 1;
      const wanted = { target: pullTo, toDry, ...(longestPull === undefined ? {} : { longest: longestPull }) };
      add(index, 'pull', pull(around, outflow, now, wanted, balance, kept));
    });
    if (fill === undefined) return;
    within(breakPlace, () => {
      checkFill(fill);
      const before = now;
      const under = fill.heat === undefined ? around : { ...around, heat: fill.heat };
      add(index, 'break', letIn(under, gear.feed(fill.gas, fill.supply), now, fill.to, balance));
      fedGas = joined(fedGas, fill.gas, (now.fed - before.fed) / now.fed);
      if (fill.wait > 0) add(index, 'wait', stand(under, now, fill.wait, balance));
    });
  });
  return { start, events, misses: balance === undefined ? undefined : missesOf(around, balance, start, now) };
}

function within<T>(place: Place | undefined, read: () => T): T {
  return place === undefined ? read() : at(place, read);
}

/** What the rig pumps but for vapour; the ratio stays through a pull. */
function mixtureOf(first: GasState, fed: GasState | undefined, contents: Contents): GasState {
  if (fed === undefined || contents.fed === 0 || fed.name === first.name) return first;
  const part = contents.first / (contents.first + contents.fed);
  return part < TRACE ? fed : mixedGas(first, fed, 1 - part);
}

/** All gas that breaks have let in, as one; `part` is the mole fraction of the newest. */
function joined(fed: GasState | undefined, newest: GasState, part: number): GasState {
  return fed === undefined || fed.name === newest.name || 1 - part < TRACE ? newest : mixedGas(fed, newest, part);
}

function missesOf(
  around: Surroundings,
  balance: Balance,
  from: Contents,
  to: Contents,
): { gas: number; water: number; energy: number } {
  const { volume } = around;
  const perPascal = vapourPerPascal(around);
  const gas = from.first * volume + balance.firstIn;
  const water = from.water + perPascal * from.vapour;
  const held = heldEnthalpy(around, from) - heldEnthalpy(around, to);
  const turned = Math.abs(balance.enthalpyOff) + Math.abs(balance.heatIn);
  return {
    gas: (gas - balance.firstOff - to.first * volume) / gas,
    water: water > 0 ? (water - balance.vapourOff - to.water - perPascal * to.vapour) / water : 0,
    energy: turned > 0 ? (held + balance.heatIn - balance.enthalpyOff) / turned : 0,
  };
}

function checkSystem({ volume, water, heat, start }: BrokenSystem, ambient: number): void {
  if (!(volume > 0)) raise({ kind: 'limit', argument: 'Volume', value: volume, rule: 'above', limit: 0, unit: 'm3' });
  if (!(start > 0))
    raise({ kind: 'limit', argument: 'Start pressure', value: start, rule: 'above', limit: 0, unit: 'Pa' });
  if (start > CURVE_TOP)
    raise({ kind: 'limit', argument: 'Start pressure', value: start, rule: 'at most', limit: CURVE_TOP, unit: 'Pa' });
  if (!(water >= 0)) raise({ kind: 'limit', argument: 'Water', value: water, rule: 'at least', limit: 0, unit: 'kg' });
  if (water === 0) return;
  checkWater(volume, water, heat, start, ambient, saturationPressure(ambient));
}

function checkPull({ pullTo, longestPull }: PlanStep, start: number | undefined): void {
  if (!(pullTo > 0)) raise({ kind: 'limit', argument: 'Pull to', value: pullTo, rule: 'above', limit: 0, unit: 'Pa' });
  if (longestPull !== undefined && !(longestPull > 0))
    raise({ kind: 'limit', argument: 'Longest pull', value: longestPull, rule: 'above', limit: 0, unit: 's' });
  if (start !== undefined && !(pullTo < start))
    raise({
      kind: 'order',
      upper: 'Start pressure',
      upperValue: start,
      lower: 'Pull to',
      lowerValue: pullTo,
      unit: 'Pa',
    });
}

function checkFill({ to, supply, wait }: NonNullable<PlanStep['fill']>): void {
  if (!(to <= CURVE_TOP))
    raise({ kind: 'limit', argument: 'Break to', value: to, rule: 'at most', limit: CURVE_TOP, unit: 'Pa' });
  if (!(supply > to))
    raise({ kind: 'order', upper: 'Supply', upperValue: supply, lower: 'Break to', lowerValue: to, unit: 'Pa' });
  if (!(wait >= 0)) raise({ kind: 'limit', argument: 'Wait', value: wait, rule: 'at least', limit: 0, unit: 's' });
}
