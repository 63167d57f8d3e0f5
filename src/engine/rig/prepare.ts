import { raise } from '../../faults/issue.ts';
import type { Passage, PreparedPassage } from '../flow/passage.ts';
import { preparePassage } from '../flow/prepare.ts';
import type { GasState } from '../gas/state.ts';
import { checkPump, ultimatePressure } from './pump.ts';
import type { Pump, Rig, RigPart } from './rig.ts';

/** One part with its tables built; `count` identical passages share the flow evenly. */
export interface PartStage {
  readonly kind: 'part';
  readonly part: RigPart;
  readonly index: number;
  readonly passage: PreparedPassage;
  readonly count: number;
}

/** Ways through a branch whose parts in series are alike, so that they share the flow evenly; at least one way. */
export interface Leg {
  readonly ways: readonly (readonly PartStage[])[];
}

/** Ways in parallel between the same two pressures. */
export interface BranchStage {
  readonly kind: 'branch';
  readonly name: string;
  readonly legs: readonly Leg[];
}

export type Stage = PartStage | BranchStage;

/** A rig ready to march: stages in order from the pump to the system. SI. */
export interface PreparedRig {
  readonly rig: Rig;
  readonly gas: GasState;
  readonly pump: Pump;
  /** inlet pressure at which the pump moves nothing, Pa */
  readonly ultimate: number;
  readonly stages: readonly Stage[];
}

/** What tells two parts apart as far as the flow goes. */
function flowKey(stages: readonly PartStage[]): string {
  return JSON.stringify(stages.map((stage) => [stage.passage.passage, stage.count]));
}

/** Ways of equal parts are kept together: they share the flow evenly, which needs no search. */
function gatherAlike(ways: readonly (readonly PartStage[])[]): Leg[] {
  const alike = new Map<string, (readonly PartStage[])[]>();
  for (const stages of ways) {
    const key = flowKey(stages);
    const known = alike.get(key);
    if (known === undefined) alike.set(key, [stages]);
    else known.push(stages);
  }
  return [...alike.values()].map((members) => ({ ways: members }));
}

/**
 * Builds every part's tables for one gas and orders the parts into stages. Parts that share a branch name are in
 * parallel and stand where the first of them stands; within a branch, parts that share a leg are in series.
 *
 * @param prepare how a passage is made ready; another may be given to march a rig of stand-in parts
 * @throws a fault for a pump without speed, a pump table that is not monotone, or a count under 1
 */
export function prepareRig(
  rig: Rig,
  gas: GasState,
  prepare: (passage: Passage, gas: GasState) => PreparedPassage = preparePassage,
): PreparedRig {
  checkPump(rig.pump);
  const stages: Stage[] = [];
  const branches = new Map<string, Map<string, PartStage[]>>();
  const places = new Map<string, number>();
  rig.parts.forEach((part, index) => {
    if (!(part.count >= 1))
      raise({ kind: 'limit', argument: 'Count', value: part.count, rule: 'at least', limit: 1, unit: '' });
    const stage: PartStage = { kind: 'part', part, index, passage: prepare(part.passage, gas), count: part.count };
    if (part.branch === undefined) {
      stages.push(stage);
      return;
    }
    let legs = branches.get(part.branch);
    if (legs === undefined) {
      legs = new Map();
      branches.set(part.branch, legs);
      places.set(part.branch, stages.length);
      stages.push({ kind: 'branch', name: part.branch, legs: [] });
    }
    const leg = part.leg === undefined ? `part ${index}` : `leg ${part.leg}`;
    const standing = legs.get(leg);
    if (standing === undefined) legs.set(leg, [stage]);
    else standing.push(stage);
  });
  for (const [name, legs] of branches) {
    const place = places.get(name);
    if (place !== undefined) stages[place] = { kind: 'branch', name, legs: gatherAlike([...legs.values()]) };
  }
  return { rig, gas, pump: rig.pump, ultimate: ultimatePressure(rig.pump), stages };
}
