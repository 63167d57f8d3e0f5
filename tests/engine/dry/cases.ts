import type { WetSystem } from '../../../src/engine/dry/dry-out.ts';
import { type RigSurface, rigSurface } from '../../../src/engine/dry/rig-surface.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { core, hose, port, pumpOf, rigOf } from '../rig/fakes.ts';

export const ZERO = 273.15;
const SERVICE = pumpOf(2.36e-3, 2.7);
export const SMALL = rigOf(SERVICE, [hose(4.8e-3, 1.5), core(1.6e-3, 6e-3)]);
export const WIDE = rigOf(SERVICE, [hose(12.7e-3, 1.5)]);
export const PORTED = rigOf(pumpOf(4.7e-3, 2), [port(4.7e-3), hose(7.9e-3, 3), port(3e-3)]);

export function surfaceAt(rig: Rig, celsius: number): RigSurface {
  const T = celsius + ZERO;
  return rigSurface(rig, gasState('air', T), gasState('water vapour', T));
}

export const WET: WetSystem = { volume: 0.02, water: 5e-3, heat: 0.5, start: 101325, target: 66.66 };

/** Dry-outs of every kind: name, rig, ambient in C, what differs from WET. */
export const wetCases: readonly (readonly [string, Rig, number, Partial<WetSystem>])[] = [
  ['liquid to the end, small hose on a core', SMALL, 20, { heat: 2 }],
  ['freezes, wide hose', WIDE, 20, {}],
  ['freezes and thaws or sublimes, little heat', PORTED, 20, { water: 1e-3, heat: 0.1 }],
  ['on a cold day, near freezing', WIDE, 3, { water: 2e-3 }],
  ['ice from the start', WIDE, -5, { water: 1e-3 }],
  ['much water in a small volume', WIDE, 25, { water: 30e-3, volume: 4e-3, heat: 3 }],
  ['little water in a large volume', SMALL, 20, { water: 3e-4, volume: 0.05 }],
  ['a warm room', PORTED, 35, { heat: 4, water: 10e-3 }],
];
