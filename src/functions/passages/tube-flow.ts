import { DEFAULT_TUBE_LOSS, prepareTube } from '../../engine/flow/tube.ts';
import { defineFunction } from '../define.ts';
import { conditions, number, optional, quantity } from '../parameters.ts';
import {
  BORE_LIMIT,
  checkOrder,
  INLET_LIMIT,
  KINETIC_SOURCE,
  LENGTH_LIMIT,
  ONE_TEMPERATURE,
  OUTLET_LIMIT,
  THROUGHPUT_RESULT,
} from './limits.ts';

export const tubeFlow = defineFunction({
  id: 'TUBE.FLOW',
  group: 'Passages',
  summary: 'Throughput of a hose or tube between two pressures: molecular, slip, laminar, turbulent or choked.',
  parameters: {
    bore: quantity('length', 'mm', 'inside diameter', BORE_LIMIT),
    length: quantity('length', 'm', 'length', LENGTH_LIMIT),
    inlet: quantity('pressure', 'Pa', 'absolute pressure where the gas enters (system side)', INLET_LIMIT),
    outlet: quantity('pressure', 'Pa', 'absolute pressure where the gas leaves (pump side)', OUTLET_LIMIT),
    loss: optional(
      number('sum of loss coefficients K of entrance, exit and bends, default 1.5', { atLeast: 0, atMost: 1e6 }),
      DEFAULT_TUBE_LOSS,
    ),
    roughness: optional(
      quantity('length', 'mm', 'roughness of the wall, default 0 (smooth)', { atLeast: 0, atMost: 100 }),
      0,
    ),
    conditions: conditions(),
  },
  result: THROUGHPUT_RESULT,
  examples: [
    {
      formula: '=NARROWS.TUBE.FLOW("3/16 in","5 ft","1000 micron","100 micron")',
      shows: 'a small hose late in the pull',
    },
    {
      formula: '=NARROWS.TUBE.FLOW(4.76,1.5,101325,0)',
      shows: 'the same hose from ambient pressure: choked at its end',
    },
  ],
  notes: [
    ONE_TEMPERATURE,
    'The wall is smooth unless Roughness is given; hoses and tubes of a rig have 0.0015 mm unless their row says otherwise: up to 1 % less in common hoses, more in very thin ones.',
    'A tube shorter than about five bores may read up to 20 % low in the transition between viscous and molecular flow.',
  ],
  sources: [
    KINETIC_SOURCE,
    'Churchill, Chem. Eng. 84(24) (1977) 91: friction factor',
    'White, Fluid Mechanics, section 9.7: isothermal flow with friction',
  ],
  body: ({ bore, length, inlet, outlet, loss, roughness, conditions }) => {
    checkOrder(inlet, outlet);
    return prepareTube({ kind: 'tube', bore, length, loss, roughness }, conditions.gas).throughput(inlet, outlet);
  },
});
