import type { BrokenSystem, PlanStep } from '../../../src/engine/breaks/plan.ts';
import { gasState } from '../../../src/engine/gas/gas.ts';
import type { Rig } from '../../../src/engine/rig/rig.ts';
import { NITROGEN, SMALL, WIDE } from './gear.ts';

export const ATMOSPHERE = 101325;
export const WET: BrokenSystem = { volume: 0.02, water: 5e-3, heat: 0.2, start: ATMOSPHERE };

export function filled(pullTo: number, to = 1.2e5, wait = 0, more: Partial<PlanStep> = {}): PlanStep {
  return { pullTo, fill: { to, gas: NITROGEN, supply: 3e5, wait }, ...more };
}

export function atTemperature(step: PlanStep, temperature: number): PlanStep {
  if (step.fill === undefined) return step;
  return { ...step, fill: { ...step.fill, gas: gasState(step.fill.gas.name, temperature) } };
}

/** Plans with water and without: name, rig, ambient in C, what differs from WET, the plan. */
export const planCases: readonly (readonly [string, Rig, number, Partial<BrokenSystem>, readonly PlanStep[]])[] = [
  ['dry, two breaks', SMALL, 20, { water: 0 }, [filled(500), filled(200), { pullTo: 66.66 }]],
  [
    'ice that a wait thaws, with more heat under gas',
    WIDE,
    20,
    {},
    [
      {
        pullTo: 100,
        longestPull: 600,
        fill: { to: 1.2e5, gas: NITROGEN, supply: 2e5, wait: 1200, heat: 1 },
      },
      { pullTo: 66.66 },
    ],
  ],
  [
    'liquid all along, a pull that ends with water left',
    SMALL,
    20,
    { heat: 2, water: 10e-3 },
    [filled(2000, 1.5e5, 300), filled(1500, 1.1e5, 60), { pullTo: 66.66 }],
  ],
  ['ice from the start', WIDE, -5, { water: 1e-3 }, [filled(150, 1.2e5, 300), { pullTo: 66.66 }]],
];
