import { knudsen, REGIME_LIMITS, regime as regimeOf } from '../../engine/flow/regime.ts';
import { defineFunction } from '../define.ts';
import { conditions, quantity } from '../parameters.ts';
import { BORE_LIMIT, INLET_LIMIT } from './limits.ts';

const LIMITS = REGIME_LIMITS.map(([name, limit]) =>
  Number.isFinite(limit) ? `${name} below ${limit}` : `${name} above`,
).join(', ');

export const regime = defineFunction({
  id: 'REGIME',
  group: 'Passages',
  summary: 'Flow regime in a bore at a pressure, with the Knudsen number.',
  parameters: {
    bore: quantity('length', 'mm', 'inside diameter', BORE_LIMIT),
    pressure: quantity('pressure', 'Pa', 'absolute pressure', INLET_LIMIT),
    conditions: conditions(),
  },
  result: { kind: 'text', description: 'viscous, slip, transitional or molecular, and the Knudsen number Kn' },
  examples: [
    { formula: '=NARROWS.REGIME("3/16 in",101325)', shows: 'viscous (Kn 0.000014)' },
    { formula: '=NARROWS.REGIME(4.76,"500 micron")', shows: 'slip: where a small hose starts to lose its pull' },
  ],
  notes: [`Kn is the mean free path over the bore: ${LIMITS}.`],
  sources: ['regimes by Knudsen number as in texts on kinetic theory; mean free path from the viscosity'],
  body: ({ bore, pressure, conditions }) => {
    const kn = knudsen(conditions.gas, bore, pressure);
    return `${regimeOf(kn)} (Kn ${shown(kn)})`;
  },
});

/** Two digits, written out where that is short. */
function shown(kn: number): string {
  return kn >= 1e-6 && kn < 1e6
    ? new Intl.NumberFormat('en-US', { maximumSignificantDigits: 2, useGrouping: false }).format(kn)
    : kn.toExponential(1);
}
