import { type DryOut, dryOut } from '../../engine/dry/dry-out.ts';
import type { RigSurface } from '../../engine/dry/rig-surface.ts';
import type { TargetPlan } from '../../engine/evacuate/target-plan.ts';
import type { GasState } from '../../engine/gas/state.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import { Fault, raise } from '../../faults/issue.ts';
import type { Conditions } from '../../tables/conditions.ts';
import { type Run, type RunsTable, unitKey } from '../../tables/runs.ts';
import type { UnitRow } from '../../tables/units.ts';
import { gasAtAmbient, surfaceOf, wetSystem } from '../dry-out/surfaces.ts';
import { type LineEnd, lineEnd } from './project-line.ts';
import { orFault, type ProjectPlans, projectPlans, secondsOrFault } from './project-plans.ts';

/** What one row comes to on one rig. SI. */
export interface Worked {
  readonly plan: TargetPlan;
  /** s, the dry system as one volume */
  readonly seconds: number;
  readonly wet: DryOut | undefined;
  readonly line: LineEnd | undefined;
  /** s until dry, at the target, and the far end at the target; or the fault of water or line */
  readonly total: number | Fault;
}

export interface ProjectWork {
  /** @param volume m3, above 0; @param target Pa */
  work(unit: UnitRow, rig: Rig, volume: number, target: number): Worked | Fault;
  /** kg in one unit of the row */
  waterOf(unit: UnitRow): number;
  /** K around a unit whose gas is at Ambient; undefined where it is at Temperature */
  ambientOf(unit: UnitRow): number | undefined;
}

/** All that one temperature of the gas has in common. */
interface Climate {
  readonly gas: GasState;
  /** with Ambient at that temperature */
  readonly conditions: Conditions;
  readonly plans: ProjectPlans;
  readonly surfaces: Map<Rig, RigSurface>;
}

/**
 * Works rows of a units table out: plans, curves, surfaces over composition and networks are shared by all rows that have
 * them in common. Made anew for each call of a function.
 *
 * The gas of a row is at Ambient, its own or that of the conditions, where the row states Water (0 too) or Ambient, or the
 * conditions have Water; else it is at Temperature. So a row whose water goes to nothing meets the same row without water.
 */
export function projectWork(conditions: Conditions, runs: RunsTable | undefined): ProjectWork {
  const climates = new Map<number, Climate | Fault>();
  const climateAt = (temperature: number): Climate | Fault => {
    const known = climates.get(temperature);
    if (known !== undefined) return known;
    const climate = orFault((): Climate => {
      const there = { ...conditions, ambientTemperature: temperature };
      const gas = gasAtAmbient(there);
      return { gas, conditions: there, plans: projectPlans(conditions, gas), surfaces: new Map() };
    });
    climates.set(temperature, climate);
    return climate;
  };
  const atTemperature = climateAt(conditions.gas.temperature);
  const runsOf = runsByUnit(runs);
  const waterOf = (unit: UnitRow): number => unit.water ?? conditions.water;
  const ambientOf = (unit: UnitRow): number | undefined => {
    if (unit.ambient !== undefined) return unit.ambient;
    return unit.water !== undefined || conditions.water > 0 ? conditions.ambientTemperature : undefined;
  };
  const climateOf = (unit: UnitRow): Climate | Fault => {
    const ambient = ambientOf(unit);
    return ambient === undefined ? atTemperature : climateAt(ambient);
  };

  return {
    waterOf,
    ambientOf,
    work(unit, rig, volume, target) {
      const climate = climateOf(unit);
      if (climate instanceof Fault) return climate;
      const plan = climate.plans.planFor(rig, target);
      if (plan instanceof Fault) return plan;
      const seconds = secondsOrFault(plan, volume);
      if (seconds instanceof Fault) return seconds;
      const water = waterOf(unit);
      if (water === 0 && unit.port === undefined)
        return { plan, seconds, wet: undefined, line: undefined, total: seconds };
      const { port } = unit;
      const line = port === undefined ? undefined : lineOf(runsOf, unit, port, rig, volume, target, climate);
      if (line instanceof Fault) return { plan, seconds, wet: undefined, line: undefined, total: line };
      const far = Math.max(seconds, line?.seconds ?? 0);
      if (water === 0) return { plan, seconds, wet: undefined, line, total: far };
      const wet = wetOf(line?.longRig ?? rig, volume, water, unit.heat ?? conditions.heat, target, climate);
      if (wet instanceof Fault) return { plan, seconds, wet: undefined, line, total: wet };
      if (line === undefined) return { plan, seconds, wet, line, total: wet.dry + wet.toTarget };
      const last = lastPull(wet, (start) => lineOf(runsOf, unit, port ?? '', rig, volume, target, climate, start));
      const total = Math.max(wet.dry + last.toTarget, line.seconds);
      return { plan, seconds, wet: last, line, total };
    },
  };
}

/**
 * Digits of the pressure where the water ends that count for the last pull: more than any of its numbers is good to. Slightly
 * different amounts of water then share one line.
 */
const START_DIGITS = 5;

/**
 * A dry-out behind a line, with its last pull as that of the line from the pressure where the water ends. The whole volume
 * behind the way to the far end would keep that pull waiting too long; vapour goes through pipes faster than the gas that the
 * line is worked with, so this is on the safe side as well. The sooner of both counts.
 */
function lastPull(wet: DryOut, lineFrom: (start: number) => LineEnd | Fault): DryOut {
  if (wet.toTarget === 0) return wet;
  const line = lineFrom(Number(wet.pressureWhenDry.toPrecision(START_DIGITS)));
  return line instanceof Fault || line.seconds >= wet.toTarget ? wet : { ...wet, toTarget: line.seconds };
}

/** Rows of the runs by unit, gathered when the first unit with a port asks. */
function runsByUnit(table: RunsTable | undefined): (unit: string) => readonly Run[] {
  let byUnit: Map<string, Run[]> | undefined;
  return (unit) => {
    if (byUnit === undefined) {
      byUnit = new Map();
      for (const run of table?.runs ?? []) {
        const key = unitKey(run.unit);
        const rows = byUnit.get(key);
        if (rows === undefined) byUnit.set(key, [run]);
        else rows.push(run);
      }
    }
    return byUnit.get(unitKey(unit)) ?? [];
  };
}

/** Part of a volume by which the runs may seem to hold more than the unit, for rounding. */
const ROUNDING = 1e-9;
const LITRES = 1e3;

function lineOf(
  runsOf: (unit: string) => readonly Run[],
  unit: UnitRow,
  port: string,
  rig: Rig,
  volume: number,
  target: number,
  { gas, conditions }: Climate,
  startPressure = conditions.startPressure,
): LineEnd | Fault {
  return orFault(() => {
    const runs = runsOf(unit.name);
    if (runs.length === 0)
      raise({
        kind: 'wrong',
        argument: 'Port',
        found: `"${port}" for a unit without runs`,
        allowed: 'a node of its runs',
        todo: 'Give the runs of this unit with From and To, or clear Port.',
      });
    const held = runs.reduce((sum, run) => sum + run.volume, 0);
    const rest = volume - held;
    if (rest < -ROUNDING * held)
      raise({
        kind: 'limit',
        argument: 'Volume',
        value: volume * LITRES,
        rule: 'at least',
        limit: held * LITRES,
        unit: 'L',
        todo: 'That is what its runs hold: clear Volume to take it from them, or give the inside volume of the whole unit.',
      });
    const end = lineEnd(rig, gas, { ...conditions, startPressure }, { runs, port, rest: Math.max(0, rest), target });
    if (end instanceof Fault) throw end;
    return end;
  });
}

function wetOf(
  rig: Rig,
  volume: number,
  water: number,
  heat: number,
  target: number,
  { conditions, surfaces }: Climate,
): DryOut | Fault {
  return orFault(() => {
    if (!(heat > 0))
      raise({
        kind: 'no-solution',
        reason: 'heat is missing: without heat from outside the water cools, freezes and never dries',
        todo: 'Give Heat (W/K) in the row or in the conditions.',
      });
    let surface = surfaces.get(rig);
    if (surface === undefined) {
      surface = surfaceOf(rig, conditions);
      surfaces.set(rig, surface);
    }
    return dryOut(surface, { ...wetSystem(volume, water, conditions), heat, target, quick: true });
  });
}
