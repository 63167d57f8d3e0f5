import { feedCurve } from '../../../src/engine/breaks/feed.ts';
import { dryOutflow, wetOutflow } from '../../../src/engine/breaks/outflow.ts';
import type { Gear } from '../../../src/engine/breaks/plan.ts';
import { type RigSurface, rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import { prepareRig } from '../../../src/engine/rig/prepare.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { rigCurve } from '../../../src/engine/rig/sweep.ts';
import { core, hose, pumpOf, rigOf } from '../rig/fakes.ts';

export const ZERO = 273.15;
export const NITROGEN = gasState('nitrogen', 20 + ZERO);
const SERVICE = pumpOf(2.36e-3, 2.7);
export const SMALL = rigOf(SERVICE, [hose(4.8e-3, 1.5), core(1.6e-3, 6e-3)]);
export const WIDE = rigOf(SERVICE, [hose(12.7e-3, 1.5)]);

/** A rig in air, each curve built once. */
export function gearFor(rig: Rig, celsius = 20): Gear {
  const temperature = celsius + ZERO;
  const surfaces = new Map<string, RigSurface>();
  const keep = <T>(kept: Map<string, T>, key: string, make: () => T): T => {
    const known = kept.get(key) ?? make();
    kept.set(key, known);
    return known;
  };
  const curves = new Map<string, ReturnType<typeof rigCurve>>();
  const feeds = new Map<string, ReturnType<typeof feedCurve>>();
  const vapour = gasState('water vapour', temperature);
  return {
    gas: gasState('air', temperature),
    outflow: (gas, withVapour) => {
      const key = `${gas.name} ${gas.molarMass}`;
      return withVapour
        ? wetOutflow(keep(surfaces, key, () => rigSurface(rig, gas, vapour)))
        : dryOutflow(keep(curves, key, () => rigCurve(prepareRig(rig, gas))));
    },
    feed: (gas, supply) => keep(feeds, `${gas.name} ${supply}`, () => feedCurve(rig, gas, supply)),
  };
}
