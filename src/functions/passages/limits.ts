import { raise } from '../../faults/issue.ts';

/** From the size where matter is no longer a gas in a tube, to the widest and longest that the trade has. */
export const BORE_LIMIT = { above: 0, atLeast: 0.001, atMost: 2000 } as const;
export const LENGTH_LIMIT = { atLeast: 0, atMost: 100_000 } as const;
/** The gas is taken as perfect: up to 100 bar. */
export const INLET_LIMIT = { above: 0, atLeast: 1e-9, atMost: 1e7 } as const;
export const OUTLET_LIMIT = { atLeast: 0, atMost: 1e7 } as const;

/** Gas flows from inlet to outlet: raises `order` when the outlet pressure is the higher one. Pressures in Pa. */
export function checkOrder(inlet: number, outlet: number): void {
  if (outlet > inlet)
    raise({ kind: 'order', upper: 'inlet', upperValue: inlet, lower: 'outlet', lowerValue: outlet, unit: 'Pa' });
}

export const THROUGHPUT_RESULT = {
  kind: 'number',
  quantity: 'throughput',
  unit: 'Pa m3/s',
  description: 'throughput at the temperature of the gas; divided by a pressure it is the volume flow there',
} as const;

export const ONE_TEMPERATURE = 'The gas is perfect and of one temperature along the passage.';
export const KINETIC_SOURCE =
  'Sharipov and Seleznev, J. Phys. Chem. Ref. Data 27 (1998) 657: flow of rarefied gas in tubes';
