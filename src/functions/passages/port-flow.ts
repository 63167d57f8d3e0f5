import { DEFAULT_DISCHARGE, prepareOpening } from '../../engine/flow/opening.ts';
import { defineFunction } from '../define.ts';
import { conditions, number, optional, quantity } from '../parameters.ts';
import { BORE_LIMIT, checkOrder, INLET_LIMIT, ONE_TEMPERATURE, OUTLET_LIMIT, THROUGHPUT_RESULT } from './limits.ts';

export const portFlow = defineFunction({
  id: 'PORT.FLOW',
  group: 'Passages',
  summary: 'Throughput of a short opening (port, orifice, seat) between two pressures, molecular to choked.',
  parameters: {
    bore: quantity('length', 'mm', 'diameter of the opening', BORE_LIMIT),
    inlet: quantity('pressure', 'Pa', 'absolute pressure where the gas enters (system side)', INLET_LIMIT),
    outlet: quantity('pressure', 'Pa', 'absolute pressure where the gas leaves (pump side)', OUTLET_LIMIT),
    coefficient: optional(
      number('discharge coefficient: share of the ideal nozzle flow, default 0.8', { atLeast: 0.1, atMost: 1 }),
      DEFAULT_DISCHARGE,
    ),
    conditions: conditions(),
  },
  result: THROUGHPUT_RESULT,
  examples: [
    { formula: '=NARROWS.PORT.FLOW(3.5,"1000 micron",0)', shows: 'a 3.5 mm port into vacuum late in the pull' },
    { formula: '=NARROWS.PORT.FLOW(3.5,101325,50000,0.65)', shows: 'a sharp-edged port from ambient pressure' },
  ],
  notes: [ONE_TEMPERATURE, 'In the transition between viscous and molecular flow good to about 3 %.'],
  sources: [
    'ISO 6358-1:2013: choked flow and critical ratio',
    'Sharipov, J. Fluid Mech. 518 (2004) 35: flow of rarefied gas through an orifice (coefficients from memory)',
  ],
  body: ({ bore, inlet, outlet, coefficient, conditions }) => {
    checkOrder(inlet, outlet);
    const passage = { kind: 'opening', bore, dischargeCoefficient: coefficient } as const;
    return prepareOpening(passage, conditions.gas).throughput(inlet, outlet);
  },
});
