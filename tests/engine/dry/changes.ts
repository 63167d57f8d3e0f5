import fc from 'fast-check';
import type { WetSystem } from '../../../src/engine/dry/dry-out.ts';

const LOAD = { leak: 1e-4, outgassing: 2e-4, exponent: 1 };

export const WET: WetSystem = { volume: 0.01, water: 0.004, heat: 2, metal: 300, start: 1e5, target: 60 };
export const LEAKING: WetSystem = { ...WET, load: LOAD };

/** A change of one thing that a dry-out depends on, small or large, or none. */
export const change: fc.Arbitrary<(of: WetSystem) => WetSystem> = fc.oneof(
  fc
    .tuple(
      fc.constantFrom(...(['volume', 'water', 'heat', 'metal', 'start', 'target'] as const)),
      fc.constantFrom(0.5, 0.999, 1, 1.001, 2),
    )
    .map(([key, factor]) => (of: WetSystem) => ({ ...of, [key]: factor * (of[key] ?? 0) })),
  fc
    .tuple(fc.constantFrom('leak', 'outgassing', 'exponent'), fc.constantFrom(0, 0.5, 1))
    .map(([key, factor]) => (of: WetSystem) => ({
      ...of,
      load: { ...LOAD, ...of.load, [key]: factor * (key === 'exponent' ? 1 : 1e-4) },
    })),
);

export const changed = (from: WetSystem, changes: readonly ((of: WetSystem) => WetSystem)[]): WetSystem =>
  changes.reduce((of, one) => one(of), from);
