import type { Passage } from '../flow/passage.ts';

/** S(p) = speed (1 - ultimate/p), or a table of speed against inlet pressure when `speedTable` is given. SI. */
export interface Pump {
  readonly name: string;
  /** m3/s at the inlet */
  readonly speed: number;
  /** Pa */
  readonly ultimate: number;
  /** pairs (inlet pressure Pa, speed m3/s), rising pressure; `speed` is the largest of them */
  readonly speedTable?: readonly (readonly [number, number])[];
  /** largest water vapour pressure that the pump passes without condensing inside, Pa */
  readonly waterLimit?: number;
}

/** A recovery machine in place of the pump. SI. */
export interface Machine {
  readonly name: string;
  /** m3/s swept */
  readonly displacement: number;
  /** Pa; the lowest suction pressure */
  readonly ultimate: number;
  /** clearance volume over swept volume, where given */
  readonly clearance?: number;
  /** volumetric efficiency apart from what clearance and ultimate take, above 0 to 1 */
  readonly efficiency: number;
  /** most liquid that it moves, kg/s, where given */
  readonly liquidRate?: number;
  /** K by which its condenser is warmer than the surroundings */
  readonly approach: number;
}

export type PartKind = 'port' | 'hose' | 'tube' | 'core' | 'depressor' | 'manifold' | 'valve' | 'filter' | 'branch';

export interface RigPart {
  readonly name: string;
  readonly kind: PartKind;
  readonly passage: Passage;
  /** identical passages in parallel, at least 1 */
  readonly count: number;
  /** parts that share a branch name are in parallel with each other */
  readonly branch?: string;
  /** within a branch, parts that share a leg are in series; without a leg each part is a leg of its own */
  readonly leg?: string;
  readonly swapGroup?: string;
}

/** A pump or a recovery machine and the parts in front of it, in order from the pump to the system. */
export interface Rig {
  readonly name: string;
  /** of a rig with a machine: what the machine is as a pump of air, its speed and ultimate pressure */
  readonly pump: Pump;
  readonly machine?: Machine;
  readonly parts: readonly RigPart[];
  /** price of the gear, plain money, where given */
  readonly cost?: number;
}
