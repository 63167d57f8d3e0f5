import { tubeConductance as conductanceOf } from '../../engine/flow/conductance.ts';
import { defineFunction } from '../define.ts';
import { conditions, quantity } from '../parameters.ts';
import { BORE_LIMIT, KINETIC_SOURCE, LENGTH_LIMIT, OUTLET_LIMIT } from './limits.ts';

export const tubeConductance = defineFunction({
  id: 'TUBE.CONDUCTANCE',
  group: 'Passages',
  summary: 'Conductance of a hose or tube at a mean pressure, for a small pressure difference.',
  parameters: {
    bore: quantity('length', 'mm', 'inside diameter', BORE_LIMIT),
    length: quantity('length', 'm', 'length; 0 is a thin opening', LENGTH_LIMIT),
    pressure: quantity('pressure', 'Pa', 'mean absolute pressure in the tube', OUTLET_LIMIT),
    conditions: conditions(),
  },
  result: { kind: 'number', quantity: 'volume flow', unit: 'L/s', description: 'conductance' },
  examples: [
    {
      formula: '=NARROWS.TUBE.CONDUCTANCE("3/16 in","5 ft","500 micron")',
      shows: 'an ordinary small hose near the target',
    },
    { formula: '=NARROWS.TUBE.CONDUCTANCE(4.76,1.5,0)', shows: 'the same hose in molecular flow, the least it can do' },
    {
      formula: '=NARROWS.TUBE.CONDUCTANCE(9.5,1.5,10,{"Gas","water vapour"})',
      shows: 'a 3/8 in hose for water vapour at 10 Pa',
    },
  ],
  notes: [
    'From molecular through slip to laminar flow, both ends of a short tube included. For a large pressure difference, turbulent or choked flow use TUBE.FLOW.',
  ],
  sources: [KINETIC_SOURCE, 'Berman, J. Appl. Phys. 36 (1965) 3356: transmission probability of short tubes'],
  body: ({ bore, length, pressure, conditions }) => conductanceOf(conditions.gas, bore, length, pressure),
});
