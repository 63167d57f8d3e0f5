import type { GasLoad } from '../../engine/evacuate/load.ts';
import type { GasState } from '../../engine/gas/state.ts';
import { keeping } from '../../engine/keep.ts';
import type { RigCurve } from '../../engine/rig/curve.ts';
import { prepareRig } from '../../engine/rig/prepare.ts';
import type { Rig } from '../../engine/rig/rig.ts';
import { rigCurve } from '../../engine/rig/sweep.ts';
import type { Conditions } from '../../tables/conditions.ts';

/** Curves kept, the latest used: a sheet has a few rigs, a comparison some dozens. */
const MOST_KEPT = 256;

const keep = keeping<RigCurve>(MOST_KEPT);
/** The quick way for records that are shared already; goes with them. */
const byRecord = new WeakMap<Rig, WeakMap<GasState, RigCurve>>();
/** Curves built since the program began, for tests of shared work. */
export const work = { curvesBuilt: 0 };

/**
 * The curve of a rig for one gas state: built once, then shared by every cell that asks for the same content. What is
 * kept never changes a result, since the key is all that the curve depends on.
 */
export function curveOf(rig: Rig, gas: GasState): RigCurve {
  let ofRig = byRecord.get(rig);
  if (ofRig === undefined) {
    ofRig = new WeakMap();
    byRecord.set(rig, ofRig);
  }
  const known = ofRig.get(gas);
  if (known !== undefined) return known;
  const curve = curveByContent(rig, gas);
  ofRig.set(gas, curve);
  return curve;
}

function curveByContent(rig: Rig, gas: GasState): RigCurve {
  return keep(JSON.stringify([rig, gas]), () => {
    work.curvesBuilt += 1;
    return rigCurve(prepareRig(rig, gas));
  });
}

/** The gas load that the conditions state. */
export function loadOf(conditions: Conditions): GasLoad {
  const { leak, outgassing, outgassingExponent } = conditions;
  return { leak, outgassing, exponent: outgassingExponent };
}
